#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "entries/blank_id.h"
#include "entries/blank_state.h"
#include "plan/order/order_plan.h"
#include "plan/shop/shop_plan.h"
#include "read/template.h"

namespace blankwright {

/// Blanks of one order in a bath or a load: their IDs, or in a draft only how many they are.
struct ShareOnPaper {
  std::string order_id;
  int count = 0;                ///< pieces
  std::vector<BlankId> blanks;  ///< of the pieces
  int witness_count = 0;
  std::vector<BlankId> witnesses;  ///< their IDs, likewise
};

/// A bath that blanks of the order are in, with all that is in it besides.
struct BathOnPaper {
  int number = 0;  ///< of the baths of this run, from 1
  const PlannedBath* planned = nullptr;
  std::vector<ShareOnPaper> shares;
};

/// A load of the oven likewise.
struct LoadOnPaper {
  int number = 0;       ///< of the loads of this run, from 1
  int bath_number = 0;  ///< whose blanks these are
  const PlannedLoad* planned = nullptr;
  std::vector<ShareOnPaper> shares;
};

/// What the sheets of an order are made from.
struct Dossier {
  const Order& order;
  const Shop& shop;
  const OrderPlan& plan;
  const OrderTimes& times;
  const Template& sheet_template;
  std::vector<BlankId> blanks;  ///< pieces, then witnesses; empty for a draft, which has none
  bool draft = false;
  Instant at;           ///< the moment of the compile
  std::string program;  ///< "Blankwright 0.1.0"
  std::vector<BathOnPaper> baths{};
  std::vector<LoadOnPaper> loads{};
  int issue = 1;                         ///< number of the traveller's issue, of this order
  std::map<BlankId, BlankState> seen{};  ///< what the register has of the blanks; those it has nothing of are missing
  std::set<BlankId> held{};              ///< of these, those whose gates say HOLD
};

/// How many blanks the sheets speak of, witnesses among them: those issued, or those that a draft would start.
inline int blank_count(const Dossier& d) { return d.draft ? d.plan.blanks() : static_cast<int>(d.blanks.size()); }

/// How many of them are pieces.
inline int piece_count(const Dossier& d) { return blank_count(d) - d.plan.witnesses; }

}  // namespace blankwright

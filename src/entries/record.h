#pragma once

#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "entries/blank_id.h"
#include "entries/blank_state.h"
#include "entries/process_state.h"
#include "entries/statistics.h"

namespace blankwright {

/// How an order's pieces have fared so far; witnesses are not counted.
struct OrderSoFar {
  int good = 0;        ///< issued to it and meant for it still
  int lost = 0;        ///< lost, cut open, replaced, or meant for another order now
  int from_stock = 0;  ///< issued to other orders and meant for this one now; not given up, and not unfit
};

/// What pulled studs have shown: the least that one bore.
struct BondSeen {
  int pulled = 0;
  Stress shear;       ///< at the stud's surface
  Stress wood_shear;  ///< at the bore's surface, by the same force
};

/// What a plan may know of the past: the part of the register that bears on one order, as of one entry.
struct Record {
  std::vector<BlankId> issued_to_order;        ///< pieces, then witnesses, each in the order of issue
  int witnesses = 0;                           ///< of these
  std::vector<BlankState> blanks;              ///< of these, as far as the caller needs them
  std::vector<BlankId> replaced;               ///< of these and of `promised`: they do not fit, and count for nothing
  std::string drying_oven{}, cure_oven{};      ///< that they are planned in, where several would do; empty: the first
  bool no_more_witnesses = false;              ///< than it has: its form was changed, perhaps by mistake
  std::map<std::string, BathState> baths;      ///< that those blanks were in last, by name
  std::map<std::string, LoadState> loads;      ///< that they were cured in
  std::map<BlankId, Instant> in_oven_until{};  ///< of those that are in an oven: what the entries ask for at least
  std::set<BlankId> soak_again{};              ///< wet, whose masses send them back into a bath
  std::set<BlankId> held{};                    ///< whose gates say HOLD; where they are asked for
  std::vector<BlankSummary> promised;          ///< issued to other orders, meant for this one now
  std::optional<YieldCounted> yield;           ///< of the shop
  std::optional<AxisSpread> axis;              ///< of the shop
  std::vector<UptakeSeen> uptake;              ///< of the shop, by kind of wood
  std::optional<BondSeen> bond;                ///< of the shop
};

/// Is a bath still to be planned for a blank? Where it was in none, lies in one whose vacuum is not on yet, so that
/// others can still go in, or has to soak again; not for one that was lost.
bool is_to_be_bathed(const Record& record, const BlankState& blank);

/// Of some blanks, in the order of their issue, those for which a bath is still to be planned, in the turn in which
/// baths take them: first those that lie in a bath already, bath by bath, then as they are given. A blank that the
/// record has nothing of waits for its bath.
std::vector<BlankId> to_be_bathed(const Record& record, std::span<const BlankId> of);

/// The bath that a blank lies in whose vacuum is not on yet; empty where it lies in none.
std::string lies_in(const Record& record, const BlankState& blank);

OrderSoFar order_so_far(const Record& record);

}  // namespace blankwright

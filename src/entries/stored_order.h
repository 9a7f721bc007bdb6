#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "entries/entry.h"
#include "measure/instant.h"

namespace blankwright {

/// What a compile of one order depends on, beside the register and the moment. The texts belong to somebody else:
/// those of the shop and the template are the same for all orders of a run.
struct CompileInputs {
  std::string_view job_text;
  std::string_view shop_text;
  std::string_view template_text;
  std::string_view program_version;
  bool operator==(const CompileInputs&) const = default;
};

/// What an order's job says: kept beside it, so that questions about the whole shop need not read it.
struct OrderGist {
  std::string species, condition, dye;
  int quantity = 0;  ///< pieces that the client wants; 0 where an earlier version of the program stored the order
  bool operator==(const OrderGist&) const = default;
};

/// An order as it was last compiled; from what, its newest print says.
struct StoredOrder {
  std::string id;
  Instant at;  ///< of that compile
  OrderGist gist;
  bool operator==(const StoredOrder&) const = default;
};

/// What an order's paper was made from. A compile that issues makes one where a text or the program's version differs
/// from the order's last print.
struct Print {
  std::string order_id;
  int number = 1;              ///< of the order, from 1
  Instant at;                  ///< the moment that it was planned from
  Instant made;                ///< by the machine's clock
  EntryNumber last_entry = 0;  ///< the register's, those among them that issued the order's blanks
  std::string program_version;
  std::size_t job = 0, shop = 0, template_ = 0;  ///< its texts, by their places among those of the register, from 0
  bool operator==(const Print&) const = default;
};

/// What was planned for an order when a print of it was made, as kept_plan() writes it.
struct PlanOfPrint {
  std::string order_id;
  int number = 1;  ///< of the print
  std::string text;
  bool operator==(const PlanOfPrint&) const = default;
};

/// All that a register holds, apart from its file.
struct RegisterContents {
  BlankId series = BlankId::nth(0);  ///< the first ID of its series
  std::vector<std::string> texts;    ///< of prints, each once
  std::vector<StoredOrder> orders;
  std::vector<Print> prints;  ///< those of an order together, by their numbers
  std::vector<Entry> entries;
  std::vector<PlanOfPrint> plans{};          ///< of some of the prints, in their order
  std::map<EntryNumber, Instant> written{};  ///< when they were entered, by the machine's clock; none: not known
  bool operator==(const RegisterContents&) const = default;
};

/// What an order's paper said at a moment.
struct TextsInForce {
  int print = 1;  ///< its number
  std::string job, shop;
};

}  // namespace blankwright

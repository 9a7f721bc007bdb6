#pragma once

#include <string>
#include <string_view>

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

/// An order as it was last compiled.
struct StoredOrder {
  std::string id;
  std::string job_text, shop_text, template_text, program_version;
  Instant at;  ///< of that compile
  OrderGist gist;
  CompileInputs inputs() const { return {job_text, shop_text, template_text, program_version}; }
  bool operator==(const StoredOrder&) const = default;
};

}  // namespace blankwright

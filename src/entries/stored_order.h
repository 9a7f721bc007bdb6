#pragma once

#include <string>

#include "measure/instant.h"

namespace blankwright {

/// What a compile of one order depends on, beside the register and the moment.
struct CompileInputs {
  std::string job_text;
  std::string shop_text;
  std::string template_text;
  std::string program_version;
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
  CompileInputs inputs;
  Instant at;  ///< of that compile
  OrderGist gist;
  bool operator==(const StoredOrder&) const = default;
};

}  // namespace blankwright

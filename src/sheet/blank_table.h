#pragma once

#include <span>
#include <string>

#include "sheet/table.h"

namespace blankwright {

/// A field to write in, with what stands at its head.
struct BlankField {
  std::string head;
  Column column;
};

/// A table with a row a blank: its number, its ID in large letters (blank in a draft, which has none), then the
/// fields. `note` stands above it.
void put_blank_table(Flow& flow, const std::string& note, std::span<const BlankField> fields);

}  // namespace blankwright

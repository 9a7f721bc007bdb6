#pragma once

#include <span>
#include <string>
#include <vector>

#include "sheet/frame/table.h"

namespace blankwright {

/// A column of a table of blanks, with what stands at its head.
struct BlankField {
  std::string head;
  Column column;
  std::vector<std::string> filled = {};  ///< what stands in it, blank by blank; nothing: to write in
};

/// A table with a row a blank: its number, its ID in capitals that high (blank in a draft, which has none), then the
/// fields. `note` stands above it.
void put_blank_table(OrderFlow& flow, const std::string& note, std::span<const BlankField> fields,
                     Length id_capitals = 4 * mm);

}  // namespace blankwright

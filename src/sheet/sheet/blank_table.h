#pragma once

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

/// The head of a column names the one unit that all its numbers are in: "Wet mass (g)".
std::string mass_head(const Dossier& dossier, Word word);
std::string length_head(const Dossier& dossier, Word word);

/// A table with a row for each of the first `count` blanks: its number, its ID in that size (blank in a
/// draft, which has none), then the fields.
struct BlankTable {
  int count = 0;
  Lettering id_size = Lettering::machine;
  std::vector<BlankField> fields;
};
void put_blank_table(OrderFlow& flow, const BlankTable& blanks);

/// Whether a table of so many blanks is too short to be parted: in a flow that has begun.
bool stands_together(const OrderFlow& flow, int count);

}  // namespace blankwright

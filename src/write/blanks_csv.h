#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheet/paper/dossier.h"

namespace blankwright {

/// An order's blanks as a table (CSV, RFC 4180), a row each: its ID (empty in a draft), number, whether it is a piece
/// or a witness, wood, board and place on it, sawn size in the shop's units (mm or in) and the numbers of its bath
/// and load. What is not known is empty.
std::string blanks_csv(const Dossier& dossier);

/// The IDs in such a table: in the first cell of each line, also where a spreadsheet has parted cells in another way
/// or put them in quotation marks. What is no ID is passed over.
std::vector<BlankId> ids_of_blanks_csv(std::string_view text);

}  // namespace blankwright

#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "entries/entry.h"
#include "read/shape.h"

namespace blankwright {

/// Entries of a table, and the line on which each began.
struct CsvEntries {
  std::vector<Entry> entries;
  std::vector<int> lines;
};

/// Reads a table of entries: CSV (RFC 4180) in UTF-8 with a header row that names columns in any order: kind, blank,
/// at, person, replaces, override, and the fields of entries. The header tells by what cells are parted: comma,
/// semicolon or tab. Empty cells say nothing, empty rows are passed over. `at` is a moment as read_moment() takes it,
/// days back from `now`; where it is empty that is not said. At most 100,000 rows. The last line has a line end, too:
/// without one the table may have been cut short within a figure.
///
/// Either every row is an entry, or each that is none is told with its line: "line 7: weighed needs mass …".
tl::expected<CsvEntries, std::vector<std::string>> read_entries_csv(std::string_view text, Instant now,
                                                                    const Zone& zone);

/// The columns that such a table may have, for help and schema.
std::vector<KeyInfo> entry_key_infos();

}  // namespace blankwright

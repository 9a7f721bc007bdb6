#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace blankwright {

/// An answer to a question: facts by name, and a table.
struct Answer {
  std::vector<std::pair<std::string, std::string>> facts;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;  ///< as many cells each as there are columns
};

/// For a terminal: the facts a line each, then the table with its columns aligned by code points. Control characters,
/// which could upset the terminal, become "?".
std::string answer_as_text(const Answer& answer);

/// The table as CSV (RFC 4180), with a header row, lines ended by CR LF. A cell that a spreadsheet could take for a
/// formula (it begins with = + - @, tab or CR, and is no plain number) gets an apostrophe in front.
std::string answer_as_csv(const Answer& answer);

/// Facts and table as JSON (RFC 8259): {"facts": {…}, "rows": [{…}, …]}, all values as texts;
/// facts of one name are one, parted by "; ".
std::string answer_as_json(const Answer& answer);

/// One of the three, by "text", "csv" or "json".
std::string answer_as(std::string_view form, const Answer& answer);

}  // namespace blankwright

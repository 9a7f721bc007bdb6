#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnose/saying.h"
#include "diagnose/sentence.h"

namespace blankwright {

/// A mistake that a line shows by itself, and the line as it should be, without what stands before and behind it.
struct LineMistake {
  Sentence<0> says;
  std::string better;
};

/// One mistake of the table: whether a line shows it.
using LineRule = std::optional<LineMistake> (*)(const std::string& line);

/// The rules that tell by one line alone, in the order in which they are tried.
const std::vector<LineRule>& line_rules();

/// A day as TOML has it, of one with points, slashes or without its zeros: "2027-06-30" of "30.6.2027". Two, parted
/// by "or", where day and month could be either; none where it is no date.
std::optional<std::string> date_meant(const std::string& typed);

/// A line without its remark and the spaces around it. A # in quotes begins no remark.
std::string without_remark(const std::string& line);

}  // namespace blankwright

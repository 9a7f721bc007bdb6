#include "read/read_file.h"

#include <algorithm>

#include "diagnose/problem.h"
#include "diagnose/says_read.h"

namespace blankwright {

std::optional<Node> read_versioned(const Source& source, Diagnostics& out) {
  auto document = read_document(source, out);
  if (!document) return std::nullopt;
  const auto format = std::find_if(document->members.begin(), document->members.end(),
                                   [](const Member& m) { return m.key == "format"; });
  if (format == document->members.end()) {
    out.error(Problem::format_missing, {source, 1, 1, 1}, says::no_format).hint(says::put_format, newest_format);
    return std::nullopt;
  }
  const Node& value = format->value;
  if (value.type != Node::Type::count || value.count < 1) {
    out.error(Problem::wrong_type, value.at, says::format_no_number)
        .hint(says::key_is, Keyword{"format"}, newest_format);
    return std::nullopt;
  }
  if (value.count > newest_format) {
    out.error(Problem::format_newer, value.at, says::newer_format, value.count, newest_format)
        .hint(says::use_newer_program);
    return std::nullopt;
  }
  return document;
}

}  // namespace blankwright

#include "read/read_file.h"

#include <algorithm>

#include "diagnose/problem.h"

namespace blankwright {

std::optional<Node> read_versioned(const Source& source, Diagnostics& out) {
  auto document = read_document(source, out);
  if (!document) return std::nullopt;
  const auto format = std::find_if(document->members.begin(), document->members.end(),
                                   [](const Member& m) { return m.key == "format"; });
  if (format == document->members.end()) {
    out.error(Problem::format_missing, {source, 1, 1, 1}, "the file does not say which format it is written in")
        .hint(fmt::format("put format = {} on the first line", newest_format));
    return std::nullopt;
  }
  const Node& value = format->value;
  if (value.type != Node::Type::count || value.count < 1) {
    out.error(Problem::wrong_type, value.at, "`format` is not a whole number from 1 up")
        .hint(fmt::format("format = {}", newest_format));
    return std::nullopt;
  }
  if (value.count > newest_format) {
    out.error(
           Problem::format_newer, value.at,
           fmt::format("the file is written in format {}; this program reads up to {}", value.count, newest_format))
        .hint("use a newer version of the program");
    return std::nullopt;
  }
  return document;
}

}  // namespace blankwright

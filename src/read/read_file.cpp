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

namespace {

/// Where a `format` stands in a table: a file that was put behind another one.
std::optional<Place> second_format(const Node& node, bool in_table) {
  for (const Member& member : node.members) {
    if (in_table && member.key == "format") return member.key_at;
    if (const auto found = second_format(member.value, true)) return found;
  }
  for (const Node& item : node.items) {
    if (const auto found = second_format(item, true)) return found;
  }
  return std::nullopt;
}

}  // namespace

bool is_other_file(const Node& document, Origin wanted, Diagnostics& out) {
  const auto has_any = [&](std::initializer_list<std::string_view> keys) {
    return std::ranges::any_of(
        document.members, [&](const Member& member) { return std::ranges::find(keys, member.key) != keys.end(); });
  };
  const bool has_job = has_any({"client", "item", "quantity", "handle", "stud", "wood"});
  const bool has_shop = has_any({"zone", "hours", "routing", "boring", "vessels", "ovens"});
  if (has_job && has_shop) {
    const auto behind = second_format(document, false);
    if (behind) out.error(Problem::wrong_file, *behind, says::two_files_in_one).hint(says::another_file_begins);
    return behind.has_value();
  }
  if (wanted == Origin::job && has_shop) {
    out.error(Problem::wrong_file, {document.at.source, 1, 1, 1}, says::a_shop_file).hint(says::shop_is_read_anyway);
    return true;
  }
  if (wanted == Origin::shop && has_job) {
    out.error(Problem::wrong_file, {document.at.source, 1, 1, 1}, says::a_job_file).hint(says::shop_beside);
    return true;
  }
  return false;
}

}  // namespace blankwright

#pragma once

#include <fmt/format.h>

#include "read/keys.h"

namespace blankwright {

inline constexpr int newest_format = 1;

/// The document of a file whose `format` this program reads; a newer one is refused before anything else is looked
/// at.
std::optional<Node> read_versioned(const Source& source, Diagnostics& out);

/// Says so where a document is a shop file in a job's place, or the other way round.
bool is_other_file(const Node& document, Origin wanted, Diagnostics& out);

/// Reads a whole file of facts: document, format, then every key.
template <class Facts>
std::optional<Facts> read_facts(const Source& source, Origin origin, Facts start, Diagnostics& out) {
  const auto document = read_versioned(source, out);
  if (!document || is_other_file(*document, origin, out)) return std::nullopt;
  Reading in{origin, out};
  for (const Key& key : Keys<Facts>::list) in.top.emplace_back(key.name);
  if (!read_table(*document, start, in)) return std::nullopt;
  return start;
}

}  // namespace blankwright

#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "diagnose/diagnostics.h"

namespace blankwright {

struct Member;

/// A TOML value with its place: what the rest of `read` works on, so that one file alone knows the TOML library.
struct Node {
  enum class Type { text, count, real, truth, date, moment, list, table };
  Type type = Type::table;
  std::string text;  ///< of a text; of other scalars as written
  std::int64_t count = 0;
  bool truth = false;
  std::chrono::year_month_day date{};
  std::vector<Node> items;
  std::vector<Member> members;  ///< in the order of the file
  Place at;
};

struct Member {
  std::string key;
  Place key_at;
  Node value;
};

/// The type in words that a user of TOML knows: "text", "table".
Sentence<0> type_name(Node::Type type);

/// Largest file that is read. A job is a few kilobytes; the cap keeps a mistaken file name from filling the memory.
inline constexpr std::size_t largest_file = 4 * 1024 * 1024;

/// What stands in the file from a place on, to the end of its line.
std::string_view written_at(const Place& at);

/// Reads TOML 1.0. Whatever the bytes are, the answer is a document or a diagnostic: too large, not UTF-8, not TOML,
/// nested too deep (also through dotted keys).
std::optional<Node> read_document(const Source& source, Diagnostics& out);

}  // namespace blankwright

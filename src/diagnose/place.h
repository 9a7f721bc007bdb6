#pragma once

#include <memory>
#include <string>

namespace blankwright {

/// A file that the user wrote, under the name by which the user called it.
struct SourceText {
  std::string name;
  std::string text;
};
using Source = std::shared_ptr<const SourceText>;

/// A stretch of one line of a source. Lines and columns count from 1, columns in code points.
/// Line 0 means the file as a whole; no source at all means a place outside all files.
struct Place {
  Source source;
  int line = 0;
  int column = 1;
  int length = 1;
};

/// Where a value came from.
enum class Origin { job, shop, standard, entry };

/// A value and where it came from. `source` tells whose figure a standard value is.
template <class T>
struct Given {
  T value{};
  Origin origin = Origin::standard;
  Place at{};
  std::string source{};
};

/// A value that holds until the user says otherwise, and whose it is.
template <class T>
Given<T> standard_value(T value, std::string source) {
  return {std::move(value), Origin::standard, {}, std::move(source)};
}

/// Whose figure a standard value is when the trade does it so and nobody published it.
inline constexpr const char* common_practice = "common practice, no source";

}  // namespace blankwright

#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace blankwright {

/// An order as somebody may write it, made from a number: the same number gives the same order. It is invented
/// throughout; not every one can be made.
struct RandomOrder {
  explicit RandomOrder(std::uint64_t seed);

  std::string shop;      ///< of the samples: "metric", "inch"
  std::string paper;     ///< "a4", "letter"
  int lettering;         ///< of its template, in percent
  std::string id, text;  ///< of the job
};

}  // namespace blankwright

#include "entries/blank_state.h"

#include <algorithm>

namespace blankwright {
namespace {

constexpr std::array<std::string_view, 14> stages{"begun",   "in-bath",  "wet",      "in-oven",  "cured",
                                                  "squared", "bored",    "stud-set", "turned",   "inspected",
                                                  "sent",    "cut-open", "scrapped", "withdrawn"};

}  // namespace

std::string_view name_of(Stage stage) { return stages.at(static_cast<std::size_t>(stage)); }

std::optional<Stage> stage_named(std::string_view name) {
  const auto* const found = std::ranges::find(stages, name);
  if (found == stages.end()) return std::nullopt;
  return static_cast<Stage>(found - stages.begin());
}

}  // namespace blankwright

#pragma once

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "workshop.h"

namespace blankwright {

/// The metric sample, issued, and its blanks entered of from step to step at the bench's own times.
struct Work : Workshop {
  using Json = nlohmann::json;
  std::vector<std::string> blanks;

  explicit Work(const std::string& only = "plan");

  /// An entry of some of the blanks, `after_hours` after what was entered last.
  void enter(int after_hours, const std::string& kind, std::size_t count, std::vector<std::string> words = {},
             std::size_t first = 0);
  /// The order's operations as a compile plans them now, by name.
  std::map<std::string, Json> plan();
  /// The rows of today's list, by section.
  std::map<std::string, std::vector<Json>> today(std::vector<std::string> flags = {});

  void weigh_dry(int hours_in_oven = 44);
  void into_bath(std::size_t count, int hours_in_oven = 44);
};

/// Of the runs of an operation in plan.json.
int blanks_of(const nlohmann::json& op, bool done);
/// A moment of the shop's clock as plan.json has it.
std::string moment(std::int64_t at);

}  // namespace blankwright

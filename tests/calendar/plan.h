#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "clock.h"

namespace calendar_rules {

struct HandsOn {
  Span at;
  std::string who;
  auto operator<=>(const HandsOn&) const = default;
};

struct Run {
  Span at;
  std::string resource{};
  std::optional<int> bath{}, load{};  ///< by the numbers of this compile
  std::string name{};                 ///< of what is under way, as it was entered
  int blanks = 0;                     ///< of the order; 0: all that there are
  std::vector<HandsOn> hands_on{};
  bool begun = false, done = false;
};

struct PlannedOperation {
  std::string name, who;
  Span at;
  std::vector<Run> runs;
};

struct PlannedBath {
  int number = 0, count = 0;
  std::vector<std::string> blanks;
  std::string vessel, resin, dye;
  double start_height_mm = 0;
};

struct PlannedLoad {
  int number = 0, bath = 0;
  std::string oven;
  std::vector<std::string> blanks;
};

/// What `plan.json` says of one order, as far as the calendar's rules ask for it.
struct Plan {
  std::string id;
  Instant at;
  std::vector<std::string> pieces, witnesses;
  double sawn_section_mm = 0, sawn_length_mm = 0, dry_section_mm = 0, dry_length_mm = 0;
  double dry_mass_g = 0, wet_mass_g = 0;
  Minutes dries{}, pumps_down{}, cures{};  ///< at least; 0: not at all
  std::vector<PlannedBath> baths;
  std::vector<PlannedLoad> loads;
  std::vector<PlannedOperation> schedule;
  Instant finish;
  std::optional<double> late_by_h;
  struct Warning {
    std::string problem, text;
  };
  std::vector<Warning> warnings;
  bool warns(const std::string& problem, const std::string& of = "") const;  ///< with these words in its text
  std::vector<std::string> blanks() const;                                   ///< pieces and witnesses
};

/// Throws std::runtime_error where a moment is not told by the shop's clock.
Plan read_plan(const std::filesystem::path& file, const Zone& zone);

}  // namespace calendar_rules

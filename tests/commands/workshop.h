#pragma once

#include <string>
#include <vector>

#include "program.h"

namespace blankwright {

inline constexpr std::int64_t noon = 1809345600;  // 2027-05-03T12:00:00Z

/// The metric sample, compiled, so that there are blanks; its first ones are NG7-32GX, JF2-T4JV, SG8-CRCT.
struct Workshop {
  SampleJobs jobs;
  std::string shop = jobs / "metric/shop.toml";
  std::int64_t now = noon;

  /// `only` these documents are printed, as `compile --only` has them.
  explicit Workshop(const std::string& only = "plan");
  ProgramRun run(std::vector<std::string> arguments, const std::string& typed = {});
  /// What the bench answers to each line.
  std::vector<std::string> bench(const std::string& typed);
  void hours(int count) { now += 3600 * count; }
};

inline bool is_refused(const std::string& line) { return line.starts_with("NO ") && line.ends_with("\a"); }

}  // namespace blankwright

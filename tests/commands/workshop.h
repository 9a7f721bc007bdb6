#pragma once

#include <doctest/doctest.h>

#include <sstream>
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

  Workshop() {
    REQUIRE(run_program({"compile", "--quiet", "--only", "plan", "--out", jobs.out(), jobs / "metric/burnisher.toml"},
                        now)
                .exit == Exit::done);
  }
  ProgramRun run(std::vector<std::string> arguments, const std::string& typed = {}) {
    arguments.insert(arguments.end(), {"--shop", shop});
    return run_program(std::move(arguments), now, typed);
  }
  /// What the bench answers to each line.
  std::vector<std::string> bench(const std::string& typed) {
    const ProgramRun ran = run({"bench"}, typed);
    CHECK(ran.exit == Exit::done);
    std::istringstream out{ran.out};
    std::vector<std::string> lines;
    for (std::string line; std::getline(out, line);) lines.push_back(line);
    lines.erase(lines.begin());  // the greeting
    return lines;
  }
  void hours(int count) { now += 3600 * count; }
};

inline bool is_refused(const std::string& line) { return line.starts_with("NO ") && line.ends_with("\a"); }

}  // namespace blankwright

#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "program.h"

namespace blankwright {

/// The metric sample at work: its order is compiled, and things are entered as they happen, hours after noon of
/// 3 May 2027 UTC.
struct BenchOfWork {
  SampleJobs jobs;
  std::string shop = jobs / "metric/shop.toml";
  std::vector<std::string> blanks;  ///< pieces, then the witness
  double dry_g = 0, wet_g = 0;      ///< of a nominal blank: oven-dry, and wet when it is as full as it has to be

  BenchOfWork();
  static std::int64_t moment(double hours) { return 1809345600 + static_cast<std::int64_t>(3600 * hours); }
  static std::string grams(double mass) { return fmt::format("mass={:.1f} g", mass); }

  ProgramRun run(double hours, std::vector<std::string> arguments, const std::string& typed = {}) const;
  /// What the terminal says when that is entered then.
  std::string enter(double hours, std::vector<std::string> words) const;
  std::string ask(double hours, const std::string& blank) const { return run(hours, {"ask", "blank", blank}).out; }

  /// Words that enter an axis in the middle of a blank of 41 mm, without lean.
  static std::vector<std::string> axis(const std::string& kind, const std::string& id);

  /// The bath's times: vacuum on, target, bubbles, release, out, in hours.
  struct Bath {
    double on, target, bubbles, release, out;
  };
  /// Dries, bathes and weighs wet, as planned or with other times.
  void bathe(const std::vector<std::string>& ids, Bath t = {4, 4.1, 10.1, 10.2, 23}) const;
};

inline bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

}  // namespace blankwright

#pragma once

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <fstream>
#include <nlohmann/json.hpp>
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

  BenchOfWork() {
    const ProgramRun ran = run_program(
        {"compile", "--quiet", "--only", "plan", "--out", jobs.out(), jobs / "metric/burnisher.toml"}, moment(-24));
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
    std::ifstream file{jobs.out() + "/TA-0147/plan.json"};
    const auto plan = nlohmann::json::parse(file);
    for (const auto& blank : plan.at("blanks")) blanks.push_back(blank.at("id"));
    dry_g = plan.at("uptake").at("dry_mass_g");
    wet_g = plan.at("uptake").at("least_wet_mass_g").get<double>() + 2;
  }
  static std::int64_t moment(double hours) { return 1809345600 + static_cast<std::int64_t>(3600 * hours); }
  static std::string grams(double mass) { return fmt::format("mass={:.1f} g", mass); }

  ProgramRun run(double hours, std::vector<std::string> arguments, const std::string& typed = {}) const {
    arguments.insert(arguments.end(), {"--shop", shop});
    return run_program(std::move(arguments), moment(hours), typed);
  }
  /// What the terminal says when that is entered then.
  std::string enter(double hours, std::vector<std::string> words) const {
    words.insert(words.begin(), "enter");
    const ProgramRun ran = run(hours, std::move(words));
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
    return ran.out;
  }
  std::string ask(double hours, const std::string& blank) const { return run(hours, {"ask", "blank", blank}).out; }

  /// Words that enter an axis in the middle of a blank of 41 mm, without lean.
  static std::vector<std::string> axis(const std::string& kind, const std::string& id) {
    return {kind,
            id,
            "face_1=20.5 mm",
            "face_2=20.5 mm",
            "face_3=20.5 mm",
            "face_4=20.5 mm",
            "lean_1=0 mm",
            "lean_2=0 mm",
            "over=100 mm"};
  }

  /// The bath's times: vacuum on, target, bubbles, release, out, in hours.
  struct Bath {
    double on, target, bubbles, release, out;
  };
  /// Dries, bathes and weighs wet, as planned or with other times.
  void bathe(const std::vector<std::string>& ids, Bath t = {4, 4.1, 10.1, 10.2, 23}) const {
    for (const double hours : {0.0, 2.5}) {
      for (const std::string& id : ids) enter(hours, {"weighed", id, grams(dry_g)});
    }
    for (const std::string& id : ids) enter(3, {"into-bath", id, "bath=K2"});
    enter(t.on, {"vacuum-on", "bath=K2"});
    enter(t.target, {"target-reached", "bath=K2", "gauge=90 kPa"});
    enter(t.bubbles, {"bubbling-ended", "bath=K2"});
    enter(t.release, {"released", "bath=K2"});
    for (const std::string& id : ids) {
      enter(t.out, {"drained", id});
      enter(t.out, {"weighed", id, grams(wet_g)});
    }
  }
};

inline bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

}  // namespace blankwright

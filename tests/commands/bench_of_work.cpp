#include "bench_of_work.h"

#include <doctest/doctest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <utility>

namespace blankwright {

BenchOfWork::BenchOfWork() {
  const ProgramRun ran = run_program(
      {"compile", "--quiet", "--only", "plan", "--out", jobs.out(), jobs / "metric/burnisher.toml"}, moment(-24));
  REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  std::ifstream file{jobs.out() + "/TA-0147/plan.json"};
  const auto plan = nlohmann::json::parse(file);
  for (const auto& blank : plan.at("blanks")) blanks.push_back(blank.at("id"));
  dry_g = plan.at("uptake").at("dry_mass_g");
  wet_g = plan.at("uptake").at("least_wet_mass_g").get<double>() + 2;
}

ProgramRun BenchOfWork::run(double hours, std::vector<std::string> arguments, const std::string& typed) const {
  arguments.insert(arguments.end(), {"--shop", shop});
  return run_program(std::move(arguments), moment(hours), typed);
}

std::string BenchOfWork::enter(double hours, std::vector<std::string> words) const {
  words.insert(words.begin(), "enter");
  const ProgramRun ran = run(hours, std::move(words));
  REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  return ran.out;
}

std::vector<std::string> BenchOfWork::axis(const std::string& kind, const std::string& id) {
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

void BenchOfWork::bathe(const std::vector<std::string>& ids, Bath t) const {
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

}  // namespace blankwright

#include "plan.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace calendar_rules {
namespace {

using nlohmann::json;

std::string text_or_none(const json& value) { return value.is_string() ? value.get<std::string>() : ""; }
double number_or_0(const json& value) { return value.is_number() ? value.get<double>() : 0; }
Minutes whole_minutes(double minutes) { return Minutes{static_cast<long>(std::ceil(minutes - 1e-6))}; }

std::optional<int> number_or_none(const json& value) {
  return value.is_number() ? std::optional{value.get<int>()} : std::nullopt;
}

/// Reads one order's plan.
class Reader {
 public:
  Reader(const json& root, const Zone& zone) : root_{root}, zone_{zone} {}

  Plan plan() const {
    Plan plan;
    plan.id = root_["order"]["id"];
    plan.at = moment(root_["at"]);
    for (const json& blank : root_["blanks"])
      (blank["witness"] ? plan.witnesses : plan.pieces).push_back(blank["id"]);
    set_sizes(plan);
    for (const json& bath : root_["baths"])
      plan.baths.push_back({bath["number"], bath["count"], bath["blanks"], text_or_none(bath["vessel"]),
                            text_or_none(bath["resin"]), text_or_none(bath["dye"]),
                            number_or_0(bath["start_height_mm"])});
    for (const json& load : root_["cure"]["loads"])
      plan.loads.push_back({load["number"], load["bath"], load["oven"], load["blanks"]});
    for (const json& op : root_["schedule"]) plan.schedule.push_back(operation(op));
    plan.finish = moment(root_["delivery"]["earliest_finish"]);
    if (const json& late = root_["delivery"]["late_by_h"]; late.is_number()) plan.late_by_h = late.get<double>();
    for (const json& warning : root_["warnings"]) plan.warnings.push_back({warning["problem"], warning["text"]});
    return plan;
  }

 private:
  void set_sizes(Plan& plan) const {
    const json& blank = root_["blank"];
    plan.dry_section_mm = number_or_0(blank["dry_section_mm"]);
    plan.dry_length_mm = number_or_0(blank["dry_length_mm"]);
    plan.sawn_section_mm = number_or_0(blank["sawn_section_mm"]);
    plan.sawn_length_mm = number_or_0(blank["sawn_length_mm"]);
    plan.dry_mass_g = number_or_0(root_["uptake"]["dry_mass_g"]);
    plan.wet_mass_g = plan.dry_mass_g + number_or_0(root_["uptake"]["resin_high_g"]);
    plan.dries = whole_minutes(60 * number_or_0(root_["drying"]["least_h"]));
    plan.pumps_down = whole_minutes(number_or_0(root_["vacuum"]["pump_down_min"]));
    plan.cures = whole_minutes(number_or_0(root_["cure"]["total_min"]));
  }

  Instant moment(const json& value) const {
    const Told told = told_moment(value.get<std::string>());
    if (told.ahead != zone_.ahead_of_utc(told.at))
      throw std::runtime_error{value.get<std::string>() + " is not by the shop's clock"};
    return told.at;
  }
  Span span(const json& value) const { return {moment(value["start"]), moment(value["end"])}; }

  /// Who is at it is told part by part where several could do it.
  Run run(const json& row, const std::string& who) const {
    Run run{.at = span(row), .resource = text_or_none(row["resource"])};
    run.bath = number_or_none(row["bath"]);
    run.load = number_or_none(row["load"]);
    run.name = text_or_none(row["name"]);
    run.blanks = number_or_none(row["blanks"]).value_or(0);
    for (const json& part : row["hands_on"]) run.hands_on.push_back({span(part), part.value("who", who)});
    run.begun = row["begun"];
    run.done = row["done"];
    return run;
  }

  PlannedOperation operation(const json& row) const {
    PlannedOperation op{row["op"], row["who"], span(row), {}};
    for (const json& one : row["runs"]) op.runs.push_back(run(one, op.who));
    return op;
  }

  const json& root_;
  const Zone& zone_;
};

}  // namespace

bool Plan::warns(const std::string& problem, const std::string& of) const {
  return std::ranges::any_of(
      warnings, [&](const Warning& one) { return one.problem == problem && one.text.find(of) != std::string::npos; });
}

std::vector<std::string> Plan::blanks() const {
  std::vector<std::string> all = pieces;
  all.insert(all.end(), witnesses.begin(), witnesses.end());
  return all;
}

Plan read_plan(const std::filesystem::path& file, const Zone& zone) {
  std::ifstream in{file};
  const json root = json::parse(in);
  return Reader{root, zone}.plan();
}

}  // namespace calendar_rules

#include "shop_at_work.h"

#include <doctest/doctest.h>

#include <utility>

#include "register/register.h"

namespace blankwright {

using Json = nlohmann::json;

Work::Work(const std::string& only) : Workshop{only} {
  Register known{jobs / "metric/shop.register"};
  for (const BlankId& id : known.issued_to("TA-0147")) blanks.push_back(id.shown());
}

void Work::enter(int after_hours, const std::string& kind, std::size_t count, std::vector<std::string> words,
                 std::size_t first) {
  hours(after_hours);
  std::vector<std::string> arguments{"enter", "--quiet", kind};
  for (std::size_t i = first; i < first + count; ++i) arguments.push_back(blanks.at(i));
  arguments.insert(arguments.end(), words.begin(), words.end());
  const ProgramRun entered = run(arguments);
  REQUIRE_MESSAGE(entered.exit == Exit::done, entered.errors);
}

std::map<std::string, Json> Work::plan() {
  const ProgramRun compiled = run({"compile", "--quiet", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
  REQUIRE_MESSAGE(compiled.exit == Exit::done, compiled.errors);
  std::map<std::string, Json> operations;
  const Json written = Json::parse(bytes_of(jobs.out() + "/TA-0147/plan.json"));
  for (const Json& op : written["schedule"]) {
    operations.emplace(op["op"].get<std::string>(), op);
  }
  return operations;
}

std::map<std::string, std::vector<Json>> Work::today(std::vector<std::string> flags) {
  std::vector<std::string> arguments{"today", "--as", "json"};
  arguments.insert(arguments.end(), flags.begin(), flags.end());
  const ProgramRun told = run(arguments);
  REQUIRE_MESSAGE(told.exit == Exit::done, told.errors);
  std::map<std::string, std::vector<Json>> sections;
  const Json list = Json::parse(told.out);
  for (const Json& section : list["sections"]) {
    auto& rows = sections[section["section"].get<std::string>()];
    for (const Json& row : section["rows"]) rows.push_back(row);
  }
  return sections;
}

void Work::weigh_dry(int hours_in_oven) {
  enter(0, "board", 0, {"board=A1"});
  enter(1, "sawn", blanks.size(), {"board=A1"});
  enter(1, "moisture", blanks.size(), {"moisture=9 %"});
  enter(1, "into-drying", blanks.size(), {"load=D1"});
  enter(hours_in_oven, "out-of-drying", blanks.size());
  enter(2, "measured", blanks.size(), {"width=41 mm", "depth=41 mm", "length=153 mm"});
  enter(0, "weighed", blanks.size(), {"mass=110 g"});
}

void Work::into_bath(std::size_t count, int hours_in_oven) {
  weigh_dry(hours_in_oven);
  enter(0, "into-bath", count, {"bath=B1", "vessel=trough"});
  enter(0, "vacuum-on", 0, {"bath=B1"});
}

int blanks_of(const Json& op, bool done) {
  int count = 0;
  for (const Json& run : op["runs"]) {
    if (run["done"] == done && run["blanks"].is_number()) count += run["blanks"].get<int>();
  }
  return count;
}

std::string moment(std::int64_t at) {
  return local_text(*find_zone("Europe/Berlin"), Instant{std::chrono::seconds{at}});
}

}  // namespace blankwright

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string_view>

#include "shop.h"

namespace calendar_rules {
namespace {

constexpr std::array<std::string_view, 7> days_of_week{"monday", "tuesday",  "wednesday", "thursday",
                                                       "friday", "saturday", "sunday"};

std::string stretches_text(const std::vector<Stretch>& stretches) {
  std::vector<std::string> all;
  const auto clock = [](Minutes at) { return fmt::format("{:02}:{:02}", at.count() / 60, at.count() % 60); };
  for (const Stretch& one : stretches) all.push_back(fmt::format("\"{}-{}\"", clock(one.from), clock(one.to)));
  return fmt::format("[{}]", fmt::join(all, ", "));
}

std::string dates_text(const std::vector<Date>& dates) {
  std::vector<std::string> all;
  for (const Date& date : dates) all.push_back(date_text(date));
  return fmt::format("[{}]", fmt::join(all, ", "));
}

std::vector<std::string> keys_of(const Hours& open) {
  std::vector<std::string> keys;
  for (std::size_t day = 0; day < days_of_week.size(); ++day) {
    if (!open.week.at(day).empty())
      keys.push_back(fmt::format("{} = {}", days_of_week.at(day), stretches_text(open.week.at(day))));
  }
  if (!open.days_off.empty()) keys.push_back("days_off = " + dates_text(open.days_off));
  return keys;
}

std::string outages_text(const std::vector<Outage>& outages, const Zone& zone) {
  std::vector<std::string> all;
  for (const Outage& one : outages) {
    // Of whole days the last one is named, too.
    const std::string from = one.whole_days ? zone.date_text(one.at.from) : '"' + zone.clock_text(one.at.from) + '"';
    const std::string to =
        one.whole_days ? zone.date_text(one.at.to - Minutes{1}) : '"' + zone.clock_text(one.at.to) + '"';
    all.push_back(fmt::format("{{from = {}, to = {}}}", from, to));
  }
  return fmt::format("[{}]", fmt::join(all, ", "));
}

std::string span_text(Minutes span) { return fmt::format("\"{} min\"", span.count()); }

std::string_view planned_text(Work planned) {
  switch (planned) {
    case Work::no:
      return "";
    case Work::drying:
      return "drying";
    case Work::cooling:
      return "cooling";
    case Work::vacuum:
      return "vacuum";
    case Work::soak:
      return "soak";
    case Work::cure:
      return "cure";
    case Work::glue_setting:
      return "glue-setting";
  }
  return "";
}

/// A table of the file, key by key.
class ShopTable {
 public:
  ShopTable(std::string& out, std::string_view head) : out_{out} { out_ += fmt::format("\n{}\n", head); }
  ShopTable& line(std::string_view key, std::string_view value) {
    out_ += fmt::format("{} = {}\n", key, value);
    return *this;
  }
  ShopTable& text(std::string_view key, std::string_view value) {
    return value.empty() ? *this : line(key, fmt::format("\"{}\"", value));
  }
  ShopTable& mm(std::string_view key, int value) {
    return value == 0 ? *this : text(key, fmt::format("{} mm", value));
  }
  ShopTable& span(std::string_view key, std::optional<Minutes> value) {
    return value ? line(key, span_text(*value)) : *this;
  }
  ShopTable& is(std::string_view key, bool value) { return value ? line(key, "true") : *this; }
  ShopTable& outages(std::string_view key, const std::vector<Outage>& all, const Zone& zone) {
    return all.empty() ? *this : line(key, outages_text(all, zone));
  }

 private:
  std::string& out_;
};

void write_process(std::string& out, const Shop& shop) {
  ShopTable{out, "[yield]"}.text("expected", shop.yield);
  ShopTable{out, "[drying]"}
      .span("cool", shop.cool)
      .span("between_weighings", shop.between_weighings)
      .line("times",
            fmt::format("[{{thickness = \"30 mm\", at_least = {}}}, {{thickness = \"60 mm\", at_least = {}}}]",
                        span_text(shop.dries_30_mm), span_text(shop.dries_60_mm)));
  ShopTable{out, "[glue]"}.span("set_time", shop.glue_sets);
  ShopTable{out, "[pump]"}.is("unattended", shop.pump_alone);
  ShopTable{out, "[vacuum]"}.span("hold", shop.hold).text("soak", fmt::format("{} %", shop.soak_percent));
}

void add_places(std::string& out, const Shop& shop, const Zone& zone) {
  for (const Vessel& vessel : shop.vessels) {
    ShopTable{out, "[[vessels]]"}
        .text("name", vessel.name)
        .text("shape", vessel.diameter_mm == 0 ? "rectangular" : "round")
        .mm("diameter", vessel.diameter_mm)
        .mm("width", vessel.width_mm)
        .mm("depth", vessel.depth_mm)
        .mm("height", vessel.height_mm)
        .mm("usable_height", vessel.usable_mm)
        .outages("outages", vessel.outages, zone);
  }
  for (const Resin& resin : shop.resins) {
    ShopTable{out, "[[resins]]"}
        .text("name", resin.name)
        .text("density", "1.05 g/cm3")
        .line("dyes", fmt::format("[\"{}\"]", fmt::join(shop.dyes, "\", \"")))
        .text("cure_air", fmt::format("{} °C", resin.cure_air_C))
        .text("cure_core", fmt::format("{} °C", resin.cure_core_C))
        .span("cure_hold", resin.cure_hold);
  }
  for (const Oven& oven : shop.ovens) {
    ShopTable{out, "[[ovens]]"}
        .text("name", oven.name)
        .mm("width", oven.width_mm)
        .mm("depth", oven.depth_mm)
        .mm("height", oven.height_mm)
        .line("shelves", std::to_string(oven.shelves))
        .line("calibration",
              fmt::format("[{{dial = \"60 °C\", shown = \"59 °C\"}}, {{dial = \"{} °C\", shown = \"{} °C\"}}]",
                          oven.hottest_C, oven.hottest_C - 1))
        .is("unattended_drying", oven.dries_alone)
        .is("unattended_curing", oven.cures_alone)
        .outages("outages", oven.outages, zone);
  }
  for (const Person& person : shop.people) {
    ShopTable table{out, "[[people]]"};
    table.text("name", person.name).outages("away", person.away, zone);
    if (person.hours) table.line("hours", fmt::format("{{{}}}", fmt::join(keys_of(*person.hours), ", ")));
  }
  for (const Machine& machine : shop.machines)
    ShopTable{out, "[[machines]]"}.text("name", machine.name).outages("outages", machine.outages, zone);
}

void add_operation(std::string& out, const Operation& op) {
  ShopTable table{out, "[[routing]]"};
  table.text("name", op.name)
      .text("who", op.who)
      .text("planned", planned_text(op.planned))
      .span("fixed", op.fixed)
      .span("per_piece", op.per_piece)
      .text("hands_on", op.hands == Hands::start  ? "start"
                        : op.hands == Hands::ends ? "ends"
                                                  : "")
      .span("hands_on_time", op.hands_time);
  if (op.unattended) table.line("unattended", *op.unattended ? "true" : "false");
  table.is("may_run_long", op.may_run_long)
      .span("most", op.most)
      .span("longest_wait", op.longest_wait)
      .is("only_witnesses", op.only_witnesses)
      .is("only_treated", op.only_treated)
      .text("ended_by", op.ended_by)
      .text("machine", op.machine)
      .span("least_part", op.least_part);
  if (!op.also.empty()) table.line("also", fmt::format("[\"{}\"]", fmt::join(op.also, "\", \"")));
  if (op.turnaround_days) table.text("turnaround", fmt::format("{} d", *op.turnaround_days));
  if (op.most_a_day) table.line("most_a_day", std::to_string(*op.most_a_day));
}

}  // namespace

std::string shop_text(const Shop& shop) {
  const Zone zone{shop.zone_name};
  std::string out = fmt::format(
      "format = 1\nname = \"Any Shop\"\nzone = \"{}\"\naltitude = \"320 m\"\n\n[register]\nseries = "
      "\"NG7-32GX\"\n\n[hours]\n{}\n",
      shop.zone_name, fmt::join(keys_of(shop.hours), "\n"));
  write_process(out, shop);
  add_places(out, shop, zone);
  for (const Operation& op : shop.routing) add_operation(out, op);
  return out;
}

}  // namespace calendar_rules

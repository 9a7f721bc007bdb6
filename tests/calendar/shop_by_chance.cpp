#include <algorithm>

#include "routing_by_chance.h"
#include "shop.h"

namespace calendar_rules {
namespace {

using std::chrono::days;
using std::chrono::hours;

Stretch stretch(int from_hour, int from_minute, int to_hour, int to_minute) {
  return {hours{from_hour} + Minutes{from_minute}, hours{to_hour} + Minutes{to_minute}};
}

std::vector<Date> days_off(Chance& chance, Date first) {
  std::vector<Date> off;
  for (int i = chance.whole(0, 4); i > 0; --i) off.push_back(first + days{chance.whole(0, 25)});
  std::ranges::sort(off);
  off.erase(std::unique(off.begin(), off.end()), off.end());
  return off;
}

Hours hours_by_chance(Chance& chance, Date first) {
  static const std::vector<std::vector<Stretch>> kinds = {
      {stretch(8, 0, 12, 0), stretch(13, 0, 17, 0)},
      {stretch(7, 30, 16, 30)},
      {stretch(6, 0, 10, 20), stretch(10, 45, 14, 0), stretch(16, 0, 18, 10)},
      {stretch(9, 0, 17, 0), stretch(17, 0, 19, 0)},  // these are one
      {stretch(0, 0, 5, 0), stretch(20, 0, 24, 0)}};  // a night shift
  Hours out;
  const auto& usual = kinds.at(static_cast<std::size_t>(chance.yes(0.1) ? 4 : chance.whole(0, 3)));
  for (std::size_t day = 0; day < 5; ++day) {
    if (chance.yes(0.94)) out.week.at(day) = usual;
  }
  if (!out.week.at(4).empty() && chance.yes(0.3)) out.week.at(4).pop_back();
  if (chance.yes(0.3)) out.week.at(5) = {stretch(9, 0, 12, 0)};
  if (chance.yes(0.2)) out.week.at(6) = {stretch(0, 0, 5, 0)};  // over the change of the clock
  if (std::ranges::all_of(out.week, &std::vector<Stretch>::empty)) out.week.at(0) = usual;
  out.days_off = days_off(chance, first);
  return out;
}

Instant beginning(Chance& chance, const Zone& zone) {
  const std::vector<Instant> changes = zone.changes();
  Date day = Date{std::chrono::year{2027} / 1 / 4} + days{chance.whole(0, 700)};
  if (!changes.empty() && chance.yes(0.5)) {
    const auto in_range = static_cast<int>(std::min<std::size_t>(changes.size(), 8)) - 1;
    day = zone.date_of(changes.at(static_cast<std::size_t>(chance.whole(0, in_range)))) - days{chance.whole(1, 6)};
  }
  static const std::vector<Minutes> clocks = {hours{8}, hours{9} + Minutes{17}, hours{13} + Minutes{30},
                                              hours{23} + Minutes{10}};
  return zone.at_clock(day, chance.one_of(clocks));
}

void add_vessels(Chance& chance, Shop& shop) {
  const Vessel pot{.name = "pot", .diameter_mm = 220, .height_mm = 400, .usable_mm = 230};
  const Vessel trough{.name = "trough", .width_mm = 180, .depth_mm = 320, .height_mm = 260, .usable_mm = 150};
  if (chance.yes(0.8)) shop.vessels.push_back(pot);
  if (shop.vessels.empty() || chance.yes(0.4)) shop.vessels.push_back(trough);
}

void add_ovens(Chance& chance, Shop& shop) {
  static const std::vector<std::array<int, 3>> sizes = {
      {330, 300, 300}, {420, 380, 300}, {300, 300, 132}, {300, 220, 120}};
  for (int i = chance.whole(1, 2); i > 0; --i) {
    const auto& [width, depth, height] = chance.one_of(sizes);
    shop.ovens.push_back({.name = shop.ovens.empty() ? "large oven" : "small oven",
                          .width_mm = width,
                          .depth_mm = depth,
                          .height_mm = height,
                          .shelves = chance.yes(0.2) ? 2 : 1,
                          .hottest_C = chance.yes(0.1) ? 90 : 115,
                          .dries_alone = chance.yes(0.8),
                          .cures_alone = chance.yes(0.5)});
  }
  // What stands in it at least.
  if (std::ranges::none_of(shop.ovens,
                           [](const Oven& oven) { return oven.height_mm >= 200 && oven.hottest_C > 100; }))
    shop.ovens.push_back(
        {.name = "old oven", .width_mm = 330, .depth_mm = 330, .height_mm = 300, .dries_alone = true});
}

void add_process(Chance& chance, Shop& shop) {
  static const std::vector<std::string> names = {"Zirbe", "Ambra"};
  for (int i = 0, resins = chance.whole(1, 2); i < resins; ++i) {
    shop.resins.push_back(
        {.name = names.at(static_cast<std::size_t>(i)), .cure_hold = Minutes{30 * chance.whole(1, 4)}});
  }
  const bool dries_by_day = std::ranges::any_of(shop.ovens, [](const Oven& oven) { return !oven.dries_alone; });
  shop.pump_alone = chance.yes(0.6);
  shop.hold = hours{shop.pump_alone ? chance.whole(2, 7) : chance.whole(1, 2)};
  shop.soak_percent = chance.yes(0.7) ? 200 : 100 * chance.whole(1, 3);
  shop.dries_30_mm = dries_by_day ? Minutes{90} : hours{chance.whole(3, 14)};
  shop.dries_60_mm = dries_by_day ? Minutes{150} : shop.dries_30_mm + hours{chance.whole(1, 12)};
  shop.between_weighings = dries_by_day ? Minutes{20} : Minutes{30 * chance.whole(1, 4)};
  shop.cool = hours{chance.whole(1, 4)};
  shop.glue_sets = Minutes{chance.yes(0.3) ? 90 : 60 * chance.whole(8, 24)};
  shop.yield = chance.yes(0.5) ? "9 of 10" : "45 of 50";
}

Outage outage(Chance& chance, const Shop& shop, const Zone& zone) {
  const Date day = zone.date_of(shop.at) + days{chance.whole(0, 20)};
  if (chance.yes(0.5)) {
    const Date after = day + days{chance.whole(1, 4)};
    return {{zone.at_clock(day, Minutes{0}), zone.at_clock(after, Minutes{0})}, true};
  }
  const Instant from = zone.at_clock(day, hours{chance.whole(5, 20)});
  return {{from, zone.at_clock(day, hours{21}) + hours{12 * chance.whole(0, 4)}}};
}

std::vector<Outage> outages(Chance& chance, const Shop& shop, const Zone& zone) {
  std::vector<Outage> all;
  for (int i = chance.yes(0.4) ? chance.whole(1, 2) : 0; i > 0; --i) all.push_back(outage(chance, shop, zone));
  return all;
}

void add_resources(Chance& chance, Shop& shop, const Zone& zone) {
  const Date first = zone.date_of(shop.at);
  if (chance.yes(0.75)) {
    for (const char* name : {"keeper", "turner", "helper"}) {
      Person person{name, {}, outages(chance, shop, zone)};
      if (chance.yes(0.4)) person.hours = hours_by_chance(chance, first);
      shop.people.push_back(std::move(person));
    }
  }
  for (const char* name : {"drill press", "lathe"}) shop.machines.push_back({name, outages(chance, shop, zone)});
  for (Vessel& vessel : shop.vessels) vessel.outages = outages(chance, shop, zone);
  for (Oven& oven : shop.ovens) oven.outages = outages(chance, shop, zone);
}

}  // namespace

Shop shop_by_chance(Chance& chance) {
  static const std::vector<std::string> zones = {"Europe/Berlin",       "Europe/Berlin", "America/New_York",
                                                 "Australia/Lord_Howe", "Asia/Kolkata",  "UTC"};
  Shop shop;
  shop.zone_name = chance.one_of(zones);
  const Zone zone{shop.zone_name};
  shop.at = beginning(chance, zone);
  shop.hours = hours_by_chance(chance, zone.date_of(shop.at));
  add_vessels(chance, shop);
  add_ovens(chance, shop);
  add_process(chance, shop);
  add_resources(chance, shop, zone);
  shop.routing = routing_by_chance(chance, shop);
  return shop;
}

}  // namespace calendar_rules

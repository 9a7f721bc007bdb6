#include "order.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace simulated {
namespace {

const std::vector<Species>& all_species() {
  static const std::vector<Species> list = {
      {"European beech", 0.69, 0.119}, {"black walnut", 0.585, 0.078}, {"yellow-poplar", 0.45, 0.082}};
  return list;
}

const std::vector<Thread>& threads(Units units) {
  static const std::vector<Thread> metric = {{"M6", 6, 1}, {"M8", 8, 1.25}, {"M10", 10, 1.5}};
  static const std::vector<Thread> inch = {
      {"1/4-20", 6.35, 1.27}, {"5/16-18", 7.9375, 25.4 / 18}, {"3/8-16", 9.525, 25.4 / 16}};
  return units == Units::metric ? metric : inch;
}

/// As fine as the job file says it, so that what is printed can be held against it.
double written_mm(double length_mm, Units units) {
  if (units == Units::metric) return std::round(length_mm);
  return std::round(length_mm / mm_per_in * 16) / 16 * mm_per_in;
}

}  // namespace

Order order_by_chance(Chance& chance, const Shop& shop, const std::string& id, Moment due) {
  Order order;
  order.id = id;
  order.client = fmt::format("Client {}", chance.whole(1, 6));
  order.item = chance.one_of(std::vector<std::string>{"awl handle", "file handle", "burnisher handle", "knob"});
  order.quantity = chance.whole(4, 8);
  order.due = due;
  const double length_mm = chance.between(75, 115);
  const double seat_mm = chance.between(19, 24);
  const double belly_mm = seat_mm + chance.between(4, 9);
  const auto station = [&](double share, double diameter_mm) {
    order.stations.push_back({written_mm(share * length_mm, shop.units), written_mm(diameter_mm, shop.units)});
  };
  station(0, seat_mm);
  station(0.2, seat_mm + 1);
  station(0.55, belly_mm);
  station(0.85, belly_mm - 3);
  station(1, belly_mm - 8);
  order.thread = chance.one_of(threads(shop.units));
  order.enters_mm = written_mm(1.6 * order.thread.major_mm, shop.units);
  order.embedded_mm = written_mm(4.5 * order.thread.major_mm, shop.units);
  order.species = chance.one_of(all_species());
  order.punky = chance.yes(0.3);
  order.witness = chance.yes(0.5);
  order.smooth = chance.yes(0.3);
  if (chance.yes(0.3)) order.dye = chance.one_of(std::vector<std::string>{"amber", "soot"});
  return order;
}

std::vector<Station> outline(const Order& order) { return order.smooth ? smoothed(order.stations) : order.stations; }

std::string job_file(const Order& order, const Shop& shop) {
  const auto length = [&](double length_mm) { return fmt::format("\"{}\"", length_text(length_mm, shop.units)); };
  std::string out = fmt::format(
      "format = 1\nid = \"{}\"\nclient = \"{}\"\nitem = \"{}\"\nquantity = {}\ndue = {}\n\n[handle]\nform = \"{}\"\n"
      "tolerance = {}\nstations = [\n",
      order.id, order.client, order.item, order.quantity, date_text(order.due), order.smooth ? "smooth" : "straight",
      length(order.tolerance_mm));
  for (const Station& station : order.stations)
    out += fmt::format("  {{at = {}, diameter = {}}},\n", length(station.at_mm), length(station.diameter_mm));
  out += "]\n\n";
  if (order.spigot_mm > 0)
    out += fmt::format("[seat]\nform = \"spigot\"\ndiameter = {}\nheight = {}\n\n",
                       length(order.stations.front().diameter_mm - 4), length(order.spigot_mm));
  if (order.ferrule)
    out += fmt::format("[ferrule]\noutside_diameter = {}\ninside_diameter = {}\nlength = {}\n\n",
                       length(order.ferrule->outside_mm), length(order.ferrule->inside_mm),
                       length(order.ferrule->length_mm));
  out += fmt::format("[stud]\nthread = \"{}\"\ngrade = \"{}\"\nenters = {}\nembedded = {}\n", order.thread.name,
                     order.grade, length(order.enters_mm), length(order.embedded_mm));
  if (order.tightening_Nm > 0)
    out += fmt::format("tightening = \"{}\"\n", torque_text(order.tightening_Nm, shop.units));
  out += fmt::format("\n[wood]\nspecies = \"{}\"\ncondition = \"{}\"\nmoisture = \"{:.0f} %\"\n\n",
                     order.species.name, order.punky ? "spalted" : "sound", order.moisture_share * 100);
  out += fmt::format("[treatment]\nresin = \"Clear\"\nwitness = {}\n", order.witness ? "true" : "false");
  if (!order.dye.empty()) out += fmt::format("dye = \"{}\"\n", order.dye);
  if (order.given)
    out += fmt::format("\n[blank]\nsection = {}\nlength = {}\nstate = \"sawn\"\n", length(order.given->section_mm),
                       length(order.given->length_mm));
  return out;
}

double tensile_area_mm2(const Thread& thread) {
  const double across_mm = thread.major_mm - 0.9382 * thread.pitch_mm;
  return std::numbers::pi / 4 * across_mm * across_mm;
}

}  // namespace simulated

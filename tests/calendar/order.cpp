#include "order.h"

#include <fmt/format.h>

namespace calendar_rules {

std::vector<Order> orders_by_chance(Chance& chance, const Shop& shop) {
  struct Form {
    std::array<int, 3> diameter_mm;
    int length_mm;
  };
  static const std::vector<Form> forms = {
      {{16, 22, 17}, 70}, {{20, 28, 22}, 95}, {{24, 33, 24}, 108}, {{34, 46, 36}, 110}};
  const int count = chance.whole(1, 6);
  const Date day = Zone{shop.zone_name}.date_of(shop.at);
  std::vector<Order> orders;
  for (int i = 0; i < count; ++i) {
    const Form& form = chance.one_of(forms);
    Order order{.id = fmt::format("O-{}", i + 1), .quantity = chance.whole(1, chance.yes(0.3) ? 12 : 5)};
    order.diameter_mm = form.diameter_mm;
    order.length_mm = form.length_mm;
    if (chance.yes(0.85)) order.due = day + std::chrono::days{chance.whole(3, 10 + 5 * count)};
    if (chance.yes(0.8)) {
      order.resin = chance.one_of(shop.resins).name;
      if (chance.yes(0.3)) order.dye = chance.one_of(shop.dyes);
      if (chance.yes(0.6)) order.witness = chance.yes(0.5) ? Witness::for_bath : Witness::for_load;
    }
    orders.push_back(std::move(order));
  }
  return orders;
}

std::string order_text(const Order& order) {
  std::string out =
      fmt::format("format = 1\nid = \"{0}\"\nclient = \"Client of {0}\"\nitem = \"handle\"\nquantity = {1}\n",
                  order.id, order.quantity);
  if (order.due) out += fmt::format("due = {}\n", date_text(*order.due));
  out += "\n[handle]\nstations = [\n";
  const std::array at{0, order.length_mm * 2 / 5, order.length_mm};
  for (std::size_t i = 0; i < at.size(); ++i)
    out += fmt::format("  {{at = \"{} mm\", diameter = \"{} mm\"}},\n", at.at(i), order.diameter_mm.at(i));
  out +=
      "]\n\n[stud]\nthread = \"M6\"\nenters = \"12 mm\"\n\n[wood]\nspecies = \"European beech\"\n"
      "condition = \"spalted\"\nmoisture = \"9 %\"\n";
  if (!order.treated()) return out;
  out += fmt::format("\n[treatment]\nresin = \"{}\"\n", order.resin);
  if (!order.dye.empty()) out += fmt::format("dye = \"{}\"\n", order.dye);
  if (order.witness != Witness::none) out += "witness = true\n";
  if (order.witness == Witness::for_load) out += "witness_for = \"load\"\n";
  return out;
}

}  // namespace calendar_rules

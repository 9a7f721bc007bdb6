#include "sheet/turner_facts.h"

#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"

namespace blankwright {

std::vector<std::size_t> evenly_chosen(std::size_t all, std::size_t count) {
  BW_EXPECT(all >= 2 && count >= 2);
  const std::size_t steps = std::min(all, count) - 1;
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i <= steps; ++i) out.push_back((i * (all - 1) + steps / 2) / steps);
  return out;
}

std::vector<SheetStation> sheet_stations(const Dossier& d, int most) {
  const auto& all = d.plan.form.stations();
  std::vector<SheetStation> out;
  for (const std::size_t i : evenly_chosen(all.size(), static_cast<std::size_t>(most))) {
    out.push_back({check_count + 1 + static_cast<int>(i), all.at(i).along, all.at(i).diameter});
  }
  return out;
}

Printing station_printing(const Dossier& d, Round round) {
  const auto coarse = [](Length length) {
    const double tenths = length / (0.1 * mm);
    return std::abs(tenths - std::round(tenths)) < 1e-4;
  };
  const auto& all = d.plan.form.stations();
  const bool sawn =
      coarse(d.order.handle.tolerance.value) &&
      std::all_of(all.begin(), all.end(), [&](const FormPoint& p) { return coarse(p.along) && coarse(p.diameter); });
  return {d.shop.units.value, round, sawn ? Fineness::sawn : Fineness::measured};
}

std::string drawn_number(Length length, Printing how) {
  std::string out = number(length, how);
  if (how.system == UnitSystem::inches || out.find('.') == std::string::npos) return out;
  out.erase(out.find_last_not_of('0') + 1);
  if (out.back() == '.') out.pop_back();
  return out;
}

Printing figure_printing(const Dossier& d, Figure figure) {
  const FigureInfo& i = info(figure);
  return {d.shop.units.value, i.safe, i.fineness};
}

bool is_rounded(const Dossier& d) { return d.shop.boring.method.value == BoringMethod::lathe; }

std::string seat_limit(const Dossier& d) {
  const Length offset = d.plan.centring.seat_offset;
  return text(is_rounded(d) ? 2 * offset : offset, figure_printing(d, Figure::centring_seat_position));
}

Printing metal_printing(const Dossier& d) { return {d.shop.units.value, Round::up, Fineness::sawn}; }

}  // namespace blankwright

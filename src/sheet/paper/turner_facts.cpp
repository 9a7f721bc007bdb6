#include "sheet/paper/turner_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"

namespace blankwright {

std::vector<std::size_t> evenly_chosen(std::size_t all, std::size_t count) {
  BW_EXPECT(all >= 2 && count >= 2);
  const std::size_t steps = std::min(all, count) - 1;
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i <= steps; ++i) out.push_back((i * (all - 1) + steps / 2) / steps);
  return out;
}

std::vector<SheetStation> sheet_stations(const Dossier& d, int most) {
  const auto& ferrule = d.order.ferrule;
  std::vector<SheetStation> all;
  if (ferrule && ferrule->inside_diameter) {
    for (const Length along : {0 * mm, ferrule->length.value}) {
      all.push_back({.along = along, .diameter = ferrule->inside_diameter->value, .wood = true});
    }
  }
  for (const FormPoint& point : d.plan.form.stations()) {
    const bool covered = ferrule && !fits(point.along, ferrule->length.value);
    if (covered && ferrule->inside_diameter) continue;
    all.push_back({.along = point.along, .diameter = point.diameter, .wood = covered});
  }
  for (std::size_t i = 0; i < all.size(); ++i) all.at(i).number = check_count + 1 + static_cast<int>(i);
  std::vector<SheetStation> out;
  for (const std::size_t i : evenly_chosen(all.size(), static_cast<std::size_t>(most))) out.push_back(all.at(i));
  return out;
}

std::string numbers_under_ferrule(std::span<const SheetStation> stations) {
  std::vector<int> numbers;
  for (const SheetStation& s : stations) {
    if (s.wood) numbers.push_back(s.number);
  }
  if (numbers.empty()) return {};
  if (numbers.size() == 1) return fmt::format("{}", numbers.front());
  return fmt::format("{}{}{}", numbers.front(), numbers.size() == 2 ? ", " : "–", numbers.back());
}

Printing station_printing(const Dossier& d) {
  const auto coarse = [](Length length) {
    const double tenths = length / (0.1 * mm);
    return std::abs(tenths - std::round(tenths)) < 1e-4;
  };
  const auto& all = d.plan.form.stations();
  const bool sawn =
      coarse(d.order.handle.tolerance.value) &&
      std::all_of(all.begin(), all.end(), [&](const FormPoint& p) { return coarse(p.along) && coarse(p.diameter); });
  return size_printing(d, sawn ? Fineness::sawn : Fineness::measured);
}

std::string drawn_text(const Dossier& d, Length length, Printing how) { return shown(d, drawn_number(length, how)); }

bool is_rounded(const Dossier& d) { return d.plan.rounded.has_value(); }

Printed seat_limit(const Dossier& d) {
  if (is_rounded(d)) return printed_figure(d, Figure::rounded_runout);
  return printed(d.plan.centring.seat_offset, figure_printing(d, Figure::centring_seat_position));
}

std::optional<std::string> wanted_tightening(const Dossier& d) {
  const auto& wanted = d.order.stud.tightening;
  const auto& largest = d.plan.tightened.largest;
  if (!wanted || wanted->value <= Torque{} || (largest && wanted->value > *largest)) return std::nullopt;
  return shown(d, printed(wanted->value, d.shop.units.value));
}

}  // namespace blankwright

#include "sheet/turner_facts.h"

#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"

namespace blankwright {

std::vector<SheetStation> sheet_stations(const Dossier& d, int most) {
  BW_EXPECT(most >= 2);
  const auto& all = d.plan.form.stations();
  const int count = static_cast<int>(all.size());
  const int shown = std::min(count, most);
  std::vector<SheetStation> out;
  for (int i = 0; i < shown; ++i) {
    const int which = (i * (count - 1) + (shown - 1) / 2) / (shown - 1);
    const FormPoint& point = all.at(static_cast<std::size_t>(which));
    out.push_back({check_count + 1 + which, point.along, point.diameter});
  }
  return out;
}

Printing station_printing(const Dossier& d, Round round) {
  const auto coarse = [](Length length) {
    const double tenths = length / (0.1 * mm);
    return std::abs(tenths - std::round(tenths)) < 1e-4;
  };
  const auto& all = d.plan.form.stations();
  const bool sawn = coarse(d.order.handle.tolerance.value) &&
                    std::all_of(all.begin(), all.end(),
                                [&](const FormPoint& p) { return coarse(p.along) && coarse(p.diameter); });
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

Printing metal_printing(const Dossier& d) { return {d.shop.units.value, Round::up, Fineness::sawn}; }

}  // namespace blankwright

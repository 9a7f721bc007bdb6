#include "truths.h"

#include <fmt/format.h>

namespace simulated {
namespace {

Known by_margin(double value, double limit, double margin, std::string what) {
  if (value < limit - margin) return {Truth::bad, std::move(what)};
  return {value > limit + margin ? Truth::good : Truth::grey, std::move(what)};
}

}  // namespace

Known both(const Known& a, const Known& b) { return static_cast<int>(b.truth) > static_cast<int>(a.truth) ? b : a; }

Known dry_truth(const Blank& blank, const Shop& shop, double hours_out_of_oven) {
  const double warmest_C = shop.storage_most_C + 15;
  Known out{Truth::grey,
            fmt::format("moisture {:.1f} %, {:.0f} °C warm", blank.moisture_share * 100, blank.temperature_C)};
  if (blank.moisture_share > 0.025 || blank.temperature_C > warmest_C + 2) out.truth = Truth::bad;
  // Nobody has a thermometer in each blank: before the shop's own time for cooling is over a HOLD is no wrong.
  // 1 % is what the bath bears and a scale can hold against it; a tenth of that is the scale's own.
  else if (blank.moisture_at_most_share < 0.009 && blank.temperature_C < shop.storage_most_C + 6 &&
           hours_out_of_oven >= shop.cool_hours)
    out.truth = Truth::good;
  out.shown = blank.weighings_apart_share < 0.0009;
  return out;
}

Known resin_truth(const Blank& blank, const Shop& shop) {
  const double most_g = void_share(blank) * dry_volume_cm3(blank) * shop.resin_g_cm3;
  const double film_g =
      (2 * blank.width_mm * blank.depth_mm + 2 * (blank.width_mm + blank.depth_mm) * blank.length_mm) / 1000 *
      shop.film_mm * shop.resin_g_cm3;
  const double sides = 0.1 / blank.width_mm + 0.1 / blank.depth_mm + 0.1 / blank.length_mm;
  const double margin = (0.2 + film_g) / most_g + sides * shop.least_fill_share / void_share(blank);
  return by_margin(blank.filled_share, shop.least_fill_share, margin,
                   fmt::format("{:.1f} % of the voids filled, {:.0f} % asked", blank.filled_share * 100,
                               shop.least_fill_share * 100));
}

Known cure_truth(const Blank& blank, const Shop& shop) {
  Known out{Truth::grey, fmt::format("core held at {:.1f} °C, {:.0f} °C asked", blank.held_C, shop.cure_core_C)};
  if (blank.held_C < shop.cure_core_C - 1.5) out.truth = Truth::bad;
  if (blank.held_C > shop.cure_core_C) out.truth = Truth::good;
  return out;
}

Known axis_truth(const Blank& blank, const Order& order, const Shop& shop) {
  const double clear = clear_mm(outline(order), blank.axis, blank.squared);
  const double margin_mm = 0.1 + 0.1 * order.stations.back().at_mm / 100 + (shop.lathe ? 0 : shop.bow_mm) +
                           (order.smooth ? smooth_error_mm : 0);
  return by_margin(clear, 0, margin_mm, fmt::format("{:.2f} mm of wood round the form", clear));
}

}  // namespace simulated

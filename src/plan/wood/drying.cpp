#include "plan/wood/drying.h"

#include <algorithm>
#include <vector>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/drying_times.h"
#include "plan/tables/moisture.h"

namespace blankwright {
namespace {

constexpr TermFrom diffusion = TermFrom::by_diffusion;

/// Times by thickness, and the oven's air for which they hold: the shop's, or the usual ones.
struct TimeTable {
  std::vector<UsualDryingTime> rows;
  Temperature oven;
  TermFrom whose;
};

TimeTable table_of(const DryingFacts& facts) {
  if (facts.times.empty()) {
    const auto usual = usual_drying_times();
    return {{usual.begin(), usual.end()}, usual_drying_oven, TermFrom::usual_practice};
  }
  TimeTable table{{}, facts.oven.value, TermFrom::shop};
  for (const DryingTime& row : facts.times) table.rows.push_back({row.thickness.value, row.time.value});
  return table;
}

/// The thickest row's, in proportion to the square of the thickness.
Traced<Duration> time_by_diffusion(const TimeTable& table, Length section) {
  return term(Term::time_of_the_thickest, table.rows.back().time, table.whose) *
         squared(term(Term::section, section, TermFrom::blank) /
                 term(Term::the_thickest, table.rows.back().thickness, table.whose));
}

Traced<Duration> time_in_oven(const TimeTable& table, const DryingInput& in) {
  const auto row = std::ranges::find_if(table.rows, [&](const auto& r) { return fits(r.thickness, in.section); });
  const auto time = row == table.rows.end() ? time_by_diffusion(table, in.section)
                                            : term(Term::time_by_thickness, row->time, table.whose);
  if (in.facts.oven.value >= table.oven) return time;
  return time * term(Term::slower_in_a_cooler_oven, moisture_slower(in.facts.oven.value, table.oven), diffusion);
}

Traced<Duration> regain_time(const TimeTable& table, const DryingInput& in, Share room_moisture) {
  constexpr double until = 0.314;  // see the header
  const auto part = term(Term::one_percent, 1 * percent / whole, TermFrom::asked_for) /
                    term(Term::room_moisture, room_moisture / whole, TermFrom::above);
  return term(until) * squared(part) *
         term(Term::slower_in_the_room, moisture_slower(in.facts.room.value, table.oven), diffusion) *
         time_by_diffusion(table, in.section);
}

}  // namespace

Worked<Drying> drying(const DryingInput& in) {
  BW_EXPECT(in.section > 0 * mm);
  Worked<Drying> out;
  const DryingFacts& f = in.facts;
  const TimeTable table = table_of(f);
  const auto moisture = term(Term::moisture, in.moisture.value / whole, origin_of(in.moisture));
  out.value.start_moisture = out.step(Figure::drying_start_moisture, moisture) * whole;
  out.value.oven = out.step(Figure::drying_oven, term(Term::oven, f.oven));
  out.value.least = out.step(Figure::drying_least_time, time_in_oven(table, in), StepNote{Note::two_weighings});
  out.value.cool = out.step(Figure::drying_cool, term(Term::cool, f.cool));
  const double at_rest = equilibrium_moisture(f.room.value, f.room_humidity.value) / whole;
  const auto humidity = term(Term::humidity, f.room_humidity.value / whole, origin_of(f.room_humidity));
  const auto room =
      call(Term::equilibrium_moisture, at_rest, {humidity.expression(), term(Term::room, f.room).expression()});
  out.value.room_moisture = out.step(Figure::drying_room_moisture, room) * whole;
  if (out.value.room_moisture > 1 * percent) {
    out.value.regain = out.step(Figure::drying_regain_time, regain_time(table, in, out.value.room_moisture),
                                StepNote{Note::an_estimate});
  }
  out.value.air_dry_first = in.moisture.value > f.air_dry_above.value;
  return out;
}

}  // namespace blankwright

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

constexpr const char* diffusion = "diffusion, 35 kJ/mol, from memory";

/// Times by thickness, and the oven's air for which they hold: the shop's, or the usual ones.
struct TimeTable {
  std::vector<UsualDryingTime> rows;
  Temperature oven;
  std::string whose;
};

TimeTable table_of(const DryingFacts& facts) {
  if (facts.times.empty()) {
    const auto usual = usual_drying_times();
    return {{usual.begin(), usual.end()}, usual_drying_oven, common_practice};
  }
  TimeTable table{{}, facts.oven.value, "shop"};
  for (const DryingTime& row : facts.times) table.rows.push_back({row.thickness.value, row.time.value});
  return table;
}

/// The thickest row's, in proportion to the square of the thickness.
Traced<Duration> time_by_diffusion(const TimeTable& table, Length section) {
  return term("time of the thickest", table.rows.back().time, table.whose) *
         squared(term("section", section, "blank") / term("the thickest", table.rows.back().thickness, table.whose));
}

Traced<Duration> time_in_oven(const TimeTable& table, const DryingInput& in) {
  const auto row = std::ranges::find_if(table.rows, [&](const auto& r) { return fits(r.thickness, in.section); });
  const auto time = row == table.rows.end() ? time_by_diffusion(table, in.section)
                                            : term("time by thickness", row->time, table.whose);
  if (in.facts.oven.value >= table.oven) return time;
  return time * term("slower in a cooler oven", moisture_slower(in.facts.oven.value, table.oven), diffusion);
}

Traced<Duration> regain_time(const TimeTable& table, const DryingInput& in, Share room_moisture) {
  constexpr double until = 0.314;  // see the header
  const auto part =
      term("1 %", 1 * percent / whole, "asked for") / term("room moisture", room_moisture / whole, "above");
  return term(until) * squared(part) *
         term("slower in the room", moisture_slower(in.facts.room.value, table.oven), diffusion) *
         time_by_diffusion(table, in.section);
}

}  // namespace

Worked<Drying> drying(const DryingInput& in) {
  BW_EXPECT(in.section > 0 * mm);
  Worked<Drying> out;
  const DryingFacts& f = in.facts;
  const TimeTable table = table_of(f);
  const auto moisture = term("moisture", in.moisture.value / whole, origin_text(in.moisture));
  out.value.start_moisture = out.step(Figure::drying_start_moisture, moisture) * whole;
  out.value.oven = out.step(Figure::drying_oven, term("oven", f.oven));
  out.value.least = out.step(Figure::drying_least_time, time_in_oven(table, in), StepNote{Note::two_weighings});
  out.value.cool = out.step(Figure::drying_cool, term("cool", f.cool));
  const double at_rest = equilibrium_moisture(f.room.value, f.room_humidity.value) / whole;
  const auto humidity = term("humidity", f.room_humidity.value / whole, origin_text(f.room_humidity));
  const auto room = call("EMC", at_rest, {humidity.expression(), term("room", f.room).expression()});
  out.value.room_moisture = out.step(Figure::drying_room_moisture, room) * whole;
  if (out.value.room_moisture > 1 * percent) {
    out.value.regain = out.step(Figure::drying_regain_time, regain_time(table, in, out.value.room_moisture),
                                StepNote{Note::an_estimate});
  }
  out.value.air_dry_first = in.moisture.value > f.air_dry_above.value;
  return out;
}

}  // namespace blankwright

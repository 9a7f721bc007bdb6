#include "plan/process/judge_cure.h"

#include <fmt/format.h>

#include <algorithm>

#include "diagnose/problem.h"
#include "plan/figure/judge_words.h"

namespace blankwright {
namespace {

/// To a tenth: 200 °F is not 93 °C.
std::string precise(Temperature temperature, const Shop& shop) {
  return shop.units.value == UnitSystem::metric
             ? fmt::format("{:.1f} °C", (temperature - ice_point) / kelvin)
             : fmt::format("{:.1f} °F", (temperature - fahrenheit(0)) / fahrenheit_degree);
}

Place treated(const Order& order) { return order.treatment ? order.treatment->resin.at : Place{}; }

constexpr const char* calibrate = "set the dial, let the air settle, read an independent thermometer";

/// Does the calibration span the cure? An oven without one may do; its dial is then not known.
bool warm_enough(const OvenFacts& oven, const Shop& shop, const ResinFacts& resin, Diagnostics& out) {
  if (oven.calibration.empty()) return true;
  const Temperature wanted = resin.cure_air.value;
  const CalibrationPair& coldest = oven.calibration.front();
  const CalibrationPair& hottest = oven.calibration.back();
  if (wanted > hottest.shown.value && hottest.dial.value >= wanted) {
    out.error(
           Problem::oven_colder_than_cure, hottest.shown.at,
           fmt::format("oven \"{}\" is colder than the cure: with its dial at {} it has {}, and the resin wants {}",
                       oven.name.value, precise(hottest.dial.value, shop), precise(hottest.shown.value, shop),
                       precise(wanted, shop)))
        .label(resin.cure_air.at, "the cure")
        .hint(fmt::format("add a pair at a higher setting, if the dial has one: {}", calibrate));
    return false;
  }
  if (wanted > hottest.shown.value || wanted < coldest.shown.value) {
    const bool above = wanted > hottest.shown.value;
    out.error(Problem::calibration_too_short, above ? hottest.shown.at : coldest.shown.at,
              fmt::format("calibration of oven \"{}\" {} at {}; the resin cures at {}, and beyond what was measured "
                          "the dial is not known",
                          oven.name.value, above ? "ends" : "begins",
                          precise(above ? hottest.shown.value : coldest.shown.value, shop), precise(wanted, shop)))
        .label(resin.cure_air.at, "the cure")
        .hint(fmt::format("add a pair {} {}: {}", above ? "above" : "below", precise(wanted, shop), calibrate));
    return false;
  }
  return true;
}

struct Lying {
  Length section, length;
  std::string_view state;  ///< said behind its size
  std::string hint;        ///< another way out than a larger oven
};

bool takes(const OvenFacts& oven, const Shop& shop, const Lying& blank, Diagnostics& out) {
  if (oven_load(oven, blank.section, blank.length).capacity() > 0) return true;
  const Length clearance = oven.clearance.value;
  const auto inside = [&](const Given<Length>& size) {
    return in_units(std::max(size.value - 2 * clearance, 0 * mm), shop, Round::down, Fineness::sawn);
  };
  const auto at_least = [&](Length size) { return in_units(size, shop, Round::up, Fineness::sawn); };
  const std::string side = at_least(blank.section + 2 * clearance);
  out.error(Problem::oven_too_small, oven.width.at,
            fmt::format(
                "oven \"{}\" has {} × {} × {} left within its clearance; a blank of {} × {}{} does not lie in it",
                oven.name.value, inside(oven.width), inside(oven.depth), inside(oven.height), at_least(blank.section),
                at_least(blank.length), blank.state))
      .label(oven.clearance.at, "kept free to walls and elements")
      .hint(fmt::format("it needs an oven of {} × {} × {} inside{}", side, at_least(blank.length + 2 * clearance),
                        side, blank.hint));
  return false;
}

bool large_enough(const OvenFacts& oven, const Shop& shop, const BlankSize& blank, Diagnostics& out) {
  if (!takes(oven, shop, {*blank.dry_section, *blank.dry_length, "", ""}, out)) return false;
  if (!blank.sawn_section || !blank.sawn_length) return true;
  return takes(oven, shop,
               {*blank.sawn_section, *blank.sawn_length, ", sawn and not yet dry,",
                fmt::format("; or dry it elsewhere and give it as it then is: blank = {{section = \"{}\", length = "
                            "\"{}\", state = \"dry\"}}",
                            pasted(*blank.dry_section, shop), pasted(*blank.dry_length, shop))},
               out);
}

}  // namespace

bool ovens_make_sense(const Shop& shop, Diagnostics& out) {
  bool rising = true;
  for (const OvenFacts& oven : shop.ovens) {
    for (std::size_t i = 1; i < oven.calibration.size(); ++i) {
      const CalibrationPair& before = oven.calibration.at(i - 1);
      const CalibrationPair& pair = oven.calibration.at(i);
      const bool dial_rises = pair.dial.value > before.dial.value;
      if (dial_rises && pair.shown.value > before.shown.value) continue;
      rising = false;
      const Given<Temperature>& wrong = dial_rises ? pair.shown : pair.dial;
      const Given<Temperature>& against = dial_rises ? before.shown : before.dial;
      out.error(Problem::calibration_falls, wrong.at,
                fmt::format("{} of {} stands behind one of {}: the pairs of oven \"{}\" have to rise in both",
                            dial_rises ? "shown temperature" : "dial", precise(wrong.value, shop),
                            precise(against.value, shop), oven.name.value))
          .label(against.at, "the one before")
          .hint("sort the pairs by dial; where the air was colder at the higher setting, measure again");
    }
  }
  return rising;
}

const OvenFacts* judge_oven(const Order& order, const Shop& shop, const ResinFacts& resin, const BlankSize& blank,
                            Diagnostics& out) {
  if (shop.ovens.empty()) {
    out.warning(Problem::oven_missing, treated(order), "no oven in the shop file: no cure is planned")
        .hint("ovens = [{name = \"Oven\", width = \"400 mm\", depth = \"350 mm\", height = \"300 mm\"}]");
    return nullptr;
  }
  Diagnostics lacking;
  for (const OvenFacts& oven : shop.ovens) {
    const bool warm = warm_enough(oven, shop, resin, lacking);
    if (!large_enough(oven, shop, blank, lacking) || !warm) continue;
    if (oven.calibration.empty()) {
      out.warning(Problem::calibration_too_short, oven.name.at,
                  fmt::format("oven \"{}\" has no calibration: at which setting its air has {} is not known",
                              oven.name.value, precise(resin.cure_air.value, shop)))
          .label(resin.cure_air.at, "the cure")
          .hint(fmt::format("{}; do so on both sides of the cure and write what you read: calibration = [{{dial = "
                            "\"80 °C\", shown = \"76 °C\"}}, {{dial = \"110 °C\", shown = \"105 °C\"}}]",
                            calibrate));
    }
    return &oven;
  }
  out.append(std::move(lacking));
  return nullptr;
}

void judge_cure(const Cure& cure, const Order& order, const Shop& shop, const ResinFacts& resin, Diagnostics& out) {
  if (cure.core && *cure.core >= cure.air) {
    out.error(Problem::core_not_reached, resin.cure_core->at,
              fmt::format("core never gets to {} in air of {}", precise(*cure.core, shop), precise(cure.air, shop)))
        .label(resin.cure_air.at, "the air")
        .label(treated(order), "the resin of this order");
    return;
  }
  if (!resin.cure_most || cure.total <= resin.cure_most->value) return;
  const std::string most = text(resin.cure_most->value);
  if (cure.total_likely > resin.cure_most->value) {
    out.error(Problem::cure_too_long, resin.cure_most->at,
              fmt::format("cure takes {} at least and the data sheet allows {}", text(cure.total_likely), most))
        .label(treated(order), "the resin of this order")
        .hint("thinner blanks, or an oven with a fan");
    return;
  }
  out.warning(Problem::cure_too_long, resin.cure_most->at,
              fmt::format("cure may take {}, and the data sheet allows {}: likely it takes {}", text(cure.total),
                          most, text(cure.total_likely)))
      .label(treated(order), "the resin of this order")
      .hint("measure the core of a blank with a probe: that goes before the estimate");
}

}  // namespace blankwright

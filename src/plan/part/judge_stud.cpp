#include "plan/part/judge_stud.h"

#include <algorithm>
#include <vector>

#include "diagnose/problem.h"
#include "diagnose/says_stud.h"
#include "plan/figure/judge_words.h"
#include "plan/part/stud_stock.h"
#include "plan/part/thread_shear.h"

namespace blankwright {
namespace {

constexpr double slack = 1 + 1e-6;  // what rounding up to a step may have left off

bool is_enough(double safety, const Shop& shop) { return safety * slack >= shop.glue.safety_factor.value; }

/// A side load bends only with its lever.
void judge_side_load(const StudFacts& stud, Diagnostics& out) {
  if (stud.side_load && !stud.lever) {
    out.error(Problem::keys_disagree, stud.side_load->at, says::lever_missing).hint(says::say_where_it_acts);
  }
  if (stud.lever && !stud.side_load) {
    out.error(Problem::keys_disagree, stud.lever->at, says::side_load_missing).hint(says::side_load_or_no_lever);
  }
}

void judge_bending(const StudStrength& strength, const StudFacts& stud, const Shop& shop, Diagnostics& out) {
  if (!strength.bending || *strength.bending <= 0 * pascal) return;
  if (!strength.yield_strength) {
    const bool named = stud.grade.has_value();
    out.note(Problem::strength_unknown, named ? stud.grade->at : stud.side_load->at,
             named ? say(says::grade_unknown, stud.grade->value) : say(says::stud_material_unknown))
        .hint(says::say_grade_or_strength);
    return;
  }
  if (is_enough(*strength.bending_safety, shop)) return;
  const int factor = shop.glue.safety_factor.value;
  const Force allowed = *strength.bending_safety / factor * stud.side_load->value;
  out.error(Problem::stud_bends, stud.side_load->at, says::side_load_bends,
            printed(stud.side_load->value, shop.units.value), printed(*strength.bending, shop.units.value), factor,
            printed(*strength.yield_strength / factor, shop.units.value))
      .label(stud.lever->at, says::with_this_lever)
      .label(stud.yield_strength ? stud.yield_strength->at : stud.grade->at, says::what_it_bears)
      .hint(says::stronger_stud_or_less_load, printed(allowed, shop.units.value, Round::down));
}

void say_tapped(const Place& torque, const Order& order, Diagnostics& out) {
  out.note(Problem::strength_unknown, torque, says::tapped_torque_unknown).label(order.bore.fit.at, says::tapped);
}

void judge_torque(const StudStrength& strength, const Order& order, const Shop& shop, Diagnostics& out) {
  const StudFacts& stud = order.stud;
  if (!stud.torque || stud.torque->value <= 0 * newton_metre) return;
  if (!strength.bond_torque) return say_tapped(stud.torque->at, order, out);
  if (!is_enough(*strength.torque_safety, shop)) {
    const int factor = shop.glue.safety_factor.value;
    out.error(Problem::bond_twists, stud.torque->at, says::bond_bears_torque,
              printed(*strength.bond_torque / factor, shop.units.value, Round::down), factor,
              printed(stud.torque->value, shop.units.value))
        .label(stud.embedded ? stud.embedded->at : Place{}, says::the_length_in_wood)
        .hint(says::leave_embedded_out);
    return;
  }
  const bool is_tightened = stud.tightening && stud.tightening->value > 0 * newton_metre;
  if (stud.pull || is_tightened || strength.bond_measured) return;
  say_untested(stud.torque->at, shop, out);
}

/// What length would do, or else what load.
Saying way_out_of_stripping(const StudStrength& strength, const StudFacts& stud, bool by_tightening,
                            const Shop& shop) {
  const Length most = most_engaged_diameters * stud.thread.value.major;
  const double missing = shop.glue.safety_factor.value / *strength.head_strip_safety;
  const Length needed = missing * std::min(stud.enters.value, most);
  const Length finest = 0.5 * mm;  // pasted lengths are rounded up by less
  if (fits(most, needed) && (!stud.hole_depth || needed + finest < stud.hole_depth->value)) {
    return say(says::assigned, Keyword{"enters"}, pasted(needed, shop));
  }
  const UnitSystem units = shop.units.value;
  return by_tightening
             ? say(says::assigned, Keyword{"tightening"},
                   printed(stud.tightening->value / missing, units, Round::down))
             : say(says::assigned, Keyword{"pull"}, printed(stud.pull->value / missing, units, Round::down));
}

void judge_head(const StudStrength& strength, const StudFacts& stud, const Shop& shop, Diagnostics& out) {
  if (!strength.head_strip) {
    if (!stud.pull || stud.pull->value <= 0 * newton) return;
    out.note(Problem::strength_unknown, stud.pull->at, says::metal_unknown).hint(says::say_metals_strength);
    return;
  }
  if (!strength.head_strip_safety) return;
  if (!strength.tensile_strength) {
    out.note(Problem::strength_unknown, stud.grade ? stud.grade->at : stud.part_shear_strength->at,
             says::stud_strength_unknown);
  }
  if (is_enough(*strength.head_strip_safety, shop)) return;
  const int factor = shop.glue.safety_factor.value;
  const Force load = *strength.head_strip / *strength.head_strip_safety;
  const bool by_tightening = !stud.pull || load > stud.pull->value * slack;
  out.error(Problem::thread_strips, by_tightening ? stud.tightening->at : stud.pull->at,
            by_tightening ? says::client_thread_under_tightening : says::client_thread_under_pull,
            printed(*strength.head_strip / factor, shop.units.value, Round::down), factor,
            printed(load, shop.units.value))
      .label(stud.enters.at, says::what_is_engaged)
      .label(stud.part_shear_strength->at, says::what_the_metal_bears)
      .hint(way_out_of_stripping(strength, stud, by_tightening, shop));
}

/// What the bond is asked for, by what bounds the tightening most.
Saying against_bond(const Preload& preload, const Tightened& t, const Stud& stud, const Order& order,
                    const Shop& shop) {
  const UnitSystem units = shop.units.value;
  const Printed torque = printed(order.stud.tightening->value, units);
  const Printed pull = printed(*preload.most, units, Round::up);
  const double factor = shop.glue.assembly_factor.value / whole;
  if (t.by_pull && *t.by_pull <= std::min(*t.by_bond, *t.by_twist)) {
    return say(says::tightening_with_pull, torque, pull, shop.glue.safety_factor.value,
               printed(order.stud.pull->value, units), printed(*stud.bond_capacity, units, Round::down));
  }
  if (*t.by_twist < *t.by_bond) {
    return say(says::tightening_twists_bond, torque, shortest(factor, 3), printed(*t.by_twist, units, Round::down));
  }
  return say(says::tightening_pulls_bond, torque, pull, printed(*t.bond / factor, units, Round::down),
             shortest(factor, 3));
}

/// What tightening would do, or what length where the bond alone is too weak.
Saying way_out_of_tightening(const Preload& preload, const Tightened& t, const Stud& stud, const Order& order,
                             const Shop& shop) {
  constexpr Torque least_told = 0.05 * newton_metre;
  const Torque others_bear = std::min(t.by_stud, t.by_thread.value_or(t.by_stud));
  const Torque borne = t.largest.value_or(others_bear);
  const Saying way = borne < least_told
                         ? say(says::leave_tightening_out)
                         : say(says::assigned, Keyword{"tightening"}, printed(borne, shop.units.value, Round::down));
  const Torque wanted = order.stud.tightening->value;
  if (!t.largest || wanted > others_bear * slack) return way;
  const Force in_use = order.stud.pull ? shop.glue.safety_factor.value * order.stud.pull->value : 0 * newton;
  const double longer =
      std::max({wanted / *t.by_bond, wanted / *t.by_twist, (in_use + *preload.most / 2) / *stud.bond_capacity});
  return say(says::or_a_longer_stud, way, pasted(longer * stud.embedded, shop));
}

/// The pull in use alone is more than the bond bears, which judge_stud() says.
bool pull_is_refused(const Stud& stud, const StudFacts& facts, const Shop& shop) {
  return facts.pull && stud.bond_capacity &&
         facts.pull->value * shop.glue.safety_factor.value > *stud.bond_capacity * slack;
}

}  // namespace

void judge_stud_strength(const StudStrength& strength, const Order& order, const Shop& shop, Diagnostics& out) {
  judge_side_load(order.stud, out);
  judge_bending(strength, order.stud, shop, out);
  judge_torque(strength, order, shop, out);
  judge_head(strength, order.stud, shop, out);
}

void judge_tightening(const Preload& preload, const Tightened& tightened, const Stud& stud, const Order& order,
                      const Shop& shop, Diagnostics& out) {
  const auto& tightening = order.stud.tightening;
  if (!tightening || tightening->value <= 0 * newton_metre) return;
  if (!tightened.largest) {
    say_tapped(tightening->at, order, out);
  } else if (!order.stud.pull && !stud.bond_measured) {
    say_untested(tightening->at, shop, out);
  }
  if (pull_is_refused(stud, order.stud, shop)) return;
  const auto is_borne = [&](const std::optional<Torque>& bound) {
    return !bound || tightening->value <= *bound * slack;
  };
  const Saying way_out = way_out_of_tightening(preload, tightened, stud, order, shop);
  if (!is_borne(tightened.by_bond) || !is_borne(tightened.by_twist) || !is_borne(tightened.by_pull)) {
    out.warning(Problem::overtightened, tightening->at, against_bond(preload, tightened, stud, order, shop))
        .hint(way_out);
  }
  if (is_borne(tightened.by_stud)) return;
  out.warning(Problem::overtightened, tightening->at, says::tightening_pulls_stud,
              printed(tightening->value, shop.units.value), printed(*preload.most, shop.units.value, Round::up),
              printed(tightened.stud, shop.units.value, Round::down))
      .label(order.stud.grade ? order.stud.grade->at : Place{}, says::what_it_is_made_of)
      .hint(way_out);
}

void say_untested(const Place& load, const Shop& shop, Diagnostics& out) {
  out.warning(Problem::bond_untested, shop.glue.shear_strength.at, says::bond_is_assumed)
      .label(load, says::order_resting_on_it)
      .hint(says::pull_and_enter);
}

void judge_stud_stock(const Stud& stud, const Order& order, const Shop& shop, int pieces, Diagnostics& out) {
  if (shop.studs.empty()) return;
  const StudsWanted wanted{order.stud.thread.value, stud.cut_length, pieces};
  const int found = studs_from_stock({&wanted, 1}, shop.studs, shop.allowances.kerf.value).front();
  if (found >= pieces) return;
  const auto of_thread = std::ranges::find_if(shop.studs, [&](const StudStock& stock) {
    return is_same_thread(stock.thread.value, order.stud.thread.value);
  });
  const bool none = of_thread == shop.studs.end();
  const Printed length = measured(stud.cut_length, shop, Round::up);
  const std::string& thread = order.stud.thread.value.designation;
  auto& said = out.warning(Problem::stud_not_in_stock, order.stud.thread.at,
                           none         ? say(says::no_stud_of_thread, thread, pieces, length)
                           : found == 0 ? say(says::no_stud_long_enough, thread, pieces, length)
                                        : say(says::too_few_studs, thread, found, length, pieces));
  if (!none) said.label(of_thread->length.at, says::in_stock);
  said.hint(says::order_studs);
}

}  // namespace blankwright

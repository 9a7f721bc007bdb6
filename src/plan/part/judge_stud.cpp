#include "plan/part/judge_stud.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "diagnose/problem.h"
#include "plan/figure/judge_words.h"
#include "plan/part/thread_shear.h"

namespace blankwright {
namespace {

constexpr double slack = 1 + 1e-6;  // what rounding up to a step may have left off

bool is_enough(double safety, const Shop& shop) { return safety * slack >= shop.glue.safety_factor.value; }

/// A side load bends only with its lever.
void judge_side_load(const StudFacts& stud, Diagnostics& out) {
  if (stud.side_load && !stud.lever) {
    out.error(Problem::keys_disagree, stud.side_load->at, "`lever` is missing beside `side_load`")
        .hint("say where it acts, from the seat: lever = \"80 mm\"");
  }
  if (stud.lever && !stud.side_load) {
    out.error(Problem::keys_disagree, stud.lever->at, "`side_load` is missing beside `lever`")
        .hint("side_load = \"50 N\", or leave `lever` out");
  }
}

void judge_bending(const StudStrength& strength, const StudFacts& stud, const Shop& shop, Diagnostics& out) {
  if (!strength.bending || *strength.bending <= 0 * pascal) return;
  if (!strength.yield_strength) {
    const bool named = stud.grade.has_value();
    out.note(Problem::strength_unknown, named ? stud.grade->at : stud.side_load->at,
             named ? fmt::format("no yield strength is known of a stud of \"{}\"; whether the side load bends it is "
                                 "not judged",
                                 stud.grade->value)
                   : "nothing is said of the stud's material; whether the side load bends it is not judged")
        .hint("if it is that: grade = \"A2-70\", or what its certificate says: yield_strength = \"450 MPa\"");
    return;
  }
  if (is_enough(*strength.bending_safety, shop)) return;
  const int factor = shop.glue.safety_factor.value;
  const Force allowed = *strength.bending_safety / factor * stud.side_load->value;
  out.error(
         Problem::stud_bends, stud.side_load->at,
         fmt::format("side load of {} stresses the stud with {} at the seat; with the shop's safety factor of {} it "
                     "bears {}",
                     text(stud.side_load->value, shop.units.value), text(*strength.bending, shop.units.value), factor,
                     text(*strength.yield_strength / factor, shop.units.value)))
      .label(stud.lever->at, "with this lever")
      .label(stud.yield_strength ? stud.yield_strength->at : stud.grade->at, "what it bears")
      .hint(fmt::format("a thicker or stronger stud, or side_load = \"{}\"",
                        text(allowed, shop.units.value, Round::down)));
}

void say_tapped(const Place& torque, const Order& order, Diagnostics& out) {
  out.note(Problem::strength_unknown, torque,
           "what torque a stud screwed into tapped wood bears is not worked out; only a twisted one is evidence")
      .label(order.bore.fit.at, "tapped");
}

void judge_torque(const StudStrength& strength, const Order& order, const Shop& shop, Diagnostics& out) {
  const StudFacts& stud = order.stud;
  if (!stud.torque || stud.torque->value <= 0 * newton_metre) return;
  if (!strength.bond_torque) return say_tapped(stud.torque->at, order, out);
  if (!is_enough(*strength.torque_safety, shop)) {
    const int factor = shop.glue.safety_factor.value;
    out.error(Problem::bond_twists, stud.torque->at,
              fmt::format("bond bears a torque of {} with the shop's safety factor of {}; the order asks for {}",
                          text(*strength.bond_torque / factor, shop.units.value, Round::down), factor,
                          text(stud.torque->value, shop.units.value)))
        .label(stud.embedded ? stud.embedded->at : Place{}, "the length in the wood")
        .hint("leave `embedded` out to have it worked out");
    return;
  }
  const bool is_tightened = stud.tightening && stud.tightening->value > 0 * newton_metre;
  if (stud.pull || is_tightened || strength.bond_measured) return;
  say_untested(stud.torque->at, shop, out);
}

/// What length would do, or else what load.
std::string way_out_of_stripping(const StudStrength& strength, const StudFacts& stud, bool by_tightening,
                                 const Shop& shop) {
  const Length most = most_engaged_diameters * stud.thread.value.major;
  const double missing = shop.glue.safety_factor.value / *strength.head_strip_safety;
  const Length needed = missing * std::min(stud.enters.value, most);
  const Length finest = 0.5 * mm;  // pasted lengths are rounded up by less
  if (fits(most, needed) && (!stud.hole_depth || needed + finest < stud.hole_depth->value)) {
    return fmt::format("enters = \"{}\"", pasted(needed, shop));
  }
  return by_tightening
             ? fmt::format("tightening = \"{}\"",
                           text(stud.tightening->value / missing, shop.units.value, Round::down))
             : fmt::format("pull = \"{}\"", text(stud.pull->value / missing, shop.units.value, Round::down));
}

void judge_head(const StudStrength& strength, const StudFacts& stud, const Shop& shop, Diagnostics& out) {
  if (!strength.head_strip) {
    if (!stud.pull || stud.pull->value <= 0 * newton) return;
    out.note(Problem::strength_unknown, stud.pull->at,
             "nothing is said of the client's metal; whether the thread in it strips under the pull is not judged")
        .hint("about 0.6 of its tensile strength; of C36000 brass, for one: part_shear_strength = \"190 MPa\"");
    return;
  }
  if (!strength.head_strip_safety) return;
  if (!strength.tensile_strength) {
    out.note(Problem::strength_unknown, stud.grade ? stud.grade->at : stud.part_shear_strength->at,
             "no tensile strength is known of the stud; its own thread is taken to be no weaker than the client's");
  }
  if (is_enough(*strength.head_strip_safety, shop)) return;
  const int factor = shop.glue.safety_factor.value;
  const Force load = *strength.head_strip / *strength.head_strip_safety;
  const bool by_tightening = !stud.pull || load > stud.pull->value * slack;
  out.error(Problem::thread_strips, by_tightening ? stud.tightening->at : stud.pull->at,
            fmt::format("thread in the client's part bears {} with the shop's safety factor of {}; {} {}",
                        text(*strength.head_strip / factor, shop.units.value, Round::down), factor,
                        by_tightening ? "tightening pulls with" : "the order asks for", text(load, shop.units.value)))
      .label(stud.enters.at, "what is engaged")
      .label(stud.part_shear_strength->at, "what the metal bears")
      .hint(way_out_of_stripping(strength, stud, by_tightening, shop));
}

/// What the bond is asked for, in words, by what bounds the tightening most.
std::string against_bond(const Preload& preload, const Tightened& t, const Stud& stud, const Order& order,
                         const Shop& shop) {
  const UnitSystem units = shop.units.value;
  const std::string torque = text(order.stud.tightening->value, units);
  const std::string pull = text(*preload.most, units, Round::up);
  const double factor = shop.glue.assembly_factor.value / whole;
  if (t.by_pull && *t.by_pull <= std::min(*t.by_bond, *t.by_twist)) {
    return fmt::format(
        "tightening of {} pulls with up to {}; half of it and {} times the pull of {} are more than "
        "the {} that the bond bears",
        torque, pull, shop.glue.safety_factor.value, text(order.stud.pull->value, units),
        text(*stud.bond_capacity, units, Round::down));
  }
  if (*t.by_twist < *t.by_bond) {
    return fmt::format(
        "tightening of {} twists the bond until the seat closes; with the shop's assembly factor of "
        "{:.3g} it bears {}",
        torque, factor, text(*t.by_twist, units, Round::down));
  }
  return fmt::format(
      "tightening of {} pulls with up to {}; the bond, twisted by it, bears {} with the shop's "
      "assembly factor of {:.3g}",
      torque, pull, text(*t.bond / factor, units, Round::down), factor);
}

/// What tightening would do, or what length where the bond alone is too weak.
std::string way_out_of_tightening(const Preload& preload, const Tightened& t, const Stud& stud, const Order& order,
                                  const Shop& shop) {
  constexpr Torque least_told = 0.05 * newton_metre;
  const Torque others_bear = std::min(t.by_stud, t.by_thread.value_or(t.by_stud));
  const Torque borne = t.largest.value_or(others_bear);
  std::string way = borne < least_told
                        ? "leave `tightening` out"
                        : fmt::format("tightening = \"{}\"", text(borne, shop.units.value, Round::down));
  const Torque wanted = order.stud.tightening->value;
  if (!t.largest || wanted > others_bear * slack) return way;
  const Force in_use = order.stud.pull ? shop.glue.safety_factor.value * order.stud.pull->value : 0 * newton;
  const double longer =
      std::max({wanted / *t.by_bond, wanted / *t.by_twist, (in_use + *preload.most / 2) / *stud.bond_capacity});
  return way + fmt::format(", or a longer stud: embedded = \"{}\"", pasted(longer * stud.embedded, shop));
}

/// The pull in use alone is more than the bond bears, which judge_stud() says.
bool pull_is_refused(const Stud& stud, const StudFacts& facts, const Shop& shop) {
  return facts.pull && stud.bond_capacity &&
         facts.pull->value * shop.glue.safety_factor.value > *stud.bond_capacity * slack;
}

bool is_same_thread(const Thread& a, const Thread& b) {
  constexpr Length hair = 1e-3 * mm;
  return a.system == b.system && abs(a.major - b.major) < hair && abs(a.pitch - b.pitch) < hair &&
         a.left_hand == b.left_hand;
}

/// How many a stud or rod gives, each cut with the saw's kerf between them; no more are counted than wanted.
int pieces_from(Length stock, Length cut, Length kerf, int wanted) {
  int n = 0;
  while (n < wanted && fits(stock, (n + 1) * cut + n * kerf)) ++n;
  return n;
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
  const std::string way_out = way_out_of_tightening(preload, tightened, stud, order, shop);
  if (!is_borne(tightened.by_bond) || !is_borne(tightened.by_twist) || !is_borne(tightened.by_pull)) {
    out.warning(Problem::overtightened, tightening->at, against_bond(preload, tightened, stud, order, shop))
        .hint(way_out);
  }
  if (is_borne(tightened.by_stud)) return;
  out.warning(Problem::overtightened, tightening->at,
              fmt::format("tightening of {} pulls with up to {}; the stud, twisted by it, bears {} at 90 % of its "
                          "yield strength",
                          text(tightening->value, shop.units.value), text(*preload.most, shop.units.value, Round::up),
                          text(tightened.stud, shop.units.value, Round::down)))
      .label(order.stud.grade ? order.stud.grade->at : Place{}, "what it is made of")
      .hint(way_out);
}

void say_untested(const Place& load, const Shop& shop, Diagnostics& out) {
  out.warning(Problem::bond_untested, shop.glue.shear_strength.at,
              "bond strength is assumed; published rules for glued rods are for long rods in softwood, and only a "
              "pulled witness is evidence")
      .label(load, "an order that rests on it")
      .hint(
          "set a stud in a witness, pull it out and enter `stud-pulled` with the force; or, if the shop's figure was "
          "measured so: shear_measured = true under [glue]");
}

void judge_stud_stock(const Stud& stud, const Order& order, const Shop& shop, int pieces, Diagnostics& out) {
  if (shop.studs.empty()) return;
  int found = 0;
  const StudStock* of_thread = nullptr;
  for (const StudStock& stock : shop.studs) {
    if (!is_same_thread(stock.thread.value, order.stud.thread.value)) continue;
    if (of_thread == nullptr) of_thread = &stock;
    for (int i = 0; i < stock.count.value && found < pieces; ++i) {
      const int from_this = pieces_from(stock.length.value, stud.cut_length, shop.allowances.kerf.value, pieces);
      if (from_this == 0) break;
      found += from_this;
    }
  }
  if (found >= pieces) return;
  const std::string length = in_units(stud.cut_length, shop, Round::up);
  const std::string& thread = order.stud.thread.value.designation;
  auto& said = out.warning(
      Problem::stud_not_in_stock, order.stud.thread.at,
      of_thread == nullptr ? fmt::format("no stud of {} is in stock; {} of {} are needed", thread, pieces, length)
      : found == 0 ? fmt::format("no stud of {} in stock is long enough; {} of {} are needed", thread, pieces, length)
                   : fmt::format("studs of {} in stock give {} of {}; {} are needed", thread, found, length, pieces));
  if (of_thread != nullptr) said.label(of_thread->length.at, "in stock");
  said.hint("order them, or count again: `studs` in the shop file");
}

}  // namespace blankwright

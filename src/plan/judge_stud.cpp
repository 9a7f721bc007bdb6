#include "plan/judge_stud.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "plan/judge_words.h"
#include "plan/thread_shear.h"

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

const Given<Torque>& larger_torque(const StudFacts& stud) {
  if (!stud.torque) return *stud.tightening;
  return stud.tightening && stud.tightening->value > stud.torque->value ? *stud.tightening : *stud.torque;
}

void judge_torque(const StudStrength& strength, const Order& order, const Shop& shop, Diagnostics& out) {
  const StudFacts& stud = order.stud;
  if (!stud.torque && !stud.tightening) return;
  const Given<Torque>& torque = larger_torque(stud);
  if (torque.value <= 0 * newton_metre) return;
  if (!strength.bond_torque) {
    out.note(Problem::strength_unknown, torque.at,
             "what torque a stud screwed into tapped wood bears is not worked out; only a twisted one is evidence")
        .label(order.bore.fit.at, "tapped");
    return;
  }
  if (!is_enough(*strength.torque_safety, shop)) {
    const int factor = shop.glue.safety_factor.value;
    out.error(Problem::bond_twists, torque.at,
              fmt::format("bond bears a torque of {} with the shop's safety factor of {}; the order asks for {}",
                          in_units(*strength.bond_torque / factor, shop, Round::down), factor,
                          in_units(torque.value, shop, Round::nearest)))
        .label(stud.embedded ? stud.embedded->at : Place{}, "the length in the wood")
        .hint("leave `embedded` out to have it worked out");
    return;
  }
  if (stud.pull || strength.bond_measured) return;
  out.warning(Problem::bond_untested, torque.at,
              "that the shear of a bond is the same all over is no more than an orientation; for this bond only a "
              "twisted witness is evidence");
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
             ? fmt::format("tightening = \"{}\"", in_units(stud.tightening->value / missing, shop, Round::down))
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
}

}  // namespace blankwright

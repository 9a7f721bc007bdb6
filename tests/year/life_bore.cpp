#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "life.h"

namespace simulated {
namespace {

constexpr double rod_mm = 100;  ///< over which its lean is read

}  // namespace

/// Of all that is decided before the stud is glued in. A sound blank whose witness was not is no wrong HOLD: what was
/// seen in the witness is true, and the rest of its bath and load can only be guessed.
Known Life::truth_of(const Blank& blank) const {
  Known known =
      both(both(resin_truth(blank, shop_), cure_truth(blank, shop_)), axis_truth(blank, order_of(blank), shop_));
  const bool by_witness = std::ranges::any_of(blanks_, [&](const Blank& other) {
    return other.witness && ((other.bath_name == blank.bath_name && resin_truth(other, shop_).truth != Truth::good) ||
                             (other.load_name == blank.load_name && cure_truth(other, shop_).truth != Truth::good));
  });
  if (known.truth == Truth::good && by_witness) known.truth = Truth::grey;
  return known;
}

/// Squared, rounded where the shop does so, bored, the rod measured; then the verdict before the stud is glued in.
void Life::bore(const Group& group) {
  later(2);
  const bool provoke = run_.provoke == Provoke::turned_against_axis;
  int gross = 0;
  for (Blank* blank : group) {
    const Sheets& sheets = sheets_of(*blank);
    // What a blank gives, when it dried smaller than planned.
    blank->squared.width_mm = std::min(sheets.squared_section_mm + chance_.error(0.1), blank->width_mm - 1);
    blank->squared.depth_mm = std::min(sheets.squared_section_mm + chance_.error(0.1), blank->depth_mm - 1);
    blank->squared.bow_mm = std::abs(chance_.error(0.12));
    const bool off = (provoke && gross < 2) || chance_.yes(shop_.lathe ? 0.1 : 0.04);
    gross += off;
    const double far_mm = off ? chance_.between(4.5, 6.5) : 0;
    blank->axis.offset_mm = {far_mm + chance_.error(shop_.bore_offset_mm / 3),
                             chance_.error(shop_.bore_offset_mm / 3)};
    for (double& lean : blank->axis.lean_mm_per_100mm) lean = chance_.error(shop_.bore_tilt_mm_per_100mm / 3);
    if (shop_.lathe) {
      // The rounded blank runs true, the bore as true as the lathe: what is off is the marking, which rounding takes
      // with it.
      blank->squared.round_diameter_mm = sheets.round_to_mm + std::abs(chance_.error(0.1));
      if (!off)
        blank->axis.offset_mm = {chance_.error(0.1), chance_.error(0.1)};
      else if (provoke || chance_.yes(0.5))
        blank->axis.offset_mm[1] = far_mm * chance_.between(-1, 1);
      else {
        // Towards an edge of the four faces: each of them still has wood, and between them there is none.
        const double room_mm =
            (blank->squared.round_diameter_mm - largest_diameter_mm(order_of(*blank).stations)) / 2;
        blank->axis.offset_mm = {room_mm * 0.85, room_mm * 0.85};
        blank->axis.lean_mm_per_100mm = {};
      }
    }
    work(1);
    note("graded", *blank, {{"verdict", "go-on"}});
    work(5);
    // A rounded blank has no faces any more: its sides are its diameter.
    const bool round = shop_.lathe;
    note("squared", *blank,
         {{"width", read_length(round ? blank->squared.round_diameter_mm : blank->squared.width_mm)},
          {"depth", read_length(round ? blank->squared.round_diameter_mm : blank->squared.depth_mm)},
          {"length", read_length(sheets.squared_length_mm)}});
    work(5);
    note("bored", *blank, rod_on(*blank));
  }
  hand_in();
  ask_elsewhere(group);
  Group go;
  for (Blank* blank : group) {
    if (blank->out) continue;  // cut open for another one
    const Known known = truth_of(*blank);
    const bool free = judged(Step::gluing, *blank, known, {blank->id}, {}) != Said::held;
    // The provoked ones go on against what was said of their axis.
    const bool against = provoke && axis_truth(*blank, order_of(*blank), shop_).truth == Truth::bad;
    if (free || against)
      go.push_back(blank);
    else
      scrap(*blank, "held before gluing");
  }
  std::erase_if(go, [](const Blank* blank) { return blank->out; });
  hand_in();
  if (!go.empty()) glue_and_turn(go);
}

/// Distances from the rod's middle to the four faces at the seat, and its lean outside: it leans away from where the
/// bore goes.
std::vector<std::pair<std::string, std::string>> Life::rod_on(const Blank& blank) {
  const bool round = blank.squared.round_diameter_mm > 0;
  const double wide_mm = round ? blank.squared.round_diameter_mm : blank.squared.width_mm;
  const double deep_mm = round ? blank.squared.round_diameter_mm : blank.squared.depth_mm;
  const auto lean = [&](std::size_t direction) {
    return read_length(-blank.axis.lean_mm_per_100mm.at(direction) * rod_mm / 100);
  };
  return {{"face_1", read_length(wide_mm / 2 - blank.axis.offset_mm[0])},
          {"face_2", read_length(deep_mm / 2 - blank.axis.offset_mm[1])},
          {"face_3", read_length(wide_mm / 2 + blank.axis.offset_mm[0])},
          {"face_4", read_length(deep_mm / 2 + blank.axis.offset_mm[1])},
          {"lean_1", lean(0)},
          {"lean_2", lean(1)},
          {"over", length_text(rod_mm, shop_.units)}};
}

void Life::glue_and_turn(const Group& group) {
  later(1);
  for (const Blank* blank : group) {
    note("glued", *blank);
    work(5);
  }
  hand_in();
  go_to(when_somebody_is_there(after(now_, shop_.glue_hours + 0.2)));
  desk_.put_right(now_);
  for (const Blank* blank : group) {
    note("stud-measured", *blank, rod_on(*blank));
    work(2);
  }
  hand_in();
  ask_elsewhere(group);
  Group turned;
  for (Blank* blank : group) {
    if (blank->out) continue;
    const Known axis = axis_truth(*blank, order_of(*blank), shop_);
    const Known known = truth_of(*blank);
    const bool free = judged(Step::turning, *blank, known, {blank->id}, {}) != Said::held;
    const bool against = !free && run_.provoke == Provoke::turned_against_axis && axis.truth == Truth::bad;
    if (!free && !against) {
      scrap(*blank, "held before turning");
      continue;
    }
    work(20);
    note("turned", *blank);
    blank->turned = true;
    turned.push_back(blank);
  }
  std::erase_if(turned, [](const Blank* blank) { return blank->out; });
  hand_in();
  for (Blank* blank : turned) {
    if (run_.provoke != Provoke::turned_against_axis ||
        axis_truth(*blank, order_of(*blank), shop_).truth != Truth::bad)
      continue;
    judge_.provoked(2);
    if (!told_against(desk_.heard(blank->id)))
      add_wrong("bad released", blank->id, "turned against the HOLD of its axis, and nothing was said of it");
    const std::string history = program_.run(now_, {"ask", "blank", blank->id}).text;
    if (history.find("against") == std::string::npos)
      add_wrong("bad released", blank->id, "turned against the HOLD of its axis; its history is silent about it");
  }
  inspect_and_send(turned);
}

/// A dummy is screwed on, as hard as the turner's sheet lets it: no bond of at least the strength that the shop
/// states may give way. F = T / (K d), K from 0.15 to 0.3; common practice, no source.
void Life::tighten_dummy(const Blank& blank) {
  const Sheets& sheets = sheets_of(blank);
  const Order& order = order_of(blank);
  const double torque_Nm = std::isnan(sheets.tighten_most_Nm) ? order.tightening_Nm : sheets.tighten_most_Nm;
  const double pull_N = torque_Nm / (chance_.between(0.15, 0.3) * order.thread.major_mm / 1000);
  const double bond_N = blank.bond_MPa * std::numbers::pi * order.thread.major_mm * order.embedded_mm;
  judge_.count("dummies tightened");
  if (pull_N > bond_N)
    add_wrong(
        "bond broken", blank.id,
        fmt::format("tightened to {:.2f} N m, its stud of {:.0f} N came out at {:.0f} N", torque_Nm, bond_N, pull_N));
}

/// The inspector sees a flat where the form lay outside the wood.
void Life::inspect_and_send(const Group& group) {
  next_morning();
  std::map<std::string, int> sent;
  Group sound;
  for (Blank* blank : group) {
    const bool flat = clear_mm(outline(order_of(*blank)), blank->axis, blank->squared) < -0.2;
    std::vector<std::pair<std::string, std::string>> says{
        {"result", flat ? "fail" : "pass"}, {"projection", read_length(sheets_of(*blank).projection_mm)}};
    tighten_dummy(*blank);
    if (flat) says.emplace_back("reason", "a flat");
    note("inspected", *blank, std::move(says));
    work(2);
    if (flat)
      blank->out = true;
    else
      sound.push_back(blank);
  }
  hand_in();
  ask_elsewhere(sound);
  for (Blank& blank : blanks_)  // from stock, inspected long ago
    if (blank.turned && !blank.sent && !blank.out && std::ranges::find(sound, &blank) == sound.end())
      sound.insert(sound.begin(), &blank);
  for (Blank* blank : sound) {
    if (blank->out || sent[blank->order] == order_of(*blank).quantity) continue;
    const Known known = truth_of(*blank);
    if (judged(Step::sending, *blank, known, {blank->id}, {}) == Said::held) continue;
    work(1);
    note("sent", *blank);
    blank->sent = true;
    ++sent[blank->order];
    judge_.count("sent");
  }
  hand_in();
}

}  // namespace simulated

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "life.h"

namespace simulated {

/// Into the drying oven, two weighings two hours apart, and on until the program calls them dry; out, sealed,
/// measured.
void Life::dry(const Group& group, const std::string& load, double hours, bool seals) {
  work(1);
  for (Blank* blank : group) {
    note("into-drying", *blank, {{"load", load}});
    blank->place = Place::in_oven;
  }
  hand_in();
  const Moment in = now_;
  const auto until = [&](Moment moment) {
    const double more = hours_between(now_, moment);
    go_to(moment);
    for (Blank* blank : group) dry_in_oven(*blank, more, shop_.drying_oven_C);
  };
  // Somebody needs the oven, and weighs outside it what is not dry yet.
  const bool early = seals && run_.provoke == Provoke::nothing && early_.yes(0.15);
  until(when_somebody_is_there(after(in, early ? hours / 8 : hours)));
  desk_.put_right(now_);
  if (early) take_out_of_drying(group);
  Group wet = group;
  for (int weighing = 0; weighing < (early ? 2 : 12) && !wet.empty(); ++weighing) {
    if (weighing > 0 && early) go_to(after(now_, 2.2));
    if (weighing > 0 && !early) until(after(now_, 2.2));
    for (Blank* blank : wet) {
      const double read_g = std::round((mass_g(*blank) + mass_error_g()) * 10) / 10;
      blank->weighings_apart_share = std::abs(read_g - blank->last_read_g) / read_g;
      blank->last_read_g = read_g;
      note("weighed", *blank, {{"mass", mass_text(read_g, shop_.units)}});
      work(1);
    }
    hand_in();
    if (early) seal(group);
    if (weighing > 0)
      std::erase_if(wet, [&](const Blank* blank) { return said(desk_.heard(blank->id)) == Said::released; });
  }
  if (early) judge_.provoked(11);
  if (!early) take_out_of_drying(group);
  // Who is about to go on against the gate does not wait until it is cold.
  if (seals) {
    seal(group);
    later(0.3);
  }
  for (const Blank* blank : group) {
    note("measured", *blank,
         {{"width", read_length(blank->width_mm)},
          {"depth", read_length(blank->depth_mm)},
          {"length", read_length(blank->length_mm)}});
    work(1);
  }
  hand_in();
}

void Life::take_out_of_drying(const Group& group) {
  for (Blank* blank : group) {
    note("out-of-drying", *blank);
    out_of_oven_[blank->id] = now_;
    blank->place = Place::open;
  }
  work(1);
}

void Life::seal(const Group& group) {
  for (Blank* blank : group) {
    note("sealed", *blank);
    blank->place = Place::sealed;
  }
  hand_in();
}

/// What may have taken up water while it lay is weighed once more, as it is asked for: the scale knows.
void Life::weigh_what_lay(const Group& group) {
  for (Blank* blank : group) {
    const std::vector<std::string>& lines = desk_.heard(blank->id);
    if (said(lines) != Said::asked || !asks_to_weigh_what_lay(lines)) continue;
    work(1);
    const double read_g = std::round((mass_g(*blank) + mass_error_g()) * 10) / 10;
    // It can only have become heavier: what is read lighter shows the wood to be wet.
    blank->weighings_apart_share =
        std::max(blank->weighings_apart_share, (blank->last_read_g - read_g) / blank->last_read_g);
    blank->last_read_g = read_g;
    note("weighed", *blank, {{"mass", mass_text(read_g, shop_.units)}});
    judge_.count("weighed again since they lay");
  }
  hand_in();
}

/// Those that may go into the bath do; the others are dried again, twice at most.
void Life::bathe(const Group& group, const std::string& name, int round) {
  const bool against = group.front()->place == Place::open;
  if (!against) {
    for (const Blank* blank : group) go_to(after(out_of_oven_[blank->id], sheets_of(*blank).cool_hours + 0.1));
    if (shop_.vacuum_hours > 8) {
      if (!in_hours(now_) || !in_hours(after(now_, 1.5))) next_morning();
      go_to(at_hour(now_, 15));
    } else if (!in_hours(now_) || !in_hours(after(now_, shop_.vacuum_hours + 1.5))) {
      next_morning();
    }
    for (Blank* blank : group) {
      note("opened", *blank);
      blank->place = Place::open;
    }
    later(0.1);
    hand_in();
  }
  if (!against) weigh_what_lay(group);
  ask_elsewhere(group);
  Group go, held, hot;
  for (Blank* blank : group) {
    const double hours_out = hours_between(out_of_oven_[blank->id], now_);
    const Known known = dry_truth(*blank, shop_, hours_out);
    const Said verdict = judged(Step::bath, *blank, known, {blank->id},
                                {"weighed", "measured", "into-drying", "out-of-drying", "sealed", "opened"});
    if (verdict == Said::released)
      go.push_back(blank);
    else if (against && hot.size() < 2)
      hot.push_back(blank);
    else
      held.push_back(blank);
  }
  seal(held);
  if (!hot.empty()) {
    go.insert(go.end(), hot.begin(), hot.end());
    for (const Blank* blank : hot) note("into-bath", *blank, {{"bath", name}});
    hand_in();
    tell_of_bath_against_gate(hot);
  }
  if (!go.empty()) {
    Group cool;
    for (Blank* blank : go)
      if (std::ranges::find(hot, blank) == hot.end()) cool.push_back(blank);
    for (const Blank* blank : cool) note("into-bath", *blank, {{"bath", name}});
    run_bath(go, name, true);
    soaked(go, name, 0);
  }
  if (held.empty()) return;
  if (round == 2) {
    for (Blank* blank : held) scrap(*blank, "never dry");
    return;
  }
  if (!against) dry(held, fmt::format("D-{}-{}", name.substr(2), round + 1), 6, true);
  bathe(held, fmt::format("{}-{}", name, round + 1), round + 1);
}

/// A gate that was not obeyed has to stand in the blank's history: whoever reads it later has to know.
void Life::tell_of_bath_against_gate(const Group& hot) {
  for (const Blank* blank : hot) {
    judge_.provoked(3);
    if (!told_against(desk_.heard(blank->id)))
      add_wrong("bad released", blank->id, "went into the bath against its gate, and nothing was said of it");
    const std::string history = program_.run(now_, {"ask", "blank", blank->id}).text;
    if (history.find("against") == std::string::npos)
      add_wrong("bad released", blank->id, "went into the bath against its gate; its history is silent about it");
  }
}

/// Vacuum and soak. What the pump really reaches, and what really goes into the wood.
void Life::run_bath(const Group& group, const std::string& bath, bool first) {
  const bool weak = run_.provoke == Provoke::nothing && chance_.yes(0.05);
  const double pressure_kPa = weak ? shop_.target_absolute_kPa + chance_.between(8, 20) : shop_.target_absolute_kPa;
  const double air_kPa = air_pressure_kPa(shop_.altitude_m);
  for (Blank* blank : group) {
    blank->place = Place::in_bath;
    blank->bath_name = bath;
  }
  work(2);
  note_of("vacuum-on", {{"bath", bath}});
  hand_in();
  later(0.25);
  const Moment reached = now_;
  note_of(
      "target-reached",
      {{"bath", bath}, {"gauge", gauge_text((air_kPa - pressure_kPa) * (1 + chance_.error(0.003)), shop_.units)}});
  later((first ? shop_.vacuum_hours : 3) - 0.5);
  note_of("bubbling-ended", {{"bath", bath}});
  later(0.5);
  if ((run_.provoke == Provoke::long_vacuum && first) || !in_hours(now_)) next_morning();
  note_of("released", {{"bath", bath}});
  hand_in();
  // Line 7 of the bath card: twice what the vacuum really took.
  const double soak_hours =
      std::max(sheets_of(*group.front()).soak_least_hours, shop_.soak_factor * hours_between(reached, now_));
  const Moment released = now_;
  const Moment out = when_somebody_is_there(after(now_, soak_hours));
  while (now_ < out && !in_hours(after(now_, 0.02))) next_morning();
  go_to(out);
  desk_.put_right(now_);
  // The lowest blank has about 25 cm of resin above it.
  for (Blank* blank : group)
    soak(*blank, pressure_kPa + 2.5, air_kPa, hours_between(released, now_), shop_.resin_g_cm3,
         shop_.film_mm * chance_.between(0.3, 1));
  for (const Blank* blank : group) note("out-of-bath", *blank);
  for (const Blank* blank : group) {
    work(2);
    note("drained", *blank);
    work(1);
    note("weighed", *blank, {{"mass", read_mass(*blank)}});
  }
  work(1);
  hand_in();
}

/// Full enough ones are cured, the others soak again, twice at most.
void Life::soaked(const Group& group, const std::string& bath, int round) {
  ask_elsewhere(group);
  Group ready, light;
  for (Blank* blank : group) {
    const Said verdict = judged(Step::oven, *blank, resin_truth(*blank, shop_), {blank->id},
                                {"weighed", "measured", "into-bath", "out-of-bath"});
    (verdict != Said::held ? ready : light).push_back(blank);
  }
  if (!ready.empty()) cure(ready, bath);
  if (light.empty()) return;
  if (round == 2) {
    for (Blank* blank : light) scrap(*blank, "takes no resin");
    hand_in();
    return;
  }
  const std::string again = bath + "-again";
  if (!in_hours(after(now_, 4.5))) next_morning();
  for (const Blank* blank : light) note("into-bath", *blank, {{"bath", again}});
  run_bath(light, again, false);
  soaked(light, again, round + 1);
}

}  // namespace simulated

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

#include "heat.h"
#include "life.h"

namespace simulated {
namespace {

/// Film coefficient of the air in an oven of this size. Common practice, no source: with a fan 20, still air and
/// radiation 12.
double film_W_m2K(const Shop& shop) { return shop.fan ? 20 : 12; }

/// A thermometer in the air follows it by some minutes and does not show every swing.
double thermometer_C(const std::function<double(double)>& air_C, double minute) {
  double sum = 0;
  for (int before = 0; before < 8; ++before) sum += air_C(std::max(0.0, minute - before));
  return sum / 8;
}

std::optional<Moment> told_moment(const std::vector<std::string>& lines) {
  for (const std::string& line : lines)
    if (line.find("may come out from") != std::string::npos) return moment_in(line);
  return std::nullopt;
}

}  // namespace

std::vector<double> Life::core_of(const Blank& blank, const std::function<double(double)>& air_C, int minutes) const {
  HeatedBlank heated;
  heated.section_mm = (blank.width_mm + blank.depth_mm) / 2;
  heated.length_mm = blank.length_mm;
  heated.density_kg_m3 = 1000 * mass_g(blank) / dry_volume_cm3(blank);
  // Dry wood across the grain: Wood Handbook eq. 4-7, k = 0.01864 + 0.1941 G; along it 1.8 times that. Resin in its
  // voids adds what it has itself, 0.2 W/(m K), by its share.
  const double resin_share = blank.filled_share * void_share(blank);
  const double wood_W_mK = 0.01864 + 0.1941 * blank.density_g_cm3;
  heated.across_W_mK = wood_W_mK + 0.15 * resin_share;
  heated.along_W_mK = 1.8 * wood_W_mK + 0.15 * resin_share;
  heated.capacity_J_kgK = 1450;
  heated.film_W_m2K = film_W_m2K(shop_) * blank.place_share;
  return core_by_minute_C(heated, air_C, minutes);
}

/// The loads of a bath one after the other, each as paper has put it together.
void Life::cure(const Group& group, const std::string& bath) {
  std::map<int, Group> loads;
  for (Blank* blank : group) loads[blank->load].push_back(blank);
  const bool provoke = run_.provoke == Provoke::load_without_witness && loads.size() > 1;
  for (const auto& [number, load] : loads) {
    const bool has_witness = std::ranges::any_of(load, [](const Blank* blank) { return blank->witness; });
    const bool hurried = provoke && !has_witness;
    if (hurried) judge_.provoked(1);
    if (!in_hours(after(now_, hurried ? 1 : sheets_of(*load.front()).oven_least_hours + 0.5)) && !hurried)
      next_morning();
    cure_load(load, fmt::format("C{}-{}", bath.substr(1), number), hurried);
  }
}

void Life::cure_load(const Group& load, const std::string& name, bool hurried) {
  const double mean_C = true_air_C(shop_, sheets_of(*load.front()).dial_cure_C);
  const double swing_K = chance_.between(3, 8);
  const double period_minutes = chance_.between(12, 25);
  const double phase = chance_.between(0, 2 * std::numbers::pi);
  // The door was open: the air is back after a quarter of an hour.
  const auto air_C = [=](double minute) {
    return mean_C - 0.4 * (mean_C - room_C) * std::exp(-minute / 5) +
           swing_K * std::sin(2 * std::numbers::pi * minute / period_minutes + phase);
  };
  const Moment in = now_;
  for (Blank* blank : load) {
    note("into-oven", *blank, {{"load", name}});
    blank->load_name = name;
  }
  hand_in();
  if (hurried) {
    // Taken out half an hour after the coldest core was at 60 °C.
    int minutes = 0;
    for (const Blank* blank : load) {
      const std::vector<double> core_C = core_of(*blank, air_C, 400);
      const auto warm = std::ranges::find_if(core_C, [](double core) { return core >= 60; });
      minutes = std::max(minutes, static_cast<int>(warm - core_C.begin()));
    }
    later(0.35);
    note_of("oven-temperature",
            {{"load", name}, {"temperature", read_temperature(thermometer_C(air_C, hours_between(in, now_) * 60))}});
    hand_in();
    go_to({in.minutes + minutes + 30});
  } else {
    wait_for_load(load, name, air_C, in);
  }
  const int minutes = static_cast<int>(now_.minutes - in.minutes);
  for (Blank* blank : load) {
    blank->held_C =
        held_C(core_of(*blank, air_C, minutes), static_cast<int>(std::lround(shop_.cure_hold_hours * 60)));
    judged(Step::unloading, *blank, cure_truth(*blank, shop_), {"load " + name},
           {"into-oven", "oven-temperature", "core-temperature"});
  }
  work(1);
  for (Blank* blank : load) {
    note("out-of-oven", *blank);
    bleed_out(*blank);
  }
  hand_in();
}

/// Of each order in it the blank that has most to warm, weighed and measured, the slowest first; now and then the one
/// that lies at hand. Those that are measured lie in the coldest places, as the oven's card asks.
std::vector<Life::Probe> Life::probes_in(const Group& load, const std::function<double(double)>& air_C) {
  const auto to_warm = [](const Blank* blank) { return mass_g(*blank) / blank->length_mm; };
  std::map<std::string, Blank*> slowest;
  for (Blank* blank : load) {
    Blank*& of_order = slowest[blank->order];
    if (of_order == nullptr || to_warm(of_order) < to_warm(blank)) of_order = blank;
  }
  std::vector<Blank*> all;
  for (const auto& [order, blank] : slowest) all.push_back(blank);
  std::ranges::stable_sort(all, [&](const Blank* a, const Blank* b) { return to_warm(a) > to_warm(b); });
  if (chance_.yes(0.2)) std::swap(all.front(), all.back());
  Group warmer = load;
  for (Blank* blank : all) {
    std::swap(blank->place_share, (*std::ranges::min_element(warmer, {}, &Blank::place_share))->place_share);
    std::erase(warmer, blank);
  }
  std::vector<Probe> out;
  for (const Blank* blank : all)
    out.push_back({blank, core_of(*blank, air_C, static_cast<int>(shop_.cure_most_hours * 60) + 60)});
  return out;
}

/// Reads air or core and waits as long as the program says, at most as long as the resin's data sheet lets it.
void Life::wait_for_load(const Group& load, const std::string& name, const std::function<double(double)>& air_C,
                         Moment in) {
  const auto minute = [&] { return hours_between(in, now_) * 60; };
  const auto read_air = [&] {
    note_of("oven-temperature", {{"load", name}, {"temperature", read_temperature(thermometer_C(air_C, minute()))}});
    hand_in();
  };
  const std::vector<Probe> probes = probes_in(load, air_C);
  bool all_probes = false;
  const auto read_core = [&] {
    for (const Probe& probe : probes) {
      const double core = probe.core_C.at(std::min(probe.core_C.size() - 1, static_cast<std::size_t>(minute())));
      std::vector<std::pair<std::string, std::string>> says{{"load", name}, {"temperature", read_temperature(core)}};
      if (all_probes || probes.size() > 1 || chance_.yes(0.8))
        says.insert(says.begin() + 1, {"in_blank", probe.in->id});
      note_of("core-temperature", std::move(says));
      if (!all_probes) break;
    }
    hand_in();
  };
  const bool by_core = chance_.yes(0.4);
  later(0.35);
  read_air();
  if (by_core) {
    // First read when it may just be warm enough.
    const std::vector<double>& core_C = probes.front().core_C;
    const auto warm = std::ranges::find_if(core_C, [&](double core) { return core >= shop_.cure_core_C + 1; });
    go_to({std::max(now_.minutes, in.minutes + static_cast<long>(warm - core_C.begin()))});
    read_core();
  }
  for (int reading = 0; reading < 8; ++reading) {
    const std::vector<std::string>& lines = desk_.heard("load " + name);
    const std::optional<Moment> from = told_moment(lines);
    if (said(lines) == Said::released && !lines.empty()) return;
    const Moment wait_for = from ? std::max(*from, after(now_, 0.05)) : after(now_, 0.5);
    if (hours_between(in, wait_for) > shop_.cure_most_hours) {
      for (Blank* blank : load) blank->cure_open = true;
      return;
    }
    go_to(wait_for);
    const auto says = [&](std::string_view words) {
      return std::ranges::any_of(lines,
                                 [&](const std::string& line) { return line.find(words) != std::string::npos; });
    };
    const bool core_wanted = says("measure its core");
    all_probes = all_probes || says("warms later") || says("warm later");
    if ((core_wanted || by_core) && !says("read its air once more"))
      read_core();
    else
      read_air();
  }
}

/// Cold, scraped and weighed; then the witnesses are cut open.
void Life::weigh_cured_and_cut(const Group& group) {
  next_morning();
  for (const Blank* blank : group) {
    note("weighed", *blank, {{"mass", read_mass(*blank)}});
    work(1);
  }
  hand_in();
  for (Blank* blank : group) {
    if (!blank->witness) continue;
    cut_open(*blank);
    work(5);
  }
  hand_in();
}

void Life::cut_open(Blank& blank) {
  const bool filled = resin_truth(blank, shop_).truth != Truth::bad;
  const bool hard = cure_truth(blank, shop_).truth != Truth::bad;
  note("witness-cut", blank, {{"filled", filled ? "yes" : "no"}, {"hard", hard ? "yes" : "no"}});
  blank.out = true;
  for (Blank& other : blanks_)
    if (other.load_name == blank.load_name) other.cure_open = false;
}

}  // namespace simulated

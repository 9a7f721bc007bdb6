#include <fmt/format.h>

#include <algorithm>

#include "lengths.h"
#include "rules.h"

namespace calendar_rules {
namespace {

/// When somebody or something is taken, and by what.
struct Taken {
  Span at;
  std::string by;
};

void tell_twice(const std::string& rule, const std::map<std::string, std::vector<Taken>>& all, Breaches& out) {
  for (auto [who, taken] : all) {
    std::ranges::sort(taken, {}, &Taken::at);
    const Taken* last = nullptr;  // that ends last of those so far
    for (const Taken& one : taken) {
      if (last != nullptr && one.at.from < last->at.to)
        out.push_back({rule, fmt::format("{}: {} and {}", who, last->by, one.by)});
      if (last == nullptr || one.at.to > last->at.to) last = &one;
    }
  }
}

void check_hands(const Planned& planned, const Chain& chain, const Doing& doing,
                 std::map<std::string, std::vector<Taken>>& people, Breaches& out) {
  const Operation& op = operation(planned, doing);
  for (const HandsOn& part : doing.run.hands_on) {
    const std::string text = text_of(planned, chain, doing);
    if (part.who != op.who && std::ranges::find(op.also, part.who) == op.also.end())
      out.push_back({"who", fmt::format("{}: by {}", text, part.who)});
    if (part.at.from < doing.run.at.from || part.at.to > doing.run.at.to)
      out.push_back({"hands", fmt::format("{}: somebody is at it {}", text, text_of(planned.zone, part.at))});
    if (!lies_in(planned.hours.of(part.who), part.at))
      out.push_back({"hours", fmt::format("{}: {} is at it {}", text, part.who, text_of(planned.zone, part.at))});
    if (part.at.from < planned.at)
      out.push_back({"before the plan", fmt::format("{}: {}", text, text_of(planned.zone, part.at))});
    if (part.at.length() > Minutes{0}) people[part.who].push_back({part.at, text});
  }
}

/// What soaks after its vacuum stays in the vessel between the two.
std::map<std::string, Span> stays_in(const Planned& planned, const Chain& chain) {
  std::map<std::string, Span> stays;
  for (const Doing& doing : chain.doings) {
    const Work work = operation(planned, doing).planned;
    if (work != Work::vacuum && work != Work::soak) continue;
    Span& span = stays.try_emplace(doing.run.resource, doing.run.at).first->second;
    span.to = std::max(span.to, doing.run.at.to);
  }
  return stays;
}

void take_places(const Planned& planned, const Chain& chain, std::map<std::string, std::vector<Taken>>& places) {
  for (const auto& [vessel, span] : stays_in(planned, chain)) places[vessel].push_back({span, chain.text()});
  for (const Doing& doing : chain.doings) {
    const Operation& op = operation(planned, doing);
    const bool in_oven = op.planned == Work::drying || op.planned == Work::cure;
    if (in_oven && doing.run.at.length() > Minutes{0})
      places[doing.run.resource].push_back({doing.run.at, text_of(planned, chain, doing)});
    if (op.machine.empty()) continue;
    // Work pauses, and leaves the machine to others.
    for (const HandsOn& part : doing.run.hands_on)
      places[op.machine].push_back({part.at, text_of(planned, chain, doing)});
  }
}

void check_outages(const Planned& planned, const std::map<std::string, std::vector<Taken>>& places, Breaches& out) {
  const auto look = [&](const std::string& name, const std::vector<Outage>& outages) {
    const auto taken = places.find(name);
    if (taken == places.end()) return;
    for (const Outage& outage : outages) {
      for (const Taken& one : taken->second) {
        if (one.at.from >= planned.at && overlap(outage.at, one.at) > Minutes{0})
          out.push_back(
              {"outage", fmt::format("{}: {}, out of order {}", name, one.by, text_of(planned.zone, outage.at))});
      }
    }
  };
  for (const Vessel& vessel : planned.shop.vessels) look(vessel.name, vessel.outages);
  for (const Oven& oven : planned.shop.ovens) look(oven.name, oven.outages);
  for (const Machine& machine : planned.shop.machines) look(machine.name, machine.outages);
}

bool is_place_of(const Planned& planned, const Doing& doing) {
  const std::string& name = doing.run.resource;
  switch (operation(planned, doing).planned) {
    case Work::vacuum:
    case Work::soak:
      return std::ranges::find(planned.shop.vessels, name, &Vessel::name) != planned.shop.vessels.end();
    case Work::drying:
    case Work::cure:
      return std::ranges::find(planned.shop.ovens, name, &Oven::name) != planned.shop.ovens.end();
    default:
      return name.empty() || name == operation(planned, doing).machine;
  }
}

}  // namespace

void check_time(const Planned& planned, const std::vector<Chain>& chains, Breaches& out) {
  std::map<std::string, std::vector<Taken>> people, places;
  for (const Chain& chain : chains) {
    for (const Doing& doing : chain.doings) {
      const Run& run = doing.run;
      const std::string text = text_of(planned, chain, doing);
      check_hands(planned, chain, doing, people, out);
      if (run.at.to < run.at.from) out.push_back({"backwards", text});
      if (!run.begun && run.at.from < planned.at) out.push_back({"before the plan", text});
      if (run.begun && (run.at.from > planned.at || run.at.to < planned.at)) out.push_back({"goes on", text});
      if (!is_place_of(planned, doing)) out.push_back({"place", fmt::format("{}: in {}", text, run.resource)});
      const bool by_the_clock = operation(planned, doing).hands != Hands::throughout;
      if (by_the_clock && !run.begun && run.at.length() > Minutes{0} && !runs_alone(planned, doing) &&
          !lies_in(planned.hours.attended(), run.at))
        out.push_back({"attended", text + ": and nobody is there"});
    }
    take_places(planned, chain, places);
  }
  tell_twice("person twice", people, out);
  tell_twice("place twice", places, out);
  check_outages(planned, places, out);
}

}  // namespace calendar_rules

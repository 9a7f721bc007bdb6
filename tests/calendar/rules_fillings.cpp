#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "oven_room.h"
#include "rules.h"

namespace calendar_rules {
namespace {

/// Those of an order's plan among these.
std::vector<std::string> own(const Plan& plan, const std::vector<std::string>& blanks) {
  std::vector<std::string> found;
  for (const std::string& id : plan.blanks()) {
    if (std::ranges::find(blanks, id) != blanks.end()) found.push_back(id);
  }
  return found;
}

/// All baths or loads of the orders' plans by their numbers, which are told alike in each.
template <class Filling>
std::map<int, Filling> all(const Planned& planned, std::vector<Filling> Plan::*of, const char* kind, Breaches& out) {
  std::map<int, Filling> found;
  for (const auto& [id, plan] : planned.plans) {
    for (const Filling& one : plan.*of) {
      const auto [at, is_new] = found.try_emplace(one.number, one);
      if (!is_new && at->second.blanks != one.blanks)
        out.push_back({"told differently", fmt::format("{} {}, in {}", kind, one.number, id)});
    }
  }
  return found;
}

std::vector<std::string> orders_in(const Planned& planned, const std::vector<std::string>& blanks) {
  std::vector<std::string> found;
  for (const auto& [id, plan] : planned.plans) {
    if (!own(plan, blanks).empty()) found.push_back(id);
  }
  return found;
}

bool has_witness(const Planned& planned, const std::vector<std::string>& blanks) {
  return std::ranges::any_of(planned.plans, [&](const auto& one) {
    return std::ranges::any_of(one.second.witnesses,
                               [&](const std::string& id) { return std::ranges::find(blanks, id) != blanks.end(); });
  });
}

bool wants(const Planned& planned, const std::string& order, Witness witness) {
  return planned.orders.at(order).witness == witness;
}

void check_bath(const Planned& planned, const PlannedBath& bath, Breaches& out) {
  const std::string name = fmt::format("bath {}", bath.number);
  if (static_cast<int>(bath.blanks.size()) != bath.count)
    out.push_back({"bath", fmt::format("{}: {} blanks, told as {}", name, bath.blanks.size(), bath.count)});
  const std::vector<std::string> orders = orders_in(planned, bath.blanks);
  for (const std::string& id : orders) {
    const Order& order = planned.orders.at(id);
    if (order.resin != bath.resin || order.dye != bath.dye)
      out.push_back({"bath", fmt::format("{} of {} {}: {} wants {} {}", name, bath.resin, bath.dye, id, order.resin,
                                         order.dye)});
    if (wants(planned, id, Witness::for_bath) && !has_witness(planned, bath.blanks))
      out.push_back({"witness", fmt::format("{} has none, and {} wants one", name, id)});
  }
  const auto vessel = std::ranges::find(planned.shop.vessels, bath.vessel, &Vessel::name);
  if (vessel == planned.shop.vessels.end() || bath.start_height_mm > vessel->usable_mm + 0.01)
    out.push_back({"bath", fmt::format("{} stands {} mm high in {}", name, bath.start_height_mm, bath.vessel)});
}

/// The largest blank of these orders, as it is sawn or dry.
struct Largest {
  double section_mm = 0, length_mm = 0;
};
Largest largest(const Planned& planned, const std::vector<std::string>& orders, double Plan::*section,
                double Plan::*length) {
  Largest most;
  for (const std::string& id : orders) {
    most.section_mm = std::max(most.section_mm, planned.plans.at(id).*section);
    most.length_mm = std::max(most.length_mm, planned.plans.at(id).*length);
  }
  return most;
}

void check_oven(const Planned& planned, const std::string& name, const std::string& load, const Largest& blank,
                int count, int air_C, Breaches& out) {
  const auto oven = std::ranges::find(planned.shop.ovens, name, &Oven::name);
  if (oven == planned.shop.ovens.end()) {
    out.push_back({"oven", fmt::format("{}: no such oven: {}", load, name)});
    return;
  }
  const int room = oven_room(*oven, blank.section_mm, blank.length_mm);
  if (room == 0)
    out.push_back({"oven", fmt::format("{}: {:.1f} x {:.1f} mm do not lie in {}", load, blank.section_mm,
                                       blank.length_mm, name)});
  if (room > 0 && count > room)
    out.push_back({"oven load", fmt::format("{}: {} blanks, and {} has room for {}", load, count, name, room)});
  if (air_C > oven->hottest_C - 1)
    out.push_back(
        {"oven", fmt::format("{}: {} reaches {} °C, and {} are wanted", load, name, oven->hottest_C - 1, air_C)});
}

void check_load(const Planned& planned, const PlannedLoad& load, const std::map<int, PlannedBath>& baths,
                Breaches& out) {
  const std::string name = fmt::format("load {}", load.number);
  const std::vector<std::string> orders = orders_in(planned, load.blanks);
  const auto bath = baths.find(load.bath);
  for (const std::string& id : load.blanks) {
    if (bath == baths.end() || std::ranges::find(bath->second.blanks, id) == bath->second.blanks.end())
      out.push_back({"load", fmt::format("{}: {} is not of bath {}", name, id, load.bath)});
  }
  int air_C = 0;
  for (const std::string& id : orders) {
    const auto resin = std::ranges::find(planned.shop.resins, planned.orders.at(id).resin, &Resin::name);
    air_C = std::max(air_C, resin->cure_air_C);
    if (wants(planned, id, Witness::for_load) && !has_witness(planned, load.blanks))
      out.push_back({"witness", fmt::format("{} has none, and {} wants one", name, id)});
  }
  check_oven(planned, load.oven, name, largest(planned, orders, &Plan::dry_section_mm, &Plan::dry_length_mm),
             static_cast<int>(load.blanks.size()), air_C, out);
}

/// What dries together: in as many loads as find room for the largest of the blanks, in whichever ovens.
void check_drying(const Planned& planned, const Chain& chain, Breaches& out) {
  std::set<std::string> ovens;
  int most = 0, loads = 0;
  for (const Doing& doing : chain.doings) {
    if (operation(planned, doing).planned != Work::drying || doing.run.begun) continue;
    int count = 0;
    for (const auto& [order, blanks] : doing.blanks)
      count += blanks > 0 ? blanks : open_of(planned, order, doing.step).blanks;
    most = std::max(most, count);
    ovens.insert(doing.run.resource);
    ++loads;
  }
  const std::set<std::string> ids = chain.orders();
  const std::vector<std::string> orders{ids.begin(), ids.end()};
  for (const std::string& oven : ovens)
    check_oven(planned, oven, fmt::format("drying of {}", chain.text()),
               largest(planned, orders, &Plan::sawn_section_mm, &Plan::sawn_length_mm), (most + loads - 1) / loads,
               drying_air_C, out);
}

/// Each blank that still has to be treated is in one bath and one load.
template <class Filling>
void check_each_in_one(const Planned& planned, const std::string& order, const std::map<int, Filling>& fillings,
                       const char* kind, Breaches& out) {
  for (const std::string& id : planned.plans.at(order).blanks()) {
    const auto seen = planned.ledger.find(id);
    const bool waits = seen == planned.ledger.end() || (!seen->second.over && seen->second.bath.empty());
    std::vector<int> in;
    for (const auto& [number, one] : fillings) {
      if (std::ranges::find(one.blanks, id) != one.blanks.end()) in.push_back(number);
    }
    if (in.size() > 1)
      out.push_back({"blank twice", fmt::format("{} of {} in {}s {}", id, order, kind, fmt::join(in, ", "))});
    if (in.empty() && waits) out.push_back({"blank lost", fmt::format("{} of {} in no {}", id, order, kind)});
    if (!in.empty() && !waits)
      out.push_back(
          {"blank twice", fmt::format("{} of {} in {} {}, and it was in a bath", id, order, kind, in.front())});
  }
}

}  // namespace

void check_fillings(const Planned& planned, const std::vector<Chain>& chains, Breaches& out) {
  const auto baths = all(planned, &Plan::baths, "bath", out);
  const auto loads = all(planned, &Plan::loads, "load", out);
  for (const auto& [number, bath] : baths) check_bath(planned, bath, out);
  for (const auto& [number, load] : loads) check_load(planned, load, baths, out);
  for (const Chain& chain : chains) check_drying(planned, chain, out);
  for (const auto& [id, order] : planned.orders) {
    if (!order.treated()) continue;
    check_each_in_one(planned, id, baths, "bath", out);
    check_each_in_one(planned, id, loads, "load", out);
  }
}

}  // namespace calendar_rules

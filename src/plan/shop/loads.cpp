#include "plan/shop/loads.h"

#include <algorithm>
#include <numeric>

#include "plan/shop/oven_together.h"

namespace blankwright {
namespace {

bool needs_witness(const PlannedLoad& load, const BlankShare& rest, const OrderToMake& order) {
  return order.pieces_a_witness > 0 && rest.witnesses > 0 && !has_witness(load.shares);
}

/// An order with a witness a load does not only begin in a load of others that has none.
bool waits_for_next(const PlannedLoad& load, const BlankShare& rest, const OrderToMake& order, int room) {
  return needs_witness(load, rest, order) && !load.shares.empty() && rest.total() > room;
}

/// What of a share goes into a load that has room for so many more. A bath's one witness goes into the last of its
/// loads; where each load is to have one, into the first that has none.
BlankShare part_for(const PlannedLoad& load, const BlankShare& rest, const OrderToMake& order, int room) {
  BlankShare part = rest;
  if (needs_witness(load, rest, order)) {
    part.witnesses = 1;
    part.count = std::min(rest.count, room - 1);
    return part;
  }
  part.count = std::min(rest.count, room);
  part.witnesses = std::min(rest.witnesses, part.count == rest.count ? room - part.count : 0);
  return part;
}

/// What of an order comes into a load by and by is one share.
void add_part(std::vector<BlankShare>& shares, const BlankShare& part) {
  if (shares.empty() || shares.back().order != part.order) {
    shares.push_back(part);
    return;
  }
  shares.back().count += part.count;
  shares.back().witnesses += part.witnesses;
}

/// Fills one load after the other, each with no more than an equal part of what is left for the loads that are still
/// to come; with all that it holds where that would be more.
std::vector<PlannedLoad> filled_loads(const std::vector<BlankShare>& shares, const PlannedLoad& empty,
                                      std::span<const OrderToMake> orders, std::size_t wanted) {
  std::vector<PlannedLoad> loads;
  int left = std::accumulate(shares.begin(), shares.end(), 0,
                             [](int sum, const BlankShare& share) { return sum + share.total(); });
  int room = 0;
  for (BlankShare rest : shares) {
    while (rest.total() > 0) {
      if (room == 0 || waits_for_next(loads.back(), rest, orders[rest.order], room)) {
        const int to_come = std::max(1, static_cast<int>(wanted) - static_cast<int>(loads.size()));
        loads.push_back(empty);
        room = std::min(empty.layout.capacity(), (left + to_come - 1) / to_come);
      }
      const BlankShare part = part_for(loads.back(), rest, orders[rest.order], room);
      add_part(loads.back().shares, part);
      room -= part.total();
      left -= part.total();
      rest.first += part.count;
      rest.count -= part.count;
      rest.first_witness += part.witnesses;
      rest.witnesses -= part.witnesses;
    }
  }
  return loads;
}

/// The thinnest blank is hot long before the thickest is cured. Whoever would have a smaller oven has smaller blanks.
void set_slowest(PlannedLoad& load, std::span<const OrderToMake> orders) {
  load.cures.reset();
  for (std::size_t i = 0; i < load.shares.size(); ++i) {
    const Cure* cure = cure_in(orders[load.shares.at(i).order], *load.oven);
    if (cure == nullptr || (load.cures && cure->total <= load.cures->total)) continue;
    load.slowest = i;
    load.cures = *cure;
  }
}

}  // namespace

bool has_witness(const std::vector<BlankShare>& shares) {
  return std::ranges::any_of(shares, [](const BlankShare& share) { return share.witnesses > 0; });
}

bool all_witnessed(const std::vector<PlannedLoad>& loads, std::span<const OrderToMake> orders) {
  return std::ranges::all_of(loads, [&](const PlannedLoad& load) {
    return has_witness(load.shares) || std::ranges::none_of(load.shares, [&](const BlankShare& share) {
             return orders[share.order].pieces_a_witness > 0;
           });
  });
}

std::vector<PlannedLoad> loads_of(const std::vector<BlankShare>& shares, const std::vector<BathBlanks>& blanks,
                                  std::size_t bath, std::span<const OrderToMake> orders) {
  const OvenFacts* oven = oven_together(shares, orders);
  if (oven == nullptr) return {};
  Length section{};
  Length length{};
  for (const BathBlanks& blank : blanks) {
    section = std::max(section, blank.section);
    length = std::max(length, blank.length);
  }
  const PlannedLoad empty{bath, oven, oven_load(*oven, section, length), {}, {}};
  if (empty.layout.capacity() == 0) return {};
  std::vector<PlannedLoad> loads = filled_loads(shares, empty, orders, 1);
  std::vector<PlannedLoad> even = filled_loads(shares, empty, orders, loads.size());
  return even.size() == loads.size() && all_witnessed(even, orders) ? even : loads;
}

std::vector<PlannedLoad> form_loads(const PlannedBath& bath, std::size_t number,
                                    std::span<const OrderToMake> orders) {
  std::vector<PlannedLoad> loads = loads_of(bath.shares, bath.blanks, number, orders);
  for (PlannedLoad& load : loads) set_slowest(load, orders);
  return loads;
}

void move_to(const std::string& oven, PlannedLoad& load, std::span<const OrderToMake> orders) {
  const std::vector<const OvenFacts*> would_do = ovens_for(orders[load.shares.front().order]);
  const auto found = std::ranges::find(would_do, oven, [](const OvenFacts* one) { return one->name.value; });
  if (found == would_do.end() || *found == load.oven) return;
  load.oven = *found;
  load.layout = oven_load(**found, load.layout.section, load.layout.length);
  set_slowest(load, orders);
}

}  // namespace blankwright

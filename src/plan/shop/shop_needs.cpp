#include "plan/shop/shop_needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// What is wanted at a time.
template <class Amount>
struct Use {
  std::optional<Instant> at;
  Amount amount{};
  std::vector<std::string> orders;
};
template <class Amount>
using Uses = std::vector<Use<Amount>>;

/// Takes what there is for the first uses; less than `least` is not missing.
template <class Amount>
Needed<Amount> needed_of(std::string name, Uses<Amount> uses, std::optional<Amount> there, Amount least) {
  std::ranges::stable_sort(uses, {}, [](const Use<Amount>& use) { return use.at.value_or(Instant::max()); });
  Needed<Amount> out{std::move(name)};
  out.there = there;
  for (const Use<Amount>& use : uses) {
    out.needed = out.needed + use.amount;
    const Amount short_by = out.needed - there.value_or(Amount{});
    if (short_by >= least && out.missing < least) out.from = use.at;
    out.missing = std::max(out.missing, short_by >= least ? short_by : Amount{});
    for (const std::string& order : use.orders) {
      if (std::ranges::find(out.orders, order) == out.orders.end()) out.orders.push_back(order);
    }
  }
  return out;
}

template <class Amount>
std::optional<Amount> in_stock(const std::optional<Given<Amount>>& given) {
  return given ? std::optional{given->value} : std::nullopt;
}

/// When an order's first operation is to start that is of this kind; its next one of all where none is.
template <class IsIt>
std::optional<Instant> starts(const PlacedTimes& times, IsIt is_it) {
  for (std::size_t step = 0; step < times.routing.size(); ++step) {
    if (!is_it(*times.routing.at(step))) continue;
    const auto& runs = times.planned.operations.at(step).runs;
    const auto run = std::ranges::find(runs, RunIs::planned, &PlannedRun::is);
    if (run != runs.end()) return run->at.from;
  }
  return next_start(times.planned);
}

/// What is poured already into what will be this bath.
Volume poured_into(const PlannedBath& bath, std::span<const OrderToMake> orders,
                   std::span<const OrderMaterial> materials) {
  std::map<std::string, Volume> of;  // by the real bath's name
  for (const BlankShare& share : bath.shares) {
    const auto& waiting = orders[share.order].waiting_pieces;
    const auto& poured = materials[share.order].poured;
    for (int i = share.first; i < share.first + share.count && i < std::ssize(waiting); ++i) {
      const auto found = poured.find(waiting.at(static_cast<std::size_t>(i)).bath);
      if (found != poured.end()) of.insert(*found);
    }
  }
  Volume sum{};
  for (const auto& [name, volume] : of) sum = sum + volume;
  return sum;
}

void add_resin(ShopNeeds& needs, const ShopPlan& plan, std::span<const OrderToMake> orders,
               std::span<const OrderMaterial> materials, const Shop& shop) {
  for (const ResinFacts& resin : shop.resins) {
    Uses<Volume> uses;
    Uses<Mass> activator;
    for (const PlannedBath& bath : plan.baths) {
      if (bath.bath.resin != &resin) continue;
      const Volume fresh = std::max(bath.bath.fresh - poured_into(bath, orders, materials), Volume{});
      if (fresh <= Volume{}) continue;
      std::vector<std::string> ids;
      for (const BlankShare& share : bath.shares) ids.push_back(orders[share.order].id);
      const auto at = bath.vacuum ? std::optional{bath.vacuum->from} : std::nullopt;
      uses.push_back({at, fresh, ids});
      activator.push_back({at, fresh / bath.bath.fresh * bath.bath.activator, ids});
    }
    if (uses.empty()) continue;
    needs.resin.push_back(needed_of(resin.name.value, std::move(uses), in_stock(resin.in_stock), 0.001 * litre));
    if (resin.activator.value <= Share{}) continue;
    needs.activator.push_back(
        needed_of(resin.name.value, std::move(activator), in_stock(resin.activator_in_stock), 0.05 * gram));
  }
}

std::string sized(const OrderMaterial& material, const Shop& shop) {
  const Printing how{shop.units.value, Round::up, Fineness::sawn};
  return fmt::format("{}, {} square, {} long", material.wood, text(material.section, how),
                     text(material.length, how));
}

void add_wood(ShopNeeds& needs, const ShopPlan& plan, std::span<const OrderToMake> orders,
              std::span<const OrderMaterial> materials, const Shop& shop) {
  std::map<std::string, Uses<int>> uses;
  std::map<std::string, std::optional<int>> there;
  for (std::size_t i = 0; i < materials.size(); ++i) {
    const OrderMaterial& material = materials[i];
    if (material.to_saw == 0) continue;
    const std::string name = sized(material, shop);
    const auto at = starts(*plan.orders.at(i).times, [](const OperationFacts&) { return true; });
    uses[name].push_back({at, material.to_saw, {orders[i].id}});
    if (material.on_boards) there[name] = there[name].value_or(0) + *material.on_boards;
  }
  for (auto& [name, of_wood] : uses) needs.wood.push_back(needed_of(name, std::move(of_wood), there[name], 1));
}

bool sets_studs(const OperationFacts& facts) {
  return (facts.ended_by && facts.ended_by->value == EntryKind::glued) || facts.is(PlannedWork::glue_setting);
}

void add_studs(ShopNeeds& needs, const ShopPlan& plan, std::span<const OrderToMake> orders,
               std::span<const OrderMaterial> materials, const Shop& shop) {
  std::map<std::string, Uses<int>> uses;
  std::map<std::string, int> there;
  std::vector<StudsWanted> wanted;
  for (const OrderMaterial& material : materials) wanted.push_back(material.studs);
  const std::vector<int> given = studs_from_stock(wanted, shop.studs, shop.allowances.kerf.value);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (wanted.at(i).count == 0) continue;
    const std::string name =
        fmt::format("{}, {}", wanted.at(i).thread.designation,
                    text(wanted.at(i).length, Printing{shop.units.value, Round::up, Fineness::sawn}));
    uses[name].push_back({starts(*plan.orders.at(i).times, sets_studs), wanted.at(i).count, {orders[i].id}});
    there[name] += given.at(i);
  }
  for (auto& [name, of_stud] : uses) {
    const auto given_of_it = shop.studs.empty() ? std::nullopt : std::optional{there[name]};
    needs.studs.push_back(needed_of(name, std::move(of_stud), given_of_it, 1));
  }
}

}  // namespace

ShopNeeds shop_needs(const ShopPlan& plan, std::span<const OrderToMake> orders,
                     std::span<const OrderMaterial> materials, const Shop& shop) {
  ShopNeeds needs;
  add_resin(needs, plan, orders, materials, shop);
  add_wood(needs, plan, orders, materials, shop);
  add_studs(needs, plan, orders, materials, shop);
  return needs;
}

}  // namespace blankwright

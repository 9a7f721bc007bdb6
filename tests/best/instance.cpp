#include "instance.h"

#include <fmt/format.h>

#include <algorithm>

#include "chains.h"

namespace best_plans {
namespace {

using calendar_rules::Minutes;
using calendar_rules::Order;
using calendar_rules::Plan;
using calendar_rules::Shop;
using calendar_rules::Span;

/// Without what the search knows nothing of: machines, days with no more than some, who else can do it, and what is
/// done outside.
Shop plain(Shop shop) {
  shop.machines.clear();
  for (calendar_rules::Operation& op : shop.routing) {
    op.machine.clear();
    op.also.clear();
    op.most_a_day.reset();
    if (op.turnaround_days) {
      op = {.name = op.name, .who = op.who};
      op.fixed = Minutes{15};
      op.per_piece = Minutes{12};
    }
  }
  return shop;
}

std::vector<Order> two_to_four(simulated::Chance& chance, const Shop& shop) {
  while (true) {
    std::vector<Order> orders = calendar_rules::orders_by_chance(chance, shop);
    if (orders.size() > 4) orders.resize(4);
    if (orders.size() >= 2) return orders;
  }
}

/// All ways to put things into groups.
template <class Group>
std::vector<std::vector<Group>> partitions(const Group& things) {
  if (things.empty()) return {{}};
  Group rest{things.begin(), things.end() - 1};
  std::vector<std::vector<Group>> all;
  for (const std::vector<Group>& way : partitions(rest)) {
    for (std::size_t i = 0; i <= way.size(); ++i) {
      std::vector<Group> next = way;
      if (i == way.size()) next.emplace_back();
      next[i].push_back(things.back());
      all.push_back(std::move(next));
    }
  }
  return all;
}

}  // namespace

Instance::Instance(const std::filesystem::path& program, const std::filesystem::path& folder, int seed)
    : folder_{folder}, file_{program} {
  simulated::Chance chance{static_cast<std::uint64_t>(seed) * 104729 + 11};
  shop_ = plain(calendar_rules::shop_by_chance(chance));
  orders_ = two_to_four(chance, shop_);
  zone_.emplace(shop_.zone_name);
  hours_.emplace(shop_, *zone_);
}

Instance::Plans Instance::plans_of(const Group& group) {
  const auto known = plans_.find(group);
  if (known != plans_.end()) return known->second;
  simulated::Program program{file_, folder_ / fmt::format("{}", fmt::join(group, "-"))};
  program.write("shop.toml", calendar_rules::shop_text(shop_));
  std::vector<std::string> words{"compile",   "--only", "plan", "--quiet",
                                 "--threads", "1",      "--at", zone_->text(shop_.at)};
  for (const std::size_t order : group) {
    const Order& own = orders_.at(order);
    program.write(own.id + ".toml", calendar_rules::order_text(own));
    words.push_back(own.id + ".toml");
  }
  program.run({shop_.at.time_since_epoch().count()}, words);
  Plans plans;
  for (const std::size_t order : group) {
    const std::string& id = orders_.at(order).id;
    const auto file = program.folder() / "sheets" / id / "plan.json";
    if (std::filesystem::exists(file)) plans.emplace(id, calendar_rules::read_plan(file, *zone_));
  }
  return plans_[group] = plans;
}

std::optional<Result> Instance::planned() {
  Group all;
  for (std::size_t i = 0; i < orders_.size(); ++i) all.push_back(i);
  const Plans plans = plans_of(all);
  if (plans.size() < orders_.size()) return std::nullopt;
  Result result;
  for (const Order& order : orders_) {
    const Plan& plan = plans.at(order.id);
    for (const char* problem : {"calendar-too-full", "wait-broken", "load-waits-too-long"}) {
      if (plan.warns(problem)) return std::nullopt;
    }
    result.finish = std::max(result.finish, minute(plan.finish));
    if (order.due) result.late += std::max(0, minute(plan.finish) - minute(hours_->end_of_work(*order.due)));
  }
  return result;
}

std::vector<std::vector<Instance::Group>> Instance::ways_to_share() const {
  std::map<std::string, Group> kinds;
  for (std::size_t i = 0; i < orders_.size(); ++i) {
    const Order& order = orders_.at(i);
    kinds[order.treated() ? order.resin + "/" + order.dye : order.id].push_back(i);
  }
  std::vector<std::vector<Group>> ways{{}};
  for (const auto& [kind, orders] : kinds) {
    std::vector<std::vector<Group>> longer;
    for (const auto& way : ways) {
      for (const auto& more : partitions(orders)) {
        longer.push_back(way);
        longer.back().insert(longer.back().end(), more.begin(), more.end());
      }
    }
    ways = std::move(longer);
  }
  return ways;
}

namespace {

/// What is not to be had between these.
Line between(const std::vector<Span>& free, calendar_rules::Instant now) {
  constexpr int for_ever = 1 << 29;
  Line line;
  int from = 0;
  for (const Span& span : free) {
    const int begin = static_cast<int>((span.from - now).count());
    const int end = static_cast<int>((span.to - now).count());
    if (end <= 0) continue;
    if (begin > 400 * 24 * 60) break;
    line.take(from, begin);
    from = end;
  }
  line.take(from, for_ever);
  return line;
}

}  // namespace

std::vector<Problem> Instance::problems() {
  std::vector<Problem> all;
  names_ = {};
  for (const std::vector<Group>& way : ways_to_share()) {
    std::vector<Sharing> sharing;
    bool several_baths = false, possible = true;
    for (const Group& group : way) {
      sharing.push_back({group, plans_of(group)});
      possible = possible && sharing.back().plans.size() == group.size();
      for (const auto& [id, plan] : sharing.back().plans) several_baths = several_baths || plan.baths.size() > 1;
    }
    if (!possible) continue;
    for (const Behind behind : {Behind::in_one_go, Behind::by_bath}) {
      if (behind == Behind::by_bath && !several_baths) continue;
      Problem& problem = all.emplace_back();
      problem.chains = chains_of(shop_, orders_, sharing, behind, names_);
      for (const Order& order : orders_)
        problem.due.push_back(order.due ? std::optional{minute(hours_->end_of_work(*order.due))} : std::nullopt);
    }
  }
  return all;
}

Lines Instance::lines() const {
  Lines lines;
  for (const std::string& name : names_.people) lines.people.push_back(between(hours_->of(name), shop_.at));
  for (const std::string& name : names_.places) {
    Line& line = lines.places.emplace_back();
    const auto add = [&](const auto& all) {
      for (const auto& one : all) {
        if (one.name != name) continue;
        for (const calendar_rules::Outage& out : one.outages)
          line.take(std::max(0, minute(out.at.from)), std::max(0, minute(out.at.to)));
      }
    };
    add(shop_.vessels);
    add(shop_.ovens);
  }
  lines.attended = between(hours_->attended(), shop_.at);
  return lines;
}

}  // namespace best_plans

#include "chains.h"

#include <algorithm>

#include "../calendar/lengths.h"
#include "../calendar/oven_room.h"

namespace best_plans {
namespace {

using calendar_rules::Hands;
using calendar_rules::Minutes;
using calendar_rules::Operation;
using calendar_rules::Order;
using calendar_rules::Plan;
using calendar_rules::PlannedBath;
using calendar_rules::PlannedLoad;
using calendar_rules::Shop;
using calendar_rules::Work;

constexpr int usual_least_part = 15;  // README, `routing[].least_part`

int whole(Minutes minutes) { return static_cast<int>(minutes.count()); }
std::optional<int> whole(const std::optional<Minutes>& minutes) {
  return minutes ? std::optional{whole(*minutes)} : std::nullopt;
}

/// Blanks that go through operations together: a bath, or an order's own.
struct Batch {
  std::vector<std::size_t> orders;
  int pieces = 0, witnesses = 0;
  const PlannedBath* bath = nullptr;
  std::vector<PlannedLoad> loads{};  ///< for the cure
};

int count_in(const std::vector<std::string>& blanks, const std::vector<std::string>& all) {
  return static_cast<int>(
      std::ranges::count_if(blanks, [&](const std::string& id) { return std::ranges::find(all, id) != all.end(); }));
}

class Builder {
 public:
  Builder(const Shop& shop, const std::vector<Order>& orders, Names& names)
      : shop_{shop}, orders_{orders}, names_{names} {
    for (std::size_t step = 0; step < shop.routing.size(); ++step) {
      if (shop.routing[step].planned == Work::cure) cure_ = step;
      cuts_open_ = cuts_open_ || shop.routing[step].only_witnesses;
    }
  }

  void add(const Sharing& sharing, Behind behind) {
    plans_ = &sharing.plans;
    std::map<std::size_t, std::vector<std::size_t>> own;  // by order
    for (const std::size_t order : sharing.orders) {
      if (!orders_[order].treated()) {
        add_untreated(order);
        continue;
      }
      std::vector<int> in;
      for (const PlannedBath& bath : plan(order).baths) in.push_back(bath.number);
      const std::size_t chains = behind == Behind::by_bath ? in.size() : 1;
      for (std::size_t i = 0; i < chains; ++i) {
        const auto first = behind == Behind::by_bath ? in.begin() + static_cast<std::ptrdiff_t>(i) : in.begin();
        own[order].push_back(add_rest(order, behind == Behind::by_bath ? std::vector{*first} : in));
      }
    }
    std::map<int, std::size_t> baths;
    for (const std::size_t order : sharing.orders) {
      for (const PlannedBath& bath : plan(order).baths) {
        if (!baths.contains(bath.number)) baths[bath.number] = add_bath(bath, sharing.orders, own, behind);
      }
    }
  }

  std::vector<Chain> chains() && { return std::move(chains_); }

 private:
  const Plan& plan(std::size_t order) const { return plans_->at(orders_[order].id); }

  bool applies(const Operation& op, std::size_t order) const {
    if (op.only_witnesses && plan(order).witnesses.empty()) return false;
    const bool treated = orders_[order].treated();
    return treated ||
           (!op.only_treated && op.planned != Work::vacuum && op.planned != Work::soak && op.planned != Work::cure);
  }
  bool applies(const Operation& op, const Batch& batch) const {
    return std::ranges::any_of(batch.orders, [&](std::size_t order) { return applies(op, order); });
  }

  template <class Of>
  int longest(const Batch& batch, Of of) const {
    int most = 0;
    for (const std::size_t order : batch.orders) most = std::max(most, whole(of(plan(order))));
    return most;
  }

  int length_of(const Operation& op, const Batch& batch, int count) const {
    switch (op.planned) {
      case Work::no:
        break;
      case Work::drying:
        return whole(shop_.between_weighings) + longest(batch, [&](const Plan& own) {
                 return calendar_rules::drying_time(shop_, own.sawn_section_mm);
               });
      case Work::cooling:
        return whole(shop_.cool);
      case Work::vacuum:
        return whole(shop_.hold) + longest(batch, [](const Plan& own) { return own.pumps_down; });
      case Work::soak:
        return (whole(shop_.hold) * shop_.soak_percent + 99) / 100;
      case Work::cure:
        return longest(batch, [](const Plan& own) { return own.cures; });
      case Work::glue_setting:
        return whole(shop_.glue_sets);
    }
    return whole(op.fixed.value_or(Minutes{0})) + count * whole(op.per_piece.value_or(Minutes{0}));
  }

  /// The oven in which an order's blanks dry, by its plan.
  std::string dries_in(std::size_t order, const std::string& operation) const {
    for (const auto& op : plan(order).schedule) {
      if (op.name == operation && !op.runs.empty()) return op.runs.front().resource;
    }
    return {};
  }

  const calendar_rules::Oven& oven(const std::string& name) const {
    return *std::ranges::find(shop_.ovens, name, &calendar_rules::Oven::name);
  }

  /// Where it is done, and whether it may run while nobody is there.
  void set_place(Task& task, const Operation& op, const Batch& batch, std::size_t load) {
    const bool refused = op.unattended && !*op.unattended;
    task.alone = op.planned == Work::no ? op.unattended.value_or(false) : !refused;
    if (op.planned == Work::drying) {
      const std::string name = dries_in(batch.orders.front(), op.name);
      task.places.push_back(names_.place(name));
      task.alone = task.alone && oven(name).dries_alone;
    }
    if (op.planned == Work::cure) {
      const std::string& name = batch.loads.at(load).oven;
      task.places.push_back(names_.place(name));
      task.alone = task.alone && oven(name).cures_alone;
    }
    if (op.planned == Work::vacuum || op.planned == Work::soak) {
      task.places.push_back(names_.place(batch.bath->vessel));
      task.places.push_back(names_.place("resin " + batch.bath->resin + ", " + batch.bath->dye));
    }
    if (op.planned == Work::vacuum) task.alone = task.alone && shop_.pump_alone;
  }

  Task task(const Operation& op, const Batch& batch, int count, std::size_t load) {
    Task task;
    task.name = op.name;
    task.who = names_.person(op.who);
    task.throughout = op.hands == Hands::throughout;
    task.length = length_of(op, batch, count);
    task.wait = whole(op.longest_wait);
    if (task.throughout) {
      task.most = whole(op.most);
      task.least_part = whole(op.least_part).value_or(usual_least_part);
    } else {
      task.at_start = whole(calendar_rules::hands_time(op, Minutes{task.length}));
      task.at_end = op.hands == Hands::ends ? task.at_start : 0;
      task.length = std::max(task.length, task.at_start + task.at_end);
      task.most = op.may_run_long ? whole(op.most) : std::optional{task.length};
    }
    set_place(task, op, batch, load);
    if (op.planned == Work::soak) {
      task.soak_percent = shop_.soak_percent;
      task.pump_down = longest(batch, [](const Plan& own) { return own.pumps_down; });
    }
    return task;
  }

  std::size_t drying_loads(const Operation& op, const Batch& batch) const {
    double section = 0, length = 0;
    for (const std::size_t order : batch.orders) {
      section = std::max(section, plan(order).sawn_section_mm);
      length = std::max(length, plan(order).sawn_length_mm);
    }
    const int room =
        std::max(1, calendar_rules::oven_room(oven(dries_in(batch.orders.front(), op.name)), section, length));
    return static_cast<std::size_t>(std::max(1, (batch.pieces + batch.witnesses + room - 1) / room));
  }

  /// Blanks that an operation is done to; witnesses go no further than what is done to them alone.
  int count_at(std::size_t step, const Batch& batch) const {
    if (shop_.routing[step].only_witnesses) return batch.witnesses;
    return batch.pieces + (calendar_rules::is_done_to(shop_, step, true) ? batch.witnesses : 0);
  }

  /// What a batch goes through between two steps, one task after the other; of a cure the loads' numbers beside it.
  struct Done {
    std::vector<Task> tasks;
    std::vector<std::size_t> load_of;
  };
  Done tasks_of(std::size_t first, std::size_t last, const Batch& batch) {
    Done done;
    const auto add = [&](std::size_t step, std::size_t load) {
      const int count = count_at(step, batch);
      if (count == 0 || !applies(shop_.routing[step], batch)) return;
      done.tasks.push_back(task(shop_.routing[step], batch, count, load));
      done.load_of.push_back(load);
    };
    for (std::size_t step = first; step < last; ++step) {
      const Operation& op = shop_.routing[step];
      if (op.planned == Work::drying && applies(op, batch)) {
        const bool cools = step + 1 < last && shop_.routing[step + 1].planned == Work::cooling;
        const std::size_t loads = drying_loads(op, batch);
        for (std::size_t load = 0; load < loads; ++load) {
          add(step, load);
          if (cools && load > 0) done.tasks.back().wait.reset();
          if (cools) add(step + 1, load);
        }
        if (cools) ++step;
      } else if (op.planned == Work::cure) {
        for (std::size_t load = 0; load < batch.loads.size(); ++load) add(step, load);
      } else {
        add(step, 0);
      }
    }
    return done;
  }

  static std::vector<Block> blocks_of(std::vector<Task> tasks) {
    std::vector<Block> blocks;
    for (Task& one : tasks) {
      if (blocks.empty() || (!one.wait && one.soak_percent == 0)) blocks.emplace_back();
      blocks.back().tasks.push_back(std::move(one));
    }
    return blocks;
  }

  void add_untreated(std::size_t order) {
    const Batch batch{{order}, static_cast<int>(plan(order).pieces.size()), 0};
    chains_.push_back({orders_[order].id, blocks_of(tasks_of(0, shop_.routing.size(), batch).tasks)});
    chains_.back().order = order;
  }

  Batch own_batch(std::size_t order, const std::vector<int>& baths) const {
    Batch batch{{order}};
    for (const PlannedBath& bath : plan(order).baths) {
      if (std::ranges::find(baths, bath.number) == baths.end()) continue;
      batch.pieces += count_in(plan(order).pieces, bath.blanks);
      batch.witnesses += count_in(plan(order).witnesses, bath.blanks);
    }
    return batch;
  }

  /// How many of the steps behind the cure are tied to it.
  std::size_t tied_until(std::size_t order) const {
    std::size_t step = cure_ + 1;
    while (step < shop_.routing.size()) {
      const Operation& op = shop_.routing[step];
      if (applies(op, order) && (!op.longest_wait || op.only_witnesses)) break;
      ++step;
    }
    return step;
  }

  std::size_t add_rest(std::size_t order, const std::vector<int>& baths) {
    auto blocks = blocks_of(tasks_of(tied_until(order), shop_.routing.size(), own_batch(order, baths)).tasks);
    chains_.push_back({orders_[order].id, std::move(blocks)});
    chains_.back().order = order;
    return chains_.size() - 1;
  }

  std::size_t add_bath(const PlannedBath& bath, const std::vector<std::size_t>& sharing,
                       const std::map<std::size_t, std::vector<std::size_t>>& own, Behind behind) {
    Batch batch;
    batch.bath = &bath;
    for (const std::size_t order : sharing) {
      const int pieces = count_in(plan(order).pieces, bath.blanks);
      const int witnesses = count_in(plan(order).witnesses, bath.blanks);
      if (pieces + witnesses == 0) continue;
      batch.orders.push_back(order);
      batch.pieces += pieces;
      batch.witnesses += witnesses;
      for (const PlannedLoad& load : plan(order).loads) {
        if (load.bath == bath.number &&
            std::ranges::find(batch.loads, load.number, &PlannedLoad::number) == batch.loads.end())
          batch.loads.push_back(load);
      }
    }
    std::ranges::sort(batch.loads, {}, &PlannedLoad::number);
    Done done = tasks_of(0, cure_ + 1, batch);
    const std::vector<std::size_t> load_of = done.load_of;
    chains_.push_back({"bath of " + orders_[batch.orders.front()].id, blocks_of(std::move(done.tasks))});
    const std::size_t self = chains_.size() - 1;
    for (const std::size_t order : batch.orders) add_tail(self, order, batch, load_of, own, behind);
    return self;
  }

  /// What an order does right behind the last of the bath's loads that pieces of it lie in.
  void add_tail(std::size_t self, std::size_t order, const Batch& batch, const std::vector<std::size_t>& load_of,
                const std::map<std::size_t, std::vector<std::size_t>>& own, Behind behind) {
    const auto& baths = plan(order).baths;
    const auto at =
        static_cast<std::size_t>(std::ranges::find(baths, batch.bath->number, &PlannedBath::number) - baths.begin());
    const std::size_t goes_on = own.at(order).at(behind == Behind::by_bath ? at : 0);
    const bool witnesses_go_on = cuts_open_;
    std::size_t last_load = 0;
    for (std::size_t i = 0; i < batch.loads.size(); ++i) {
      const bool in_it = count_in(plan(order).pieces, batch.loads[i].blanks) > 0 ||
                         (witnesses_go_on && count_in(plan(order).witnesses, batch.loads[i].blanks) > 0);
      if (in_it) last_load = i;
    }
    std::vector<Block>& blocks = chains_[self].blocks;
    std::size_t passed = load_of.size() - batch.loads.size() + last_load;  // the task, among all of the chain
    for (Block& block : blocks) {
      if (passed >= block.tasks.size()) {
        passed -= block.tasks.size();
        continue;
      }
      block.tails.push_back(
          {passed, tasks_of(cure_ + 1, tied_until(order), own_batch(order, {batch.bath->number})).tasks, goes_on});
      break;
    }
    chains_[goes_on].behind.push_back(self);
  }

  const Shop& shop_;
  const std::vector<Order>& orders_;
  Names& names_;
  std::size_t cure_ = 0;
  bool cuts_open_ = false;
  const std::map<std::string, Plan>* plans_ = nullptr;
  std::vector<Chain> chains_;
};

std::size_t number_of(std::vector<std::string>& names, const std::string& name) {
  const auto found = std::ranges::find(names, name);
  if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
  names.push_back(name);
  return names.size() - 1;
}

}  // namespace

std::size_t Names::person(const std::string& name) { return number_of(people, name); }
std::size_t Names::place(const std::string& name) { return number_of(places, name); }

std::vector<Chain> chains_of(const Shop& shop, const std::vector<Order>& orders, const std::vector<Sharing>& all,
                             Behind behind, Names& names) {
  Builder builder{shop, orders, names};
  for (const Sharing& sharing : all) builder.add(sharing, behind);
  return std::move(builder).chains();
}

}  // namespace best_plans

#include "seed.h"

#include <fmt/format.h>

#include <algorithm>

#include "../year/program.h"
#include "rules.h"
#include "work.h"

namespace calendar_rules {
namespace {

using simulated::Program;

/// One seed's shop at its desk.
class Desk {
 public:
  Desk(const std::filesystem::path& program, const std::filesystem::path& folder, int seed)
      : program_{program, folder},
        chance_{static_cast<std::uint64_t>(seed) * 7919 + 3},
        shop_{shop_by_chance(chance_)},
        zone_{shop_.zone_name},
        hours_{shop_, zone_} {
    lived_.seed = seed;
    program_.write("shop.toml", shop_text(shop_));
    for (Order& order : orders_by_chance(chance_, shop_)) {
      program_.write(order.id + ".toml", order_text(order));
      orders_.emplace(order.id, std::move(order));
    }
  }

  Lived live() {
    compile(shop_.at);
    drop_refused();
    if (!orders_.empty()) {
      auto plans = read_plans();
      begin_ledger(ledger_, plans);
      check(plans, shop_.at, "");
      work_on(plans);
    }
    lived_.cpu_s = program_.cpu_s();
    return std::move(lived_);
  }

 private:
  void run(Instant now, const std::vector<std::string>& arguments) {
    lived_.commands.push_back(fmt::format("[{} UTC] {}", utc_text(now), simulated::as_typed(arguments)));
    answer_ = program_.run({now.time_since_epoch().count()}, arguments);
  }

  void compile(Instant at) {
    std::vector<std::string> arguments{"compile",   "--only", "plan,calendar", "--week",      "--quiet",
                                       "--threads", "1",      "--at",          zone_.text(at)};
    for (const auto& [id, order] : orders_) arguments.push_back(id + ".toml");
    run(at, arguments);
  }

  std::filesystem::path plan_of(const std::string& id) const {
    return program_.folder() / "sheets" / id / "plan.json";
  }

  /// What the shop cannot make, or not among the others, is left out; the others are then planned without it.
  void drop_refused() {
    const auto refused = std::erase_if(orders_, [&](const auto& one) {
      const auto plan = plan_of(one.first);
      return !std::filesystem::exists(plan) || read_plan(plan, zone_).warns("calendar-too-full");
    });
    lived_.orders = static_cast<int>(orders_.size());
    lived_.refused = static_cast<int>(refused);
    if (refused == 0 || orders_.empty()) return;
    std::filesystem::remove_all(program_.folder() / "sheets");
    std::filesystem::remove(program_.folder() / "shop.register");
    lived_.commands.clear();
    compile(shop_.at);
  }

  std::map<std::string, Plan> read_plans() const {
    std::map<std::string, Plan> plans;
    for (const auto& [id, order] : orders_) plans.emplace(id, read_plan(plan_of(id), zone_));
    return plans;
  }

  void check(const std::map<std::string, Plan>& plans, Instant at, const std::string& when) {
    const bool too_full =
        std::ranges::any_of(plans, [](const auto& one) { return one.second.warns("calendar-too-full"); });
    if (too_full) return;  // told: some are planned as if alone
    const Planned planned{shop_, zone_, hours_, orders_, plans, ledger_, at};
    for (Breach& breach : broken_rules(planned)) {
      breach.what += when;
      lived_.breaches.push_back(std::move(breach));
    }
    count(planned);
  }

  void count(const Planned& planned) {
    Breaches none;
    std::set<int> baths;
    for (const Chain& chain : chains_of(planned, none)) {
      lived_.runs += static_cast<int>(chain.doings.size());
      if (chain.kind == Chain::Kind::bath) baths.insert(chain.bath);
      lived_.under_way +=
          static_cast<int>(std::ranges::count_if(chain.doings, [](const Doing& doing) { return doing.run.begun; }));
    }
    lived_.baths += static_cast<int>(baths.size());
  }

  /// Some time of the plan; every second one while something goes on in a vessel or an oven.
  Instant some_moment(const Planned& planned, const std::vector<Chain>& chains) {
    std::vector<Span> goes_on;
    Span all{shop_.at, shop_.at};
    for (const Chain& chain : chains) {
      for (const Doing& doing : chain.doings) {
        all.to = std::max(all.to, doing.run.at.to);
        const Work work = operation(planned, doing).planned;
        if (work != Work::no && work != Work::cooling && work != Work::glue_setting) goes_on.push_back(doing.run.at);
      }
    }
    const Span& in = goes_on.empty() || chance_.yes(0.5) ? all : chance_.one_of(goes_on);
    return in.from + Minutes{chance_.whole(0, static_cast<int>(in.length().count()))};
  }

  /// Works by the plan, enters that, and plans again from there.
  void work_on(const std::map<std::string, Plan>& plans) {
    const Planned planned{shop_, zone_, hours_, orders_, plans, ledger_, shop_.at};
    Breaches none;
    const std::vector<Chain> chains = chains_of(planned, none);
    Pace pace{.until = some_moment(planned, chains)};
    if (chance_.yes(0.4)) pace.late = Minutes{chance_.whole(1, 600)};
    pace.part_entered = 0.7;
    pace.lags = chance_.yes(0.3) ? 0.3 : 0;
    pace.scrapped = chance_.yes(0.3) ? 0.1 : 0;
    const std::string table = work_by_plan(chance_, planned, chains, pace, ledger_);
    if (!table.empty()) enter(table, pace.until);
    compile(pace.until);
    const auto again = read_plans();
    begin_ledger(ledger_, again);
    check(again, pace.until, ", from the middle of the work");
  }

  void enter(const std::string& table, Instant now) {
    program_.write("entries.csv", table);
    run(now, {"enter", "--quiet", "--csv", "entries.csv"});
    if (!answer_.well()) lived_.breaches.push_back({"entry refused", answer_.text});
  }

  Program program_;
  Chance chance_;
  Shop shop_;
  Zone zone_;
  WorkingHours hours_;
  std::map<std::string, Order> orders_;
  Ledger ledger_;
  simulated::Answer answer_;
  Lived lived_;
};

}  // namespace

Lived live(const std::filesystem::path& program, const std::filesystem::path& folder, int seed) {
  std::filesystem::remove_all(folder);
  return Desk{program, folder, seed}.live();
}

}  // namespace calendar_rules

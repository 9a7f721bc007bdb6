#include "year.h"

#include <fmt/format.h>

#include <array>
#include <cstdio>
#include <map>
#include <nlohmann/json.hpp>

#include "ledger.h"
#include "life.h"

namespace simulated {
namespace {

using nlohmann::json;

/// Handles that lie outside the usual, so that what only they show is seen: long and thick, thin, with a ring, a
/// spigot, or tightened too hard.
void make_special(Order& order, const Shop& shop, int which, Chance& chance) {
  switch (which % 5) {
    case 0:  // heavy: above two pounds wet
      for (Station& station : order.stations) {
        station.at_mm *= 2;
        station.diameter_mm *= 2;
      }
      order.quantity = 4;
      order.species = {"European beech", 0.69, 0.119};
      break;
    case 1:  // small and fast
      for (Station& station : order.stations) station.diameter_mm *= 0.65;
      order.thread = shop.units == Units::metric ? Thread{"M4", 4, 0.7} : Thread{"#8-32", 4.166, 25.4 / 32};
      order.enters_mm = shop.units == Units::metric ? 8 : 7.9375;
      order.embedded_mm = shop.units == Units::metric ? 20 : 19.05;
      order.tightening_Nm = 3;
      order.grade = "4.8";
      break;
    case 2:
      order.ferrule = Ferrule{order.stations[1].diameter_mm + 2, order.stations[0].diameter_mm - 2, 12};
      if (order.thread.major_mm > 9)
        order.thread = shop.units == Units::metric ? Thread{"M8", 8, 1.25} : Thread{"5/16-18", 7.9375, 25.4 / 18};
      break;
    case 3:
      order.spigot_mm = chance.between(4, 7);
      break;
    default:
      order.tightening_Nm = chance.between(3, 8);
  }
}

Run run_by_chance(Chance& chance, const Shop& shop, int seed, int number, Moment now) {
  static constexpr std::array provoked = {Provoke::load_without_witness, Provoke::turned_against_axis,
                                          Provoke::bath_against_gate, Provoke::nothing, Provoke::long_vacuum};
  Run run;
  run.name = std::to_string(number);
  // Every second run is nobody's but chance's.
  if (number % 2 == 1) run.provoke = provoked.at(static_cast<std::size_t>(number / 2 + seed) % provoked.size());
  const int orders = chance.yes(0.55) ? 1 : chance.whole(2, 3);
  for (int i = 0; i < orders; ++i) {
    static constexpr std::array behind = {"", "b", "c"};
    Order order =
        order_by_chance(chance, shop, fmt::format("S{}-{}{}", seed, number, behind.at(static_cast<std::size_t>(i))),
                        after(now, 24 * 30));
    if (i == 0) make_special(order, shop, 2 * number + seed, chance);
    if (run.provoke == Provoke::load_without_witness) order.witness = i == 0;
    run.orders.push_back(std::move(order));
  }
  // Now and then a client changes his mind, or wants more of what somebody else left over.
  if (run.provoke == Provoke::nothing && number % 4 == 2) {
    run.changes = run.orders.front().spigot_mm == 0 && !run.orders.front().ferrule && (seed + number / 4) % 2 == 0;
    run.from_stock = !run.changes;
  }
  return run;
}

std::string kind_of(const Shop& shop) {
  return fmt::format("{}, {}", shop.units == Units::metric ? "metric" : "inch", shop.lathe ? "lathe" : "press");
}

json live(const Plan& plan, int seed) {
  const std::filesystem::path folder = plan.folder / fmt::format("seed-{}", seed);
  std::filesystem::remove_all(folder);
  Program program{plan.program, folder};
  Chance chance{static_cast<std::uint64_t>(seed) * 7919 + 17};
  Shop shop = shop_by_chance(chance, seed);
  Judge judge;
  const Moment start = moment_of(2027, 1, 11, 8, 0);
  Life life{shop, program, judge, chance.fork("life"), start};
  Chance orders = chance.fork("orders");
  for (int number = 0;
       number < plan.runs || life.now() < after(start, 24.0 * plan.days) || life.blanks_made() < plan.blanks;
       ++number) {
    life.wait_until(after(start, 24.0 * plan.days_between * number));
    life.live(run_by_chance(orders, shop, seed, number, life.now()));
  }

  const std::vector<std::string> lost = lost_entries(program, life.desk().taken(), life.now());
  for (const std::string& entry : lost) judge.note_wrong({"lost", "register", entry, {}});
  judge.count("entries found again in the export", static_cast<int>(life.desk().taken().size() - lost.size()));

  json out = {{"seed", seed},
              {"shop", kind_of(shop)},
              {"blanks", life.blanks_made()},
              {"until", text(life.now())},
              {"slips", life.desk().slips()},
              {"checks of true entries", life.desk().checks_of_true_entries()},
              {"cpu_s", program.cpu_s()},
              {"processes", program.runs()},
              {"counts", judge.counts()},
              {"wrong", json::array()}};
  for (const auto& [answer, times] : judge.provoked()) out["provoked"][std::to_string(answer)] = times;
  for (const Wrong& wrong : judge.wrong())
    out["wrong"].push_back(
        {{"kind", wrong.kind}, {"about", wrong.about}, {"what", wrong.what}, {"replay", wrong.replay}});
  return out;
}

/// Of each kind the first ones with their replay; all of them stand in the seed's result.
void tell_wrong(const json& result, std::map<std::string, int>& told) {
  for (const json& wrong : result["wrong"]) {
    // A kind and how it begins: ten sheets with one mistake are one thing to look at.
    const std::string what = wrong["what"].get<std::string>();
    if (++told[wrong["kind"].get<std::string>() + what.substr(0, what.find_first_of("0123456789"))] > 3) continue;
    fmt::print("WRONG, seed {}: {}: {}: {}\n", result["seed"].get<int>(), wrong["kind"].get<std::string>(),
               wrong["about"].get<std::string>(), what);
    for (const json& command : wrong["replay"]) fmt::print("    {}\n", command.get<std::string>());
  }
}

void tell_lived(const json& result) {
  fmt::print("seed {}, {}: {} blanks until {}, {} slips, {:.1f} CPU s, {} processes, {} wrong\n",
             result["seed"].get<int>(), result["shop"].get<std::string>(), result["blanks"].get<int>(),
             result["until"].get<std::string>(), result["slips"].get<int>(), result["cpu_s"].get<double>(),
             result["processes"].get<int>(), result["wrong"].size());
  std::fflush(stdout);
}

struct Sum {
  std::map<std::string, int> counts, wrong;
  std::map<std::string, std::map<int, int>> provoked;  ///< by kind of shop and number of the answer
  int blanks = 0;
  double cpu_s = 0;

  void add(const json& result) {
    for (const auto& [kind, times] : result["counts"].items()) counts[kind] += times.get<int>();
    std::map<int, int>& own = provoked[result["shop"].get<std::string>()];
    for (const auto& [answer, times] : result["provoked"].items()) own[std::stoi(answer)] += times.get<int>();
    for (const json& one : result["wrong"]) ++wrong[one["kind"].get<std::string>()];
    blanks += result["blanks"].get<int>();
    cpu_s += result["cpu_s"].get<double>();
  }
  double share_of_verdicts(const std::string& kind) {
    int all = 0;
    for (const auto& [name, times] : counts)
      if (name.starts_with("all: ")) all += times;
    return all == 0 ? 0 : static_cast<double>(counts["all: " + kind]) / all;
  }
};

bool provoked_often(Sum& sum, const Plan& plan) {
  constexpr int runout_on_the_lathe = 7;  // a press has none
  bool well = true;
  for (int answer = 1; answer <= 11; ++answer) {
    int all = 0;
    bool by_all = true;
    std::string kinds;
    for (auto& [kind, times] : sum.provoked) {
      all += times[answer];
      by_all = by_all && (times[answer] > 0 || (answer == runout_on_the_lathe && kind.ends_with("press")));
      kinds += fmt::format("; {}: {}", kind, times[answer]);
    }
    const bool often = all >= plan.provoked_at_least && (by_all || !plan.by_every_kind);
    well = well && often;
    fmt::print("{}unsafe answer {:2} provoked {:4} times{}\n", often ? "" : "WRONG, too seldom: ", answer, all,
               kinds);
  }
  return well;
}

bool report(Sum sum, const Plan& plan) {
  for (const auto& [kind, times] : sum.counts) fmt::print("{:48} {:6}\n", kind, times);
  fmt::print("{} blanks, {:.3f} CPU s each\n", sum.blanks, sum.blanks == 0 ? 0 : sum.cpu_s / sum.blanks);
  bool well = sum.wrong.empty();
  for (const auto& [kind, times] : sum.wrong) fmt::print("WRONG: {}: {} times\n", kind, times);
  well = provoked_often(sum, plan) && well;
  const double grey = sum.share_of_verdicts("grey");
  const double misled = sum.share_of_verdicts("bad, misled by a wrong entry");
  fmt::print("within the errors {:.1f} % (at most 8), misled by wrong entries {:.1f} % (at most 1)\n", grey * 100,
             misled * 100);
  return well && grey <= 0.08 && misled <= 0.01;
}

}  // namespace

bool live_and_report(const Plan& plan) {
  std::filesystem::create_directories(plan.folder);
  Sum sum;
  std::map<std::string, int> told;
  const auto lived = [&](int seed) { return live(plan, seed); };
  for (const json& result : results_of(plan, lived, tell_lived)) {
    tell_wrong(result, told);
    sum.add(result);
  }
  return report(std::move(sum), plan);
}

}  // namespace simulated

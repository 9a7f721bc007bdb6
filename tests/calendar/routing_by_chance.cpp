#include "routing_by_chance.h"

#include <algorithm>

namespace calendar_rules {
namespace {

using std::chrono::hours;

constexpr const char* keeper = "keeper";

/// One operation after the other, each as this shop does it.
class Routing {
 public:
  Routing(Chance& chance, const Shop& shop) : chance_{chance}, shop_{shop} {
    turner_ = chance_.yes(0.7) ? "turner" : keeper;
  }

  std::vector<Operation> all() {
    before_oven();
    if (chance_.yes(0.85)) oven();
    bath();
    cure();
    after_cure();
    return std::move(out_);
  }

 private:
  Minutes minutes(int low, int high) { return Minutes{chance_.whole(low, high)}; }
  std::optional<Minutes> maybe(double share, const std::vector<int>& of_minutes) {
    return chance_.yes(share) ? std::optional{Minutes{chance_.one_of(of_minutes)}} : std::nullopt;
  }
  std::string either() { return chance_.yes(0.5) ? turner_ : keeper; }
  std::string ended(const char* entry) { return chance_.yes(0.5) ? entry : ""; }

  void before_oven() {
    out_.push_back({.name = "Saw",
                    .who = keeper,
                    .fixed = minutes(0, 30),
                    .per_piece = minutes(1, 9),
                    .ended_by = ended("sawn")});
    if (chance_.yes(0.5))
      out_.push_back({.name = "Stamp", .who = either(), .fixed = minutes(0, 20), .per_piece = minutes(0, 3)});
    if (chance_.yes(0.12)) out_.push_back({.name = "Look", .who = keeper, .fixed = Minutes{0}});
  }

  void oven() {
    const bool alone = std::ranges::all_of(shop_.ovens, &Oven::dries_alone);
    Operation dry{.name = "Dry", .who = keeper, .planned = Work::drying, .hands_time = minutes(5, 20)};
    dry.hands = chance_.yes(0.5) ? Hands::ends : Hands::start;
    dry.may_run_long = alone || chance_.yes(0.5);
    if (alone) dry.most = maybe(0.5, {72 * 60, 96 * 60, 120 * 60});
    dry.only_treated = chance_.yes(0.3);
    out_.push_back(dry);
    Operation cool{
        .name = "Cool", .who = keeper, .planned = Work::cooling, .hands = Hands::start, .hands_time = minutes(1, 10)};
    cool.may_run_long = true;
    cool.longest_wait = maybe(0.6, {0, 10, 60});
    cool.only_treated = dry.only_treated;
    out_.push_back(cool);
  }

  void bath() {
    out_.push_back({.name = "Weigh",
                    .who = keeper,
                    .fixed = minutes(5, 10),
                    .per_piece = Minutes{1},
                    .most = maybe(0.3, {120}),
                    .ended_by = ended("weighed")});
    Operation vacuum{
        .name = "Vacuum", .who = keeper, .planned = Work::vacuum, .hands = Hands::ends, .hands_time = minutes(5, 30)};
    vacuum.may_run_long = true;
    vacuum.most = maybe(0.5, {9 * 60, 12 * 60, 20 * 60});
    vacuum.longest_wait = maybe(0.5, {30, 60, 120});
    out_.push_back(vacuum);
    Operation soak{.name = "Soak", .who = keeper, .planned = Work::soak, .hands_time = minutes(5, 10)};
    soak.hands = chance_.yes(0.6) ? Hands::start : Hands::ends;
    soak.may_run_long = true;
    soak.longest_wait = Minutes{chance_.one_of<int>({0, 5, 30})};
    out_.push_back(soak);
    out_.push_back({.name = "Drain",
                    .who = keeper,
                    .fixed = minutes(5, 20),
                    .per_piece = Minutes{1},
                    .most = maybe(0.5, {180}),
                    .longest_wait = maybe(0.6, {0, 30}),
                    .only_treated = true,
                    .ended_by = ended("drained")});
  }

  void cure() {
    Operation cure{
        .name = "Cure", .who = keeper, .planned = Work::cure, .hands = Hands::ends, .hands_time = minutes(5, 15)};
    cure.longest_wait = maybe(0.6, {60, 120, 240});
    cure.may_run_long = chance_.yes(0.3);
    if (cure.may_run_long) cure.most = Minutes{20 * 60};
    out_.push_back(cure);
    if (chance_.yes(0.4)) {
      Operation cold{.name = "Cool down",
                     .who = keeper,
                     .fixed = hours{2},
                     .hands = Hands::start,
                     .hands_time = minutes(0, 5),
                     .unattended = true};
      cold.longest_wait = maybe(0.3, {30});
      cold.only_treated = true;
      out_.push_back(cold);
    }
    if (chance_.yes(0.3))
      out_.push_back({.name = "Scrape",
                      .who = keeper,
                      .fixed = minutes(10, 60),
                      .longest_wait = Minutes{chance_.one_of<int>({10, 30, 120})}});
    if (chance_.yes(0.6))
      out_.push_back({.name = "Cut the witness",
                      .who = keeper,
                      .per_piece = Minutes{15},
                      .only_witnesses = true,
                      .ended_by = ended("witness-cut")});
  }

  void after_cure() {
    if (chance_.yes(0.7))
      out_.push_back({.name = "Bore", .who = either(), .fixed = minutes(5, 20), .per_piece = minutes(2, 6)});
    if (chance_.yes(0.8)) {
      out_.push_back({.name = "Glue", .who = either(), .fixed = minutes(5, 20), .per_piece = minutes(1, 6)});
      out_.push_back({.name = "Glue sets",
                      .who = turner_,
                      .planned = Work::glue_setting,
                      .hands = Hands::start,
                      .hands_time = Minutes{0},
                      .may_run_long = true});
    }
    out_.push_back({.name = "Turn", .who = turner_, .fixed = minutes(5, 20), .per_piece = minutes(5, 25)});
    if (chance_.yes(0.5))
      out_.push_back({.name = "Finish",
                      .who = turner_,
                      .fixed = Minutes{10},
                      .per_piece = minutes(2, 10),
                      .longest_wait = maybe(0.4, {24 * 60, 48 * 60})});
    if (chance_.yes(0.5))
      out_.push_back({.name = "Inspect", .who = keeper, .fixed = Minutes{10}, .per_piece = Minutes{2}});
  }

  Chance& chance_;
  const Shop& shop_;
  std::string turner_;
  std::vector<Operation> out_;
};

Operation* find(std::vector<Operation>& routing, const char* name) {
  const auto found = std::ranges::find(routing, name, &Operation::name);
  return found == routing.end() ? nullptr : &*found;
}

void share_out(Chance& chance, std::vector<Operation>& routing) {
  for (Operation& op : routing) {
    if (op.planned != Work::no) continue;
    if (chance.yes(0.25)) op.also = {op.who == "helper" ? keeper : "helper"};
    if (op.hands == Hands::throughout && chance.yes(0.2)) op.least_part = Minutes{5 * chance.whole(1, 8)};
  }
  if (Operation* bore = find(routing, "Bore"); bore != nullptr && chance.yes(0.6)) bore->machine = "drill press";
  Operation* turn = find(routing, "Turn");
  if (chance.yes(0.6)) turn->machine = "lathe";
  if (chance.yes(0.3)) {
    *turn = {.name = "Turn", .who = "helper", .hands = Hands::ends, .hands_time = Minutes{20}};
    turn->turnaround_days = chance.whole(2, 7);
  } else if (chance.yes(0.4)) {
    turn->most_a_day = chance.whole(2, 8);
  }
}

}  // namespace

std::vector<Operation> routing_by_chance(Chance& chance, const Shop& shop) {
  std::vector<Operation> routing = Routing{chance, shop}.all();
  share_out(chance, routing);
  return routing;
}

}  // namespace calendar_rules

#include "record.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "life.h"

namespace simulated {
namespace {

struct Tally {
  int wanted = 0, started = 0, good = 0, left_over = 0, orders_short = 0, pieces_short = 0;

  void add(const Made& made) {
    wanted += made.wanted;
    started += made.started;
    good += made.good;
    left_over += std::max(0, made.good - made.wanted);
    pieces_short += std::max(0, made.wanted - made.good);
    orders_short += made.good < made.wanted ? 1 : 0;
  }
};

Tally make(const std::filesystem::path& program_file, const std::filesystem::path& folder, int seed, int orders,
           bool with_record) {
  Chance chance{static_cast<std::uint64_t>(seed) * 7919 + 17};
  Shop shop = shop_by_chance(chance, seed);
  // A guess that is not bad, and not the shop's own: about nine of ten come out good here.
  shop.yield_guess = "30 of 50";
  shop.confidence_share = 0.9;
  Chance all = chance.fork("orders");
  Moment now = moment_of(2027, 1, 11, 8, 0);
  Tally tally;
  for (int number = 0; number < orders; ++number) {
    // The same wood and the same hands in both cases: chance begins anew with each order.
    Chance own{static_cast<std::uint64_t>(seed) * 1000 + static_cast<std::uint64_t>(number)};
    Run run;
    run.name = std::to_string(number);
    run.orders = {order_by_chance(all, shop, fmt::format("R-{}", number), after(now, 24 * 30))};
    Program program{program_file, with_record ? folder : folder / std::to_string(number)};
    Judge judge;
    Life life{shop, program, judge, own, now};
    life.make_no_slips();
    life.live(run);
    tally.add(life.made());
    now = life.now();
  }
  return tally;
}

}  // namespace

void compare_with_and_without_record(const std::filesystem::path& program, const std::filesystem::path& folder,
                                     int seed, int orders) {
  std::filesystem::remove_all(folder);
  for (const bool with_record : {false, true}) {
    const Tally tally = make(program, folder / (with_record ? "with" : "without"), seed, orders, with_record);
    fmt::print(
        "seed {}, {} record, {} orders: {} wanted, {} started, {} good, {} left over, {} orders short by {} pieces; "
        "enough in "
        "{:.0f} % where 90 % are meant\n",
        seed, with_record ? "with its" : "without", orders, tally.wanted, tally.started, tally.good, tally.left_over,
        tally.orders_short, tally.pieces_short, 100.0 * (orders - tally.orders_short) / orders);
    std::fflush(stdout);
  }
}

}  // namespace simulated

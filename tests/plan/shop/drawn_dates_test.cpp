// Draws of how a plan comes out. What is to be expected is worked out beside each check: quantiles of the normal
// distribution, the binomial error of a share, order statistics.

#include "plan/shop/drawn_dates.h"

#include <fmt/format.h>

#include <cmath>

#include "plan/shop/drawn_numbers.h"
#include "plan/shop/lead.h"
#include "shared_orders.h"

using namespace blankwright;

namespace {

/// A shop that works round the clock, where an order is one piece of work of a hundred hours.
Shop without_nights() {
  std::string text = R"(format = 1
name = "Crooked Fence Turnery"
zone = "UTC"
[boring]
drills = ["8.5 mm"]
[yield]
expected = "17 of 20"
[hours]
)";
  for (const char* day : {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"})
    text += std::string{day} + " = [\"00:00-24:00\"]\n";
  return shop_of(text + "[[routing]]\nname = \"Turn\"\nwho = \"turner\"\nper_piece = \"10 h\"\n");
}

OrderToMake turned_alone(int pieces, const std::string& id = "A-1") {
  OrderToMake order;
  order.id = id;
  order.pieces = order.started = pieces;
  return order;
}

Uncertain certain(int pieces) {
  Uncertain out;
  out.wanted = pieces;
  out.in_work = pieces;
  out.yield = {1000000, 1000000};
  out.confidence = 0.9;
  return out;
}

constexpr const char* first_midnight = "2027-06-07T00:00:00Z";

struct Drawn {
  DrawnDates dates;
  Instant planned;
};
Drawn draws_of(const std::vector<OrderToMake>& orders, std::size_t order, const Uncertain& uncertain,
               const Shop& shop) {
  Diagnostics said;
  const ShopTime time = shop_time(shop, at(first_midnight));
  const ShopPlan plan = plan_shop(orders, shop, time, said);
  REQUIRE(plan.orders.at(order).times);
  return {drawn_dates(plan, orders, order, uncertain, shop, time), plan.orders.at(order).times->planned.finish};
}

double hours_of(const std::optional<Instant>& moment) {
  REQUIRE(moment);
  return static_cast<double>((*moment - at(first_midnight)).count()) / 3600;
}

/// Of a share by so many draws, three times its binomial deviation.
double error_of(double share, std::size_t draws) {
  return 3 * std::sqrt(share * (1 - share) / static_cast<double>(draws));
}

}  // namespace

TEST_CASE("numbers of a draw are the same on every machine") {
  // By another program (Python, whole numbers): splitmix64 of FNV-1a, both checked against their published values
  // (6457827717110365317 of 1234567; 85944171f73967e8 of "foobar").
  CHECK(DrawnNumbers{0}.even("TA-0147", "Turn") == doctest::Approx(0.4257776670836117).epsilon(1e-15));
  CHECK(DrawnNumbers{399}.even("TA-0147", "Turn") == doctest::Approx(0.541771872335381).epsilon(1e-15));
  CHECK(DrawnNumbers{0}.even("TA-0148", "Turn") == doctest::Approx(0.3420097508906144).epsilon(1e-15));
  CHECK(DrawnNumbers{0}.normal("TA-0147", "Turn") == doctest::Approx(0.5691289750477967).epsilon(1e-12));
  CHECK(DrawnNumbers{399}.normal("TA-0147", "Turn") == doctest::Approx(-0.05382562165109003).epsilon(1e-12));
}

TEST_CASE("what is drawn is even, and normal where it is to be") {
  // Abramowitz and Stegun, table 26.1: P(1.2816) = 0.9, P(1.6449) = 0.95.
  constexpr std::size_t n = 20000;
  std::size_t tenth = 0, below_90 = 0, below_95 = 0, below_0 = 0;
  for (std::size_t i = 0; i < n; ++i) {
    if (DrawnNumbers{i}.even("A-1", "Turn") < 0.1) ++tenth;
    const double z = DrawnNumbers{i}.normal("A-1", "Bore");
    if (z < 0) ++below_0;
    if (z < 1.2816) ++below_90;
    if (z < 1.6449) ++below_95;
  }
  const auto share = [&](std::size_t count) { return static_cast<double>(count) / n; };
  CHECK(std::abs(share(tenth) - 0.1) < error_of(0.1, n));
  CHECK(std::abs(share(below_0) - 0.5) < error_of(0.5, n));
  CHECK(std::abs(share(below_90) - 0.9) < error_of(0.9, n));
  CHECK(std::abs(share(below_95) - 0.95) < error_of(0.95, n));
}

TEST_CASE("a sample's value at a share stands at its place of n + 1") {
  // Gumbel, Statistics of Extremes, 1.2.7, from memory: the m-th of n has the plotting position m/(n + 1).
  std::vector<double> sample;
  for (int i = 1; i <= 19; ++i) sample.push_back(i);
  CHECK(at_share(sample, 0.95) == 19);
  CHECK(at_share(sample, 0.90) == doctest::Approx(18));
  CHECK(at_share(sample, 0.50) == doctest::Approx(10));
  CHECK(at_share(sample, 0.525) == doctest::Approx(10.5));
  CHECK(at_share(sample, 0.999) == 19);
  CHECK(at_share(sample, 0.001) == 1);
}

TEST_CASE("work whose length spreads is through by the quantiles of that") {
  const Shop shop = without_nights();
  Uncertain uncertain = certain(10);
  uncertain.spread = 0.2;
  const Drawn one = draws_of({turned_alone(10)}, 0, uncertain, shop);
  CHECK(hours_of(one.planned) == doctest::Approx(100));
  CHECK(one.dates.through.size() == one.dates.draws);
  CHECK(one.dates.draws <= 500);
  // 100 h · exp(0.2 z), z = 0 and 1.2816. A quantile of n draws deviates by √(p (1 − p)/n)/density, in z: 0.063 of
  // the middle and 0.085 at 0.9, of which three times 0.2: 3.8 % and 5.1 %.
  CHECK(hours_of(one.dates.at(0.5)) == doctest::Approx(100).epsilon(0.038));
  CHECK(hours_of(one.dates.at(0.9)) == doctest::Approx(129.2).epsilon(0.051));
  CHECK(std::abs(one.dates.by(at(first_midnight) + std::chrono::minutes{7752}) - 0.9) <
        error_of(0.9, one.dates.draws));
  for (double share = 0.05; share < 0.99; share += 0.05) CHECK(*one.dates.at(share) <= *one.dates.at(share + 0.01));
  uncertain.spread = 0.4;
  CHECK(*draws_of({turned_alone(10)}, 0, uncertain, shop).dates.at(0.9) > *one.dates.at(0.9));
  uncertain.spread = 0;
  CHECK(draws_of({turned_alone(10)}, 0, uncertain, shop).dates.at(0.99) == one.planned);
}

TEST_CASE("the same luck is drawn of what is compared: a piece more is never through sooner, nor who queues behind") {
  const Shop shop = without_nights();
  Uncertain uncertain = certain(10);
  uncertain.spread = 0.5;
  const auto ten = draws_of({turned_alone(10)}, 0, uncertain, shop).dates.through;
  const auto eleven = draws_of({turned_alone(11)}, 0, uncertain, shop).dates.through;
  REQUIRE(ten.size() == eleven.size());
  for (std::size_t i = 0; i < ten.size(); ++i) CHECK(ten.at(i) < eleven.at(i));
  // A has the turner first, and B begins when A ends, in every draw.
  std::vector<OrderToMake> both{turned_alone(10, "A-1"), turned_alone(1, "B-1")};
  both.front().holds_place = true;
  const auto first = draws_of(both, 0, uncertain, shop).dates.through;
  const auto behind = draws_of(both, 1, uncertain, shop).dates.through;
  REQUIRE(first.size() == behind.size());
  for (std::size_t i = 0; i < first.size(); ++i) CHECK(first.at(i) < behind.at(i));
  CHECK(first == ten);
}

TEST_CASE("where too few come out good others are started, as often as the yield has it") {
  const Shop shop = without_nights();
  Uncertain uncertain = certain(10);
  uncertain.wanted = 8;
  uncertain.yield = {17, 20};
  const Drawn some = draws_of({turned_alone(10)}, 0, uncertain, shop);
  const double enough = chance_of_at_least(8, 10, uncertain.yield);
  const auto share = static_cast<double>(some.dates.further_starts) / static_cast<double>(some.dates.draws);
  CHECK(std::abs(share - (1 - enough)) < error_of(enough, some.dates.draws));
  // Nothing else spreads: the planned end as long as there are enough, and ten hours a piece more at least then.
  CHECK(some.dates.by(some.planned) == doctest::Approx(1 - share));
  CHECK(some.dates.at(1 - share) == some.planned);
  CHECK(hours_of(some.dates.through.back()) >= 110);
}

TEST_CASE("what has to be ordered is waited for, and what takes longer than planned is told by the record") {
  const Shop shop = without_nights();
  Uncertain uncertain = certain(10);
  uncertain.wood = 240 * hour;
  CHECK(hours_of(draws_of({turned_alone(10)}, 0, uncertain, shop).dates.at(0.9)) == doctest::Approx(340));
  uncertain.wood.reset();
  uncertain.spread = 0.5;  // counts no more once enough orders are on record
  uncertain.leads.assign(enough_orders, 1.5);
  CHECK(hours_of(draws_of({turned_alone(10)}, 0, uncertain, shop).dates.at(0.9)) == doctest::Approx(150));
  uncertain.leads.pop_back();
  CHECK(hours_of(draws_of({turned_alone(10)}, 0, uncertain, shop).dates.at(0.9)) > 160);
}

TEST_CASE("nothing is promised for a day on which nobody works") {
  // Eight hours from 08:00 on a Friday, with a break: through at 17:00, nine hours later by the clock. A fifth more
  // is 18:48, when nobody is there until Monday.
  const Shop shop = shop_with("[[routing]]\nname = \"Turn\"\nwho = \"turner\"\nper_piece = \"1 h\"\n");
  const std::vector<OrderToMake> orders{turned_alone(8)};
  Diagnostics said;
  const ShopTime time = shop_time(shop, at("2027-06-11T08:00:00+02:00"));
  const ShopPlan plan = plan_shop(orders, shop, time, said);
  REQUIRE(plan.orders.front().times->planned.finish == at("2027-06-11T17:00:00+02:00"));
  Uncertain uncertain = certain(8);
  uncertain.leads.assign(enough_orders, 1.2);
  CHECK(drawn_dates(plan, orders, 0, uncertain, shop, time).at(0.9) == at("2027-06-14T08:00:00+02:00"));
}

TEST_CASE(
    "how long an order took goes from its print to the last of the pieces that were wanted of those issued then") {
  const Instant made = at("2027-06-07T08:00:00Z");
  const auto piece = [&](int hours, int issued_hours = 0) {
    BlankState blank;
    blank.id = BlankId::nth(static_cast<std::uint32_t>(hours));
    blank.stage = Stage::sent;
    blank.told[EntryKind::issued] = {made + std::chrono::hours{issued_hours}};
    blank.told[EntryKind::turned] = {made + std::chrono::hours{hours - 1}};
    blank.told[EntryKind::inspected] = {made + std::chrono::hours{hours}};
    blank.told[EntryKind::sent] = {made + std::chrono::hours{900}};
    return blank;
  };
  // A plan of a hundred hours, as it is kept.
  const std::string kept = fmt::format("{} {} 3 Turn\n", made.time_since_epoch().count(),
                                       (made + std::chrono::hours{100}).time_since_epoch().count());
  const std::vector<BlankState> blanks{piece(90), piece(120), piece(150), piece(400, 50)};
  CHECK(lead_share(kept, made, blanks, 2).value() == doctest::Approx(1.2));
  CHECK(lead_share(kept, made, blanks, 3).value() == doctest::Approx(1.5));
  CHECK(lead_share(kept, made, blanks, 4).value() == doctest::Approx(1.5));  // the fourth was issued later
  CHECK_FALSE(lead_share("", made, blanks, 2));
  CHECK_FALSE(lead_share(kept, made, {}, 2));
}

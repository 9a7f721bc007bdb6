#include "plan/shop/best_arrangement.h"

#include <algorithm>
#include <set>
#include <tuple>
#include <utility>

#include "plan/shop/urgency.h"

namespace blankwright {
namespace {

/// Of a plan of so many blocks so many are placed at most, in all (no source): some ten thousand sequences of three
/// orders, a dozen of a thousand. A sequence is always placed to its end.
std::size_t most_placed(std::size_t blocks) { return 60000 + 340000 / (1 + blocks / 100); }

/// With whom an order could share baths, by the number of their sharing: the one of now, and nobody's where it is
/// with others.
std::set<std::size_t> sets_for(std::size_t order, std::span<const OrderToMake> orders, const Sharing& sharing) {
  std::set<std::size_t> sets{sharing.at(order)};
  for (std::size_t i = 0; i < orders.size(); ++i) {
    if (i == order || !could_share(orders[order], orders[i])) continue;
    sets.insert(sharing.at(i));
    if (sharing.at(i) == sharing.at(order)) sets.insert(sharing.nobodys());
  }
  return sets;
}

/// Each order among others that it could share baths with, or by itself; its baths formed in the same turn, before or
/// behind the others'; and where it is in several, going on behind them in another way. An order that leaves the
/// others is often better only if it is also behind them, so that all of these are tried together.
std::vector<Sharing> other_sharings(std::span<const OrderToMake> orders, const Arrangement& now) {
  const Sharing& sharing = now.sharing();
  std::vector<Sharing> all;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    if (orders[i].holds_place) continue;
    const std::set<std::size_t> sets = sets_for(i, orders, sharing);
    std::vector<int> turns{0};
    if (sets.size() > 1) turns = {0, -1, 1};
    std::vector<BehindBaths> hows{sharing.behind(i)};
    if (now.is_in_several_baths(i))
      hows = {BehindBaths::in_one_go, BehindBaths::bath_by_bath, BehindBaths::as_they_come};
    for (const BehindBaths how : hows) {
      for (const std::size_t with : sets) {
        for (const int turn : turns) {
          if (how == sharing.behind(i) && with == sharing.at(i) && turn == 0) continue;
          Sharing other = sharing.going_on(i, how, orders.size()).moved(i, with, orders.size());
          all.push_back(turn == 0 ? other : other.in_turn(i, sharing.turn(i) + turn, orders.size()));
        }
      }
    }
  }
  return all;
}

/// Is it worth that others share baths? Of two as late not for a fiftieth of the time (no source): a bath more costs
/// resin and work.
bool is_worth_it(const Punctuality& other, const Punctuality& now) {
  const auto first = [](const Punctuality& one) { return std::tuple{one.without_room, one.late, one.dark_first}; };
  if (first(other) != first(now)) return first(other) < first(now);
  return other.finish < now.finish - now.finish / 50;
}

/// Of the orders that hold a place those that have baths to come, the most urgent first.
std::vector<std::size_t> holding_with_baths(std::span<const OrderToMake> orders) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    if (orders[i].holds_place && orders[i].resin != nullptr) all.push_back(i);
  }
  std::ranges::stable_sort(all, {}, [&](std::size_t i) { return std::pair{due_of(orders[i]), orders[i].id}; });
  return all;
}

/// A bath waits for the one whose left-over resin it takes. So where orders that hold a place are late, the baths of
/// urgent ones are formed before the others of their kind, if that makes them less late together; who shares a bath
/// stays.
Arrangement less_late(const ToPlan& given, Arrangement best, std::size_t most_placed) {
  const auto lateness = [](const Arrangement& one) {
    return std::pair{one.of_holding().without_room, one.of_holding().late};
  };
  std::size_t left = most_placed;
  int first = 0;
  for (const std::size_t i : holding_with_baths(given.orders)) {
    if (lateness(best).second == std::chrono::minutes{0} || left == 0) break;
    for (std::size_t k = 0; k < given.orders.size(); ++k) first = std::min(first, best.sharing().turn(k));
    Diagnostics ignored;
    Arrangement other{given, best.sharing().in_turn(i, first - 1, given.orders.size()), ignored};
    other.begin(std::min(left, most_placed / 4));
    left -= std::min(left, other.placed() + other.blocks());
    if (lateness(other) < lateness(best)) best = std::move(other);
  }
  return best;
}

}  // namespace

Arrangement best_arrangement(const ToPlan& given, Diagnostics& out) {
  Arrangement best{given, TurnsBefore{given.orders}.sharing(), out};
  const std::size_t most = most_placed(best.blocks());
  best.begin(most / 4);
  best = less_late(given, std::move(best), most / 4);
  best.look_for_better(most / 4);
  std::size_t left = most / 2;
  std::vector<Sharing> to_try = other_sharings(given.orders, best);
  for (std::size_t i = 0; i < to_try.size() && left > 0; ++i) {
    Diagnostics ignored;
    Arrangement other{given, to_try[i], ignored};
    other.begin_like(best);
    other.look_for_better(std::min(left, most / 16));
    // To form baths takes as long as to place some blocks.
    left -= std::min(left, other.placed() + other.blocks());
    if (!is_worth_it(other.punctual(), best.punctual())) continue;
    best = std::move(other);
    to_try = other_sharings(given.orders, best);
    i = static_cast<std::size_t>(-1);
  }
  best.look_for_better(most / 4);
  return best;
}

}  // namespace blankwright

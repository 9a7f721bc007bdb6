#include "plan/shop/baths.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

#include "measure/largest_that.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/order/witnesses.h"
#include "plan/process/judge_bath.h"
#include "plan/shop/loads.h"
#include "plan/shop/urgency.h"

namespace blankwright {
namespace {

/// Blanks of one order that still have to find a bath.
struct Waiting {
  std::size_t order = 0;
  int next = 0;          ///< the first blank that has none
  int next_witness = 0;  ///< likewise
};

int pieces_left(const OrderToMake& order, const Waiting& w) { return order.pieces - w.next; }
int witnesses_left(const OrderToMake& order, const Waiting& w) { return order.witnesses - w.next_witness; }

/// Witnesses that so many pieces of an order are to have in one bath.
int witnesses_with(int pieces, const OrderToMake& order) {
  return order.pieces_a_witness == 0 ? 1 : witnesses_for(pieces, order.pieces_a_witness);
}

/// The bath that a waiting blank lies in already; empty where it lies in none.
std::string lies_in(const std::vector<BlankGroup>& waiting, int number) {
  return number < std::ssize(waiting) ? waiting.at(static_cast<std::size_t>(number)).lies_in : std::string{};
}

/// The bath that an order's next blanks lie in already; empty where they lie in none.
std::string begun_for(const OrderToMake& order, const Waiting& w) {
  const std::string of_piece = lies_in(order.waiting_pieces, w.next);
  return of_piece.empty() ? lies_in(order.waiting_witnesses, w.next_witness) : of_piece;
}

/// How many of those that are next lie in a bath.
int lying(const std::vector<BlankGroup>& waiting, int next, const std::string& bath) {
  int count = 0;
  while (!bath.empty() && lies_in(waiting, next + count) == bath) ++count;
  return count;
}

/// How many of `left` that are next come before those that lie in another bath.
int before_other_bath(const std::vector<BlankGroup>& waiting, int next, int left, const std::string& bath) {
  int count = 0;
  while (count < left && (lies_in(waiting, next + count).empty() || lies_in(waiting, next + count) == bath)) ++count;
  return count;
}

/// A bath that is being filled.
struct Filling {
  const VesselFacts* vessel = nullptr;
  std::string begun{};  ///< what entries call it, where blanks lie in it already
  std::vector<BlankShare> shares;
  std::vector<BathBlanks> blanks;
};

struct ResinAndDye {
  const ResinFacts* resin;
  std::optional<std::string> dye;
};

std::optional<Worked<Bath>> bath_of(const Filling& filling, const ResinAndDye& kind, const Shop& shop,
                                    Volume on_hand) {
  return bath({.vessel = *filling.vessel,
               .facts = shop.bath,
               .resin = *kind.resin,
               .blanks = filling.blanks,
               .on_hand = on_hand});
}

/// Does an order's witness go into a bath with its pieces?
enum class Witness { goes_in, stays };

/// With an order's last pieces go all of its witnesses that are left: it may have needed fewer baths than by itself.
Filling with_pieces_of(Filling filling, const OrderToMake& order, const Waiting& w, int count, Witness witness) {
  BlankShare share{w.order, w.next, count, w.next_witness, 0};
  const int wanted =
      std::max(count == pieces_left(order, w) ? witnesses_left(order, w) : witnesses_with(count, order),
               lying(order.waiting_witnesses, w.next_witness, filling.begun));
  if (witness == Witness::goes_in)
    share.witnesses = std::min(
        wanted, before_other_bath(order.waiting_witnesses, w.next_witness, witnesses_left(order, w), filling.begun));
  filling.shares.push_back(share);
  filling.blanks.push_back(order.blank);
  filling.blanks.back().count = share.total();
  return filling;
}

/// An order's blanks that do not lie in another bath already.
int could_go_in(const Filling& filling, const OrderToMake& order, const Waiting& w) {
  return before_other_bath(order.waiting_pieces, w.next, pieces_left(order, w), filling.begun);
}

/// As many of an order's blanks as the filling still takes.
int room_for(const Filling& filling, const ResinAndDye& kind, const OrderToMake& order, const Waiting& w,
             Witness witness, const Shop& shop) {
  return largest_that(0, could_go_in(filling, order, w) + 1, [&](int count) {
    return bath_of(with_pieces_of(filling, order, w, count, witness), kind, shop, {}).has_value();
  });
}

/// What of an order goes into a bath.
struct Part {
  int count = 0;
  Witness witness = Witness::goes_in;
};

/// An order has a witness for each bath that it would need by itself. So where it only begins in a bath with others,
/// its witness stays with the rest, and one of theirs speaks for that bath; without one there, or where each load is
/// to have its own, it is not begun in it. What lies in it already does.
Part part_of(const Filling& filling, const ResinAndDye& kind, const OrderToMake& order, const Waiting& w,
             const Shop& shop) {
  const int left = pieces_left(order, w);
  const int count = room_for(filling, kind, order, w, Witness::goes_in, shop);
  const bool is_begun = lying(order.waiting_pieces, w.next, filling.begun) > 0;
  if (filling.shares.empty() || is_begun || count == left || witnesses_left(order, w) == 0)
    return {count, Witness::goes_in};
  if (order.pieces_a_witness > 0 || !has_witness(filling.shares)) return {0, Witness::stays};
  return {std::min(room_for(filling, kind, order, w, Witness::stays, shop), left - 1), Witness::stays};
}

/// Fills one vessel from the most urgent order on, or where `begun` is a bath from what lies in it on.
Filling filled(const VesselFacts& vessel, const std::string& begun, const ResinAndDye& kind,
               std::span<const OrderToMake> orders, std::span<const Waiting> waiting, const Shop& shop) {
  Filling filling{&vessel, begun, {}, {}};
  for (const Waiting& w : waiting) {
    const OrderToMake& order = orders[w.order];
    const Part part = part_of(filling, kind, order, w, shop);
    if (part.count > 0) {
      Filling more = with_pieces_of(filling, order, w, part.count, part.witness);
      // The largest blank says how many lie in a load: with larger ones there are more loads than witnesses.
      if (!filling.shares.empty() && !all_witnessed(loads_of(more.shares, more.blanks, 0, orders), orders)) break;
      filling = std::move(more);
    }
    if (part.count < could_go_in(filling, order, w))
      break;  // nobody overtakes an order that had to leave some behind
  }
  return filling;
}

int total(const Filling& filling) {
  return std::accumulate(filling.shares.begin(), filling.shares.end(), 0,
                         [](int sum, const BlankShare& share) { return sum + share.count; });
}

using Vessels = std::vector<const VesselFacts*>;

/// Puts orders with blanks in the first bath that is begun before the others.
void begun_first(std::vector<Waiting>& waiting, std::span<const OrderToMake> orders) {
  const auto in = [&](const Waiting& w) { return begun_for(orders[w.order], w); };
  const auto first = std::ranges::find_if(waiting, [&](const Waiting& w) { return !in(w).empty(); });
  if (first == waiting.end()) return;
  std::ranges::stable_sort(waiting, {}, [&, bath = in(*first)](const Waiting& w) { return in(w) != bath; });
}

/// Those that are not out of order now and for longer than anybody waits for one.
Vessels soon_to_be_had(const Shop& shop, const ShopTime& time) {
  constexpr std::chrono::days longest_waited_for{7};  // common practice, no source
  Vessels vessels;
  for (const VesselFacts& vessel : shop.vessels) {
    const auto outages = time.outages.find(vessel.name.value);
    const bool is_out =
        outages != time.outages.end() && std::ranges::any_of(outages->second, [&](const Interval& out) {
          return out.from <= time.at && out.to >= time.at + longest_waited_for;
        });
    if (!is_out) vessels.push_back(&vessel);
  }
  return vessels;
}

/// The vessel that some of the first order's blanks lie in already, where entries tell it.
Vessels entered(const OrderToMake& order, const Waiting& w, const Shop& shop) {
  for (std::size_t i = static_cast<std::size_t>(w.next); i < order.waiting_pieces.size(); ++i) {
    const std::string& name = order.waiting_pieces.at(i).vessel;
    const auto vessel =
        std::ranges::find_if(shop.vessels, [&](const VesselFacts& one) { return one.name.value == name; });
    if (vessel != shop.vessels.end()) return {&*vessel};
  }
  return {};
}

/// The vessel that takes the most blanks; of those that take the same, the one that needs the least resin.
std::optional<std::pair<Filling, Worked<Bath>>> best_filling(const ResinAndDye& kind,
                                                             std::span<const OrderToMake> orders,
                                                             std::span<const Waiting> waiting, const Shop& shop,
                                                             const Vessels& vessels, Volume on_hand) {
  const std::string begun = begun_for(orders[waiting.front().order], waiting.front());
  std::optional<std::pair<Filling, Worked<Bath>>> best;
  for (const VesselFacts* vessel : vessels) {
    Filling filling = filled(*vessel, begun, kind, orders, waiting, shop);
    if (filling.shares.empty()) continue;
    auto worked = bath_of(filling, kind, shop, on_hand);
    if (!worked) continue;
    const bool better = !best || total(filling) > total(best->first) ||
                        (total(filling) == total(best->first) && worked->value.pour < best->second.value.pour);
    if (better) best.emplace(std::move(filling), std::move(*worked));
  }
  return best;
}

void set_words(PlannedBath& planned) {
  const Bath& b = planned.bath;
  planned.figures.set(Figure::bath_vessel, b.vessel->name.value);
  planned.figures.set(Figure::bath_resin, b.resin->name.value);
  if (!planned.dye.empty()) planned.figures.set(Figure::bath_dye, planned.dye);
  planned.figures.set(Figure::bath_stance, b.layout.stance == Stance::standing ? "standing" : "lying");
}

PlannedBath planned_bath(Filling filling, Worked<Bath> worked, const ResinAndDye& kind) {
  PlannedBath planned{std::move(worked.value),
                      kind.dye.value_or(""),
                      std::move(filling.shares),
                      std::move(filling.blanks),
                      {},
                      {},
                      {},
                      {},
                      {},
                      {}};
  for (const Step& step : worked.steps) planned.figures.set(step.figure, step.expression->si);
  planned.working = std::move(worked.steps);
  set_words(planned);
  return planned;
}

/// Takes what went into a bath off what waits.
void take_off(std::vector<Waiting>& waiting, const PlannedBath& planned, std::span<const OrderToMake> orders) {
  for (const BlankShare& share : planned.shares) {
    const auto w =
        std::find_if(waiting.begin(), waiting.end(), [&](const Waiting& one) { return one.order == share.order; });
    w->next += share.count;
    w->next_witness += share.witnesses;
  }
  std::erase_if(waiting, [&](const Waiting& w) { return pieces_left(orders[w.order], w) == 0; });
}

/// Orders that are to have a bath: those that have blanks already come before new ones, so that no bath which was
/// planned before takes what came later; by resin and dye, and of these by those that share; the most urgent first.
std::vector<std::size_t> in_order(std::span<const OrderToMake> orders, const Sharing& sharing) {
  std::vector<std::size_t> treated;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    if (orders[i].resin != nullptr) treated.push_back(i);
  }
  const auto urgency = [&](std::size_t i) { return std::tuple{due_of(orders[i]), orders[i].id, i}; };
  using Sharers = std::tuple<const ResinFacts*, std::optional<std::string>, bool, std::size_t>;
  const auto sharers = [&](std::size_t i) {
    return Sharers{orders[i].resin, orders[i].dye, orders[i].holds_place, sharing.at(i)};
  };
  std::map<Sharers, std::size_t> first;
  for (const std::size_t i : treated) {
    const auto [most_urgent, is_new] = first.try_emplace(sharers(i), i);
    if (!is_new && urgency(i) < urgency(most_urgent->second)) most_urgent->second = i;
  }
  std::ranges::stable_sort(treated, {}, [&](std::size_t i) {
    const OrderToMake& order = orders[i];
    return std::tuple{
        !order.holds_place, order.darkness, order.resin->name.value, sharing.turn(i), urgency(first.at(sharers(i))),
        urgency(i)};
  });
  return treated;
}

/// Activated resin of a kind: what stood there, and what baths of this run leave over, by their number.
struct OnHand {
  ActivatedResin there;
  std::vector<std::pair<std::size_t, Volume>> left_over;

  Volume total() const {
    return std::accumulate(left_over.begin(), left_over.end(), there.amount,
                           [](Volume sum, const auto& of_bath) { return sum + of_bath.second; });
  }

  /// Takes what goes into a bath, the oldest first.
  void take(PlannedBath& into) {
    Volume wanted = into.bath.reused;
    const auto taken = [&](Volume& from) {
      const Volume part = std::min(from, wanted);
      from = from - part;
      wanted = wanted - part;
      return part > Volume{};
    };
    if (taken(there.amount)) into.activated = there.oldest;
    for (auto& [bath, volume] : left_over) {
      if (taken(volume)) into.resin_from.push_back(bath);
    }
  }
};

}  // namespace

bool could_share(const OrderToMake& a, const OrderToMake& b) {
  return a.resin != nullptr && a.resin == b.resin && a.dye == b.dye && a.holds_place == b.holds_place;
}

std::vector<PlannedBath> form_baths(std::span<const OrderToMake> orders, const Sharing& sharing, const Shop& shop,
                                    const ShopTime& time, Diagnostics& out) {
  std::vector<PlannedBath> baths;
  const Date today = date_of(shop.zone.value, time.at);
  const Vessels soon = soon_to_be_had(shop, time);
  Vessels all;
  for (const VesselFacts& vessel : shop.vessels) all.push_back(&vessel);
  std::map<std::pair<const ResinFacts*, std::optional<std::string>>, OnHand> left;  // by kind
  const std::vector<std::size_t> treated = in_order(orders, sharing);
  for (std::size_t i = 0; i < treated.size();) {
    const std::size_t begins = treated[i];
    const OrderToMake& first = orders[begins];
    const ResinAndDye kind{first.resin, first.dye};
    std::vector<Waiting> waiting;
    const auto shares = [&](std::size_t other) {
      return sharing.at(other) == sharing.at(begins) && could_share(orders[other], first);
    };
    for (; i < treated.size() && shares(treated[i]); ++i) waiting.push_back({treated[i], 0, 0});
    const auto seen = left.find({kind.resin, kind.dye});
    OnHand& on_hand = seen != left.end() ? seen->second
                                         : left[{kind.resin, kind.dye}] =
                                               OnHand{usable_on_hand(shop, *kind.resin, kind.dye, today, out), {}};
    while (!waiting.empty()) {
      begun_first(waiting, orders);
      const Vessels there = entered(orders[waiting.front().order], waiting.front(), shop);
      auto best = best_filling(kind, orders, waiting, shop, there, on_hand.total());
      if (!best) best = best_filling(kind, orders, waiting, shop, soon, on_hand.total());
      if (!best) best = best_filling(kind, orders, waiting, shop, all, on_hand.total());
      if (!best) break;  // one blank of these is too large for every vessel: its order has been refused already
      baths.push_back(planned_bath(std::move(best->first), std::move(best->second), kind));
      on_hand.take(baths.back());
      on_hand.left_over.emplace_back(baths.size() - 1, baths.back().bath.left_over);
      take_off(waiting, baths.back(), orders);
      std::ranges::stable_sort(waiting, {}, [&](const Waiting& w) { return std::ranges::find(treated, w.order); });
    }
  }
  for (const auto& [kind, on_hand] : left) {
    for (const auto& [bath, volume] : on_hand.left_over) baths.at(bath).to_bottle = volume;
  }
  return baths;
}

}  // namespace blankwright

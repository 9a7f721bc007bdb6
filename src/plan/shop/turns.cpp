#include "plan/shop/turns.h"

#include <algorithm>
#include <array>
#include <limits>

namespace blankwright {
namespace {

/// Of so many there were, the place of one of those that are left, counted from their end: those before are over.
std::optional<std::size_t> from_end(std::size_t place, std::size_t left, std::size_t all) {
  if (all + place < left) return std::nullopt;
  return all + place - left;
}

int first_turn(const KeptTurns& kept) {
  std::size_t first = std::numeric_limits<int>::max();
  for (const auto& bath : kept.baths) first = std::min(first, bath.empty() ? first : bath.front());
  return static_cast<int>(first);
}

bool share_any(const KeptTurns& a, const KeptTurns& b) {
  return std::ranges::any_of(a.baths,
                             [&](const auto& bath) { return std::ranges::find(b.baths, bath) != b.baths.end(); });
}

}  // namespace

TurnsBefore::TurnsBefore(std::span<const OrderToMake> orders) : orders_{orders} {
  for (const OrderToMake& order : orders) {
    const KeptTurns& own = kept_.emplace_back(order.holds_place ? read_kept_turns(order.planned) : KeptTurns{});
    const auto note = [&](const std::vector<std::size_t>& turns) {
      for (const std::size_t turn : turns) end_ = std::max(end_, turn + 1);
    };
    for (const auto& bath : own.baths) note(bath);
    for (const auto& rest : own.own) note(rest);
  }
}

Sharing TurnsBefore::sharing() const {
  Sharing out;
  for (std::size_t i = 0; i < kept_.size(); ++i) {
    if (kept_.at(i).baths.empty()) continue;
    std::size_t with = out.nobodys();
    for (std::size_t k = 0; k < i; ++k) {
      if (could_share(orders_[i], orders_[k]) && share_any(kept_.at(i), kept_.at(k))) with = out.at(k);
    }
    out = out.moved(i, with, kept_.size()).in_turn(i, first_turn(kept_.at(i)), kept_.size());
    const auto& own = kept_.at(i).own;
    if (own.size() > 1) {
      out = out.going_on(i, BehindBaths::bath_by_bath, kept_.size());
    } else if (!own.empty() && own.front().size() > 1) {
      out = out.going_on(i, BehindBaths::in_one_go, kept_.size());
    }
  }
  return out;
}

std::vector<std::optional<std::size_t>> TurnsBefore::of(const Sequence& sequence,
                                                        std::span<const Chain> chains) const {
  std::vector<std::array<std::vector<std::size_t>, 2>> of_order(
      kept_.size());  // its own chains, and those of its baths
  for (std::size_t chain = 0; chain < chains.size(); ++chain) {
    for (const std::size_t order : chains[chain].orders)
      of_order.at(order).at(chains[chain].bath ? 1 : 0).push_back(chain);
  }
  const auto kept_of = [&](std::size_t chain) -> const std::vector<std::size_t>* {
    for (const std::size_t order : chains[chain].orders) {
      const auto& alike = of_order.at(order).at(chains[chain].bath ? 1 : 0);
      const auto& kept = chains[chain].bath ? kept_.at(order).baths : kept_.at(order).own;
      const auto at = static_cast<std::size_t>(std::ranges::find(alike, chain) - alike.begin());
      if (const auto place = from_end(at, alike.size(), kept.size())) return &kept.at(*place);
    }
    return nullptr;
  };
  std::vector<std::optional<std::size_t>> turns;
  std::vector<std::size_t> next(chains.size());
  for (const std::size_t chain : sequence) {
    const auto* kept = kept_of(chain);
    const auto place =
        kept != nullptr ? from_end(next.at(chain), chains[chain].blocks(), kept->size()) : std::nullopt;
    ++next.at(chain);
    turns.push_back(place ? std::optional{kept->at(*place)} : std::nullopt);
  }
  return turns;
}

Sequence TurnsBefore::as_before(const Sequence& sequence, std::span<const Chain> chains) const {
  const auto turns = of(sequence, chains);
  std::vector<std::pair<std::size_t, std::size_t>> by_turn;  // and chain
  for (std::size_t i = 0; i < sequence.size(); ++i)
    by_turn.emplace_back(turns.at(i).value_or(std::numeric_limits<std::size_t>::max()), sequence[i]);
  std::ranges::stable_sort(by_turn, {}, &std::pair<std::size_t, std::size_t>::first);
  Sequence out;
  for (const auto& [turn, chain] : by_turn) out.push_back(chain);
  return out;
}

std::size_t TurnsBefore::note(const Sequence& sequence, std::size_t from, std::span<const Chain> chains,
                              ShopPlan& plan) const {
  const auto before = of(sequence, chains);
  std::vector<std::vector<std::size_t>> turns(chains.size());
  for (std::size_t i = 0; i < sequence.size(); ++i) {
    from = std::max(from, before.at(i).value_or(from));
    turns.at(sequence[i]).push_back(from++);
  }
  for (std::size_t chain = 0; chain < chains.size(); ++chain) {
    for (const std::size_t order : chains[chain].orders) {
      auto& times = plan.orders.at(order).times;
      if (!times || turns.at(chain).empty()) continue;
      (chains[chain].bath ? times->bath_turns : times->own_turns).push_back(turns.at(chain));
    }
  }
  return from;
}

}  // namespace blankwright

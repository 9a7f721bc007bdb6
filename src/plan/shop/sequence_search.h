#pragma once

#include <chrono>
#include <compare>
#include <optional>
#include <span>
#include <vector>

#include "plan/shop/place_chains.h"
#include "plan/shop/sequences.h"

namespace blankwright {

/// How all orders stand together: the less the better, what stands first before all else.
struct Punctuality {
  int without_room = 0;           ///< orders of which the calendar had no room for a part
  std::chrono::minutes late{};    ///< of all, together
  int dark_first = 0;             ///< baths of a lighter dye behind a darker one: that is for a due date alone
  std::chrono::minutes finish{};  ///< of the last one, from now
  std::chrono::minutes all{};     ///< from now until each of the chains is through, together
  auto operator<=>(const Punctuality&) const = default;
};

/// What orders are judged by.
struct Dues {
  Instant now;
  std::vector<std::optional<Instant>> of;  ///< each order
};
Punctuality punctuality_of(const Placement& placed, const Dues& dues);

/// Looks for a sequence by which all orders stand better.
class SequenceSearch {
 public:
  /// All of these outlive it.
  SequenceSearch(ChainPlacer& placer, const Placement& begin, const Dues& dues)
      : placer_{placer}, begin_{begin}, dues_{dues} {}

  struct Found {
    Sequence sequence;
    Punctuality punctual;
  };

  Punctuality punctual(const Sequence& sequence) { return punctuality_of(placed(sequence), dues_); }
  Placement placed(const Sequence& sequence);

  /// Of sequences near each other the best, so many blocks placed, or until nothing better is found for long, or none
  /// can be: one that is worse is gone on from as long as it is better than what was there some steps before.
  Found best(Found from, std::size_t most_placed, const Punctuality& least);

  /// No sequence is better: each order by itself, the others behind it. Only the first two figures are meant.
  Punctuality least(const Sequence& sequence);

  /// Goes to another sequence only if orders are less late by that, and only while some are.
  Found less_late(Found from, std::size_t most_placed);

 private:
  Punctuality of_moved(const Moved& moved, const Sequence& now);
  void keep_up_to(std::size_t first);
  /// One chain, or one and what is behind it: there is nothing to choose.
  bool is_in_one_line(const Sequence& sequence) const;

  ChainPlacer& placer_;
  const Placement& begin_;
  const Dues& dues_;
  std::vector<Placement> kept_;  ///< of the sequence that is gone on from, every few blocks
  Draw draw_;
};

}  // namespace blankwright

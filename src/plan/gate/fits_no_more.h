#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "entries/record.h"
#include "plan/gate/could_become.h"
#include "plan/gate/made_for.h"

namespace blankwright {

/// An order as paper had it at a moment; null where that cannot be planned any more.
using InForce = std::function<DoneFor(const std::string& order, Instant at)>;

/// A blank that is meant for an order and does not fit it as it is now.
struct FitsNoMore {
  BlankState blank;
  std::optional<Against> against;  ///< none: what was printed when it was begun cannot be planned any more
  /// Was it issued to another order?
  bool is_promised_in() const { return blank.promised != blank.order; }
  /// Does it count no more for the order? Of a form that may have been mistyped no wood is started, unless `replace`
  /// asks for it; but what was promised to the order and does not fit it is no piece of it.
  bool is_given_up(bool replace) const { return against && (is_promised_in() || replace); }
};

/// Is the blank held against the order that it is meant for? Not once it is turned, or is meant for another order.
bool has_to_fit(const BlankState& blank, const std::string& order);

/// What stands against the blank for the order as it is now, by what was measured of it, or else by what paper said
/// when it was sawn or bored; none where that is not known.
std::optional<Against> against_as_made(const BlankState& blank, const std::vector<Entry>& entries,
                                       const OpenOrder& now, const InForce& in_force);

/// What a blank could become: for each order a line, with the order that it is of.
struct Way {
  std::string order;
  std::string words;  ///< "fits, 0.8 mm to spare on the radius"
};
/// In words: "CC-2026.1: fits, 0.8 mm to spare on the radius".
std::string in_words(const Way& way);
using Ways = std::function<std::vector<Way>(const BlankState& blank)>;

/// Says which they are and what each could become.
void say_fit_no_more(std::span<const FitsNoMore> blanks, const Order& now, const Ways& ways, Diagnostics& out);

/// Says which IDs of the order were never sawn and are not needed: fewer pieces are wanted than were, or others took
/// their place. `needed`: pieces in all.
void say_not_needed(const Record& record, const Order& order, int needed, Diagnostics& out);

}  // namespace blankwright

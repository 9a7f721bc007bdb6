#pragma once

#include <string_view>

#include "entries/blank_state.h"

namespace blankwright {

/// Where a blank may be when an entry is made of it: in the shop, or in a bath or the oven as well.
enum class Where { in_shop, anywhere };
/// Is an entry of the blank's ID alone, or does it tell of wood that was there?
enum class Of { its_id, wood };

/// What an entry of a kind does to the blank that it names, and when it can be.
struct BlankRule {
  EntryKind kind;
  void (*take)(BlankState& state, const Entry& entry);
  Stage from, to;                 ///< the stages at which it can be
  std::string_view before, past;  ///< why it cannot: "K7T-4X54 is not cured"
  Where where = Where::in_shop;
  Of of = Of::wood;
};

/// The rule of a kind; null for what is not said of a blank. A kind that is has one.
const BlankRule* rule_of(EntryKind kind);

}  // namespace blankwright

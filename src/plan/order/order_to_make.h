#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entries/record.h"
#include "plan/order/order_plan.h"
#include "plan/process/bath.h"
#include "plan/process/cure.h"
#include "plan/routing/operations.h"
#include "plan/routing/standing.h"
#include "plan/routing/working_time.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// Blanks of one order that stand at the same operation, in the same bath or load.
struct BlankGroup {
  Standing at{};  ///< in the order's routing; the latest beginning of all
  int pieces = 0, witnesses = 0;
  std::string bath{}, load{};             ///< that they are in, or were in last, as entries name them
  std::string lies_in{};                  ///< the bath that they are in, where its vacuum is not on yet
  std::string vessel{}, oven{};           ///< that they are in, where entries tell that
  std::optional<Instant> waits_since{};   ///< the first of them, for what is next; sealed wood waits without harm
  std::optional<Instant> free_from{};     ///< when what goes on with them apart from the others ends
  std::optional<Instant> runs_until{};    ///< in its oven or under its vacuum, by what was read there, at least
  Duration held{};                        ///< under vacuum at its target, once that was released
  std::optional<BlankId> lowest{};        ///< of them
  int soaked_before = 0;                  ///< of those that were in a bath, that had been in another one before
  std::optional<Instant> soaked_again{};  ///< when the last of these went into the bath again
  bool again = false;                     ///< sent back to what is next by their masses: they have to be dried again
};

/// When an operation was done to blanks of an order, as far as entries tell: from its first beginning to its last
/// end.
struct DoneBetween {
  std::optional<Interval> at;
  int blanks = 0;
  std::vector<Instant> each{};  ///< of each blank
};

/// What has to be known of an order to plan it together with others: little, since there may be many.
struct OrderToMake {
  std::string id;     ///< decides where nothing else does
  int pieces = 0;     ///< that still need a bath, or are to start where it has none; without witnesses
  int witnesses = 0;  ///< one for each bath, or load, that the order would need by itself
  int started = 0, witnesses_started = 0;  ///< of both in all, wherever they are or were lost
  int pieces_a_witness = 0;  ///< that a load holds beside its witness; 0: a bath has one witness, whatever it holds
  std::optional<Given<Date>> due;
  Place quantity_at;
  PlannedDurations durations;
  const ResinFacts* resin = nullptr;  ///< null: no bath is planned for it
  std::optional<std::string> dye;
  int darkness = 0;                  ///< of the dye: 0 for none, then as the shop lists them
  BathBlanks blank;                  ///< of one; its count is not used
  Length sawn_section, sawn_length;  ///< as it goes into the oven to dry
  const OvenFacts* oven = nullptr;   ///< for the cure, and for drying; null where the shop has none that will do
  std::optional<Cure> cure;          ///< of its blanks
  std::vector<OvenThatDoes> further_ovens{};  ///< that would do as well
  /// Where they stand, one after the other, of those that are not at the beginning; the rest is.
  std::vector<BlankGroup> waiting_pieces, waiting_witnesses;
  std::vector<BlankGroup>
      under_way;                  ///< those that were in a bath, or where the order has none are past the beginning
  std::vector<DoneBetween> past;  ///< of each operation of its routing; empty where nothing was entered
  bool holds_place = false;       ///< it has blanks already, and is placed before new orders
  std::string planned{};          ///< how it was planned when it was printed last, as it is kept: see kept_plan()
  bool of_run = true;             ///< it is asked for; the others only hold their places
  std::optional<Instant> wood_from{}, resin_from{};  ///< when what has to be ordered for it is there
};

/// The same of an order that was planned with what the record tells. The shop outlives it.
OrderToMake order_to_make(const Order& order, const Shop& shop, const OrderPlan& plan, const Record& record);

}  // namespace blankwright

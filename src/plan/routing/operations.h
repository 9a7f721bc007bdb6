#pragma once

#include <map>
#include <span>
#include <vector>

#include "plan/routing/operation.h"
#include "read/shop.h"

namespace blankwright {

/// What the plan gives to operations that take their time from it. An order that is not treated has none of vacuum,
/// soak and cure.
struct PlannedDurations {
  bool treated = false;
  bool witnessed = false;  ///< some of the blanks are witnesses
  Duration drying{}, cooling{}, vacuum{}, soak{}, cure{}, glue_setting{};
  double soak_share = 0;  ///< of the vacuum beyond the pump-down, as it is in the calendar; 0: of the planned hold
  Duration pump_down{};
  std::map<const OperationFacts*, double> pace{};  ///< how many times as long as planned an operation takes; drawn
};

/// Blanks that are past the routing's first operations.
struct Further {
  std::size_t next = 0;  ///< the first operation that is still open for them
  int pieces = 0;        ///< witnesses among them
  int witnesses = 0;
};

/// Blanks that pass over an operation that is done to the others.
struct PassedOver {
  std::size_t step = 0;
  int pieces = 0;  ///< witnesses among them
  int witnesses = 0;
};

/// What runs already: an operation by the clock, done to some of the blanks.
struct Running {
  std::size_t step = 0;
  Instant begun;
  int pieces = 0;  ///< witnesses among them
  std::string resource{};
  std::optional<Instant> ends_from{};  ///< it cannot end before, by its readings
};

/// Blanks that something goes on with apart from the others until then.
struct FreeFrom {
  std::size_t step = 0;  ///< the first operation that waits for them
  Instant at;
};

/// An oven in the place of the first one.
struct FurtherOven {
  std::string name;
  bool drying_alone = false;  ///< it may run while nobody is there
  bool cure_alone = false;
  bool takes_drying = false;  ///< in no more loads than the first one
  bool takes_cure = false;
  Duration cure{};  ///< at least
};

/// How an operation is done this time.
struct OperationNeeds {
  int pieces = 0;  ///< it is done to so many, witnesses among them
  int witnesses = 0;
  std::vector<Further> further{};         ///< of these
  std::vector<PassedOver> passed_over{};  ///< likewise; none that is further
  std::vector<Running> running{};         ///< with blanks of these
  std::vector<FreeFrom> free_from{};
  int drying_loads = 1;          ///< one after the other in one oven
  int cure_loads = 1;            ///< likewise
  std::string vessel{}, oven{};  ///< by name; empty where the shop has none
  bool drying_alone = false;     ///< the oven may run while nobody is there
  bool cure_alone = false;
  bool pump_alone = false;
  std::vector<FurtherOven> further_ovens{};
};

/// Is the operation done at all to such an order?
bool applies(const OperationFacts& facts, const PlannedDurations& planned);

/// The routing as an order goes through it.
std::vector<const OperationFacts*> routing_of(const PlannedDurations& planned, const Shop& shop);

/// Do witnesses go on after the cure? Up to what is done to them alone; where the shop names no such thing they end
/// with the cure, and are cut open some time.
bool witnesses_go_beyond(std::span<const OperationFacts* const> after_cure);

/// How many of the operations that follow what is done elsewhere are tied to it: each may wait only so long behind
/// the one before it, or cools by itself when that is over. What is done in a vessel or an oven is not tied, nor what
/// is done to witnesses alone.
std::size_t tied(std::span<const OperationFacts* const> following);

/// How many blanks an operation is still to be done to, witnesses among them; those in the midst of it count.
int blanks_at(std::size_t step, const OperationNeeds& needs);

/// Operations with their lengths, by `fixed` and `per_piece` or by the plan; in the oven once for each load, and what
/// is dried cools before the next load is. A further load is to go in within the operation's longest wait after the
/// one before it came out. Witnesses are left out of all that comes after their end.
/// What runs comes first, with its beginning. What is open for none of the blanks is left out, and what was begun
/// takes its time for each piece that is left, without the fixed one.
std::vector<Operation> operations(std::span<const OperationFacts* const> routing, const PlannedDurations& planned,
                                  const OperationNeeds& needs);

/// The ovens in which some of the operations could be done as well: each once, as they name them.
std::vector<std::string> further_ovens(std::span<const Operation> operations);

/// The same operations; those that could be done in that oven as well are.
std::vector<Operation> in_oven(const std::string& oven, std::vector<Operation> operations);

/// Hands-on time of all operations that such an order goes through, for what it costs.
Duration hands_on_total(const Shop& shop, const PlannedDurations& planned, int pieces, int witnesses);

}  // namespace blankwright

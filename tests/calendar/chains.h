#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "breach.h"
#include "hours.h"
#include "ledger.h"
#include "order.h"
#include "plan.h"

namespace calendar_rules {

/// Everything that the rules are held against.
struct Planned {
  const Shop& shop;
  const Zone& zone;
  const WorkingHours& hours;
  std::map<std::string, Order> orders;  ///< those that were planned
  std::map<std::string, Plan> plans;
  const Ledger& ledger;
  Instant at;
};

/// One time that an operation is done.
struct Doing {
  std::size_t step = 0;  ///< of the shop's routing
  Run run;
  std::map<std::string, int> blanks;  ///< by order; 0: all that there are
};

/// Blanks that go through operations together: those of a planned bath, those of what is under way, or an order's
/// own.
struct Chain {
  enum class Kind { bath, under_way, order };
  Kind kind = Kind::order;
  int bath = 0;               ///< of a planned bath
  std::string name;           ///< of what is under way, or the order's id
  std::vector<Doing> doings;  ///< not over, in the order of their beginnings
  std::string text() const;
  std::set<std::string> orders() const;
};

/// All that is planned or goes on, each once whatever orders it is for. What is told differently in two orders is
/// broken.
std::vector<Chain> chains_of(const Planned& planned, Breaches& out);

const Operation& operation(const Planned& planned, const Doing& doing);
/// The step of the routing that is called so.
std::size_t step_called(const Shop& shop, const std::string& name);
/// Does an order go through an operation? manual, keys of the routing.
bool applies(const Planned& planned, const std::string& order, const Operation& op);
/// Is a step of the routing done to witnesses, or to pieces? Witnesses go no further than what is done to them alone,
/// and where the shop names no such thing, than the cure.
bool is_done_to(const Shop& shop, std::size_t step, bool witness);
/// How many of an order's blanks are open at a step and not in the midst of it, and was it done to others?
struct Open {
  int blanks = 0;
  bool any_past = false;
};
Open open_of(const Planned& planned, const std::string& order, std::size_t step);

/// "Cure of bath 2, 2027-05-03 08:00 to 2027-05-03 12:00".
std::string text_of(const Planned& planned, const Chain& chain, const Doing& doing);
std::string text_of(const Zone& zone, const Span& span);

}  // namespace calendar_rules

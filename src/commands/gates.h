#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "commands/past.h"
#include "plan/gate/could_become.h"
#include "plan/gate/fits_no_more.h"
#include "plan/gate/gates.h"
#include "plan/gate/going_on.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// An order of the register, read and planned.
struct Prepared {
  Order order;
  OrderPlan plan;
};

/// An operation with a HOLD that a blank went past, and nothing was entered that answers it.
struct HoldPassed {
  const OperationFacts* operation = nullptr;  ///< of the shop
  std::size_t number = 0;                     ///< its place in the shop's routing, from 0
};
/// "20 Stamp and tag: both read back".
std::string in_words(const HoldPassed& passed);

/// Judges blanks by what the register has of them and by the plans of their orders, which are made when they are
/// first asked for. For one thread; register and shop outlive it.
class Gates {
 public:
  Gates(Register& known, const Shop& shop);
  Gates(Register& known, const Shop& shop, ShopPast past);

  /// The gates at which the blank stands now, or that it has no plan any more.
  std::vector<Judged> judge(const BlankState& blank, Instant now);

  /// The routing's HOLDs that a blank in work went past unanswered, until they are entered as done.
  std::vector<HoldPassed> holds_passed(const BlankState& blank);
  /// Of these those that it went past by an entry which the register has taken, where an entry of their own was due.
  std::vector<HoldPassed> holds_passed_by(const Entry& entry);

  /// Of blanks, those whose gates say HOLD now.
  std::set<BlankId> held(std::span<const BlankState> blanks, Instant now);

  /// When a load may come out of the oven, by the blank in it that needs longest; none where none of it is in.
  std::optional<Judged> judge_load(const std::string& name, Instant now);

  /// When a blank that is in an oven may come out at the earliest, as far as its weighings or the readings of its
  /// load tell.
  std::optional<Instant> in_oven_until(const BlankState& blank);

  /// Does its wet mass send a blank back into a bath?
  bool soaks_again(const BlankState& blank);

  /// What spoke against an entry that the register has taken all the same, by what holds now of what had happened by
  /// then: a blank that went on, a bath that was released. None where nothing did.
  std::optional<Objection> against(const Entry& entry);
  /// The same in words; empty where nothing did.
  std::string against_in_words(const Entry& entry);

  /// What spoke against a blank's last step, named in its words, at gates that are not among those that speak `now`:
  /// of one that is in the bath or in the oven, or turned, none else would tell. None of one that is at its end.
  std::optional<Objection> against_last_step(const BlankState& blank, std::span<const Judged> now);

  /// What in an entry that the register has taken hardly goes with what was known before or was planned: see
  /// contradictions(). Empty where nothing is odd.
  std::vector<std::string> oddities(const Entry& entry);

  /// Why a cut holds blanks of its bath or load, and how many, in words; empty where it holds none.
  std::string held_by_cut(const Entry& entry, Instant now);

  /// What a blank could still become: an order each that lacks pieces. Those that do not fit, with the reason, only
  /// where all are to be told.
  enum class Tell { fitting, all };
  std::vector<Way> could_become(const BlankState& blank, Tell which);

  /// From now on an order is judged by this plan, in place of the one that it was compiled to last.
  void judge_by(const Order& order, const OrderPlan& plan);

  /// Forgets all plans: an order was compiled since, or the shop is another one.
  void forget_plans();

 private:
  /// By what happened to its bath and its load up to a moment.
  std::vector<Judged> judge(const BlankState& blank, Instant now, Instant until);
  /// How soon the middles of a load's blanks warm, as far as they have a plan.
  std::vector<CoreTime> core_times(const LoadState& load);
  std::optional<Objection> against_release(const std::string& bath, Instant at);
  /// The gates that a blank passed by an entry, as they were then; empty where it passed none.
  std::vector<Judged> passed(const Entry& entry);
  /// The blank of an entry as it was known before; none where the entry does not hold any more.
  std::optional<BlankState> state_before(const Entry& entry);
  const Prepared* plan_of(const std::string& order_id);
  std::optional<Prepared> prepared_of(const std::string& order_id, const std::string& job);
  std::string bath_order_of(const BlankState& blank);
  /// By which a blank's bath and cure are judged: as its order was printed when it went into the bath, since its size
  /// is of then. As it is now where it was in none, or where what was printed then cannot be planned any more.
  const Prepared* bath_plan_of(const BlankState& blank);
  /// With the orders that it was made for; none where the one that it was issued to cannot be planned any more.
  std::optional<BlankOffered> offered(const BlankState& blank);
  /// Why a blank does not fit the order that it is promised to; none where it does.
  std::vector<std::string> against_promise(const BlankState& blank, const std::string& order_id);
  const std::vector<std::string>& open_orders();

  Register& known_;
  const Shop& shop_;
  ShopPast past_;
  std::map<std::string, std::optional<Prepared>> plans_;
  std::map<std::pair<std::string, Instant>, std::optional<Prepared>>
      plans_then_;  ///< of orders that were printed otherwise when something was bathed for them
  std::optional<std::vector<std::string>> open_;
};

/// Adds to what a plan may know what the gates ask: how long of the blanks that are in an oven, and which have to
/// soak again.
void add_gates(Record& record, Gates& gates);

/// What the register knows of an order, by the order's id.
using Records = std::function<Record(const std::string& order_id)>;

/// The records of a register, with what the gates ask; empty ones where there is no register yet. For one thread. The
/// shop outlives them.
Records records_in(const RegisterPlace& register_place, const Shop& shop);

}  // namespace blankwright

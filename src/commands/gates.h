#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "commands/past.h"
#include "commands/prepare.h"
#include "plan/could_become.h"
#include "plan/gates.h"

namespace blankwright {

/// Judges blanks by what the register has of them and by the plans of their orders, which are made when they are
/// first asked for. For one thread; register and shop outlive it.
class Gates {
 public:
  Gates(Register& known, const Shop& shop);

  /// The gates at which the blank stands now, or that it has no plan any more.
  std::vector<Judged> judge(const BlankState& blank, Instant now);

  /// What spoke against an entry that the register has taken all the same: a blank that went into a bath or out of
  /// it, into the oven or out of it, was squared or bored; a bath that was released. Empty where nothing did.
  std::string against(const Entry& entry);

  /// What a blank could still become: a line an order that lacks pieces, "CC-2026.1: fits, 0.8 mm to spare".
  /// Those that do not fit are told with the reason where `all` is set.
  std::vector<std::string> could_become(const BlankState& blank, bool all);

 private:
  std::string against_going_on(const BlankState& before, EntryKind next, Instant at);
  std::string against_release(const std::string& bath, Instant at);
  std::string against_leaving(const BlankState& before, Instant at);
  /// What the witnesses of a cured blank's bath have shown, where its order wants one.
  std::optional<Judged> judge_witness(const BlankState& blank, const Order& order);
  const Prepared* plan_of(const std::string& order_id);
  const std::vector<std::string>& open_orders();

  Register& known_;
  const Shop& shop_;
  ShopPast past_;
  std::map<std::string, std::optional<Prepared>> plans_;
  std::optional<std::vector<std::string>> open_;
};

}  // namespace blankwright

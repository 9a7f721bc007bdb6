#include "commands/what_moved.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <span>

#include "commands/job_files.h"
#include "commands/old_times.h"
#include "commands/output.h"
#include "commands/page_check.h"
#include "commands/prints_on_paper.h"
#include "commands/since_print.h"
#include "plan/shop/kept_plan.h"
#include "plan/shop/plan_shop.h"
#include "register/register.h"

namespace blankwright {
namespace {

constexpr std::size_t most_named = 3;  // of what moved besides: the new sheets have all of it
constexpr int most_laid_out = 5;  // of the prints that what moved is looked for on: each takes as long as to make it

/// "Mon 3 May 08:00" of the terminal: day and time as the shop's clock has them.
std::string when(const Zone& zone, Instant at) { return clock_text(zone, at); }

/// "entry 14", "entries 11 to 20, 24".
std::string entries_text(const std::vector<EntryNumber>& numbers) {
  std::vector<std::string> parts;
  for (std::size_t n = 0, last = 0; n < numbers.size(); n = last + 1) {
    last = n;
    while (last + 1 < numbers.size() && numbers.at(last + 1) == numbers.at(last) + 1) ++last;
    parts.push_back(n == last ? fmt::format("{}", numbers.at(n))
                              : fmt::format("{} to {}", numbers.at(n), numbers.at(last)));
  }
  return fmt::format("{} {}", numbers.size() == 1 ? "entry" : "entries", fmt::join(parts, ", "));
}

/// "\"Cure\" moved from 2027-05-05 08:00 to 2027-05-06 08:00", or what of it moved is its end.
std::string moved_text(const std::string& name, Interval before, Interval now, const Zone& zone) {
  const std::string from = when(zone, before.from), to = when(zone, now.from);
  if (from != to) return fmt::format("{} moved from {} to {}", name, from, to);
  return fmt::format("{} until {} instead of {}", name, when(zone, now.to), when(zone, before.to));
}

/// "\"Cure\" moved from 2027-05-05 08:00 to 2027-05-06 08:00; also \"Turn\"; new \"Oil\"; no more \"Wax\"".
std::string moved_text(const std::vector<MovedOperation>& all, const Zone& zone) {
  std::string first;
  std::vector<std::string> also, added, gone;
  for (const MovedOperation& one : all) {
    const std::string name = fmt::format("\"{}\"", one.name);
    if (!one.before) {
      added.push_back(name);
    } else if (!one.now) {
      gone.push_back(name);
    } else if (first.empty()) {
      first = moved_text(name, *one.before, *one.now, zone);
    } else {
      also.push_back(name);
    }
  }
  std::vector<std::string> parts;
  if (!first.empty()) parts.push_back(first);
  if (also.size() > most_named) {
    parts.push_back(fmt::format("also {} others", also.size()));
  } else if (!also.empty()) {
    parts.push_back(fmt::format("also {}", fmt::join(also, ", ")));
  }
  if (!added.empty()) parts.push_back(fmt::format("new {}", fmt::join(added, ", ")));
  if (!gone.empty()) parts.push_back(fmt::format("no more {}", fmt::join(gone, ", ")));
  return fmt::format("{}", fmt::join(parts, "; "));
}

/// The sheets of its print that show what moved, in words.
std::vector<std::string> old_sheets(const std::set<SheetKind>& sheets, const PlacedTimes& times,
                                    const ShopPlan& plan) {
  const bool fills_bottles = times.bath && plan.baths.at(*times.bath).to_bottle > Volume{};
  std::vector<std::string> pages;
  if (sheets.contains(SheetKind::routing)) pages.emplace_back("routing");
  if (sheets.contains(SheetKind::bath)) pages.emplace_back("bath card");
  if (sheets.contains(SheetKind::oven)) pages.emplace_back("oven card");
  if (sheets.contains(SheetKind::bottle_labels) && fills_bottles) pages.emplace_back("bottle labels");
  if (pages.empty()) pages.emplace_back("none");
  return pages;
}

/// How an order lies now against its last print.
struct AgainstPrint {
  std::optional<LastPrint> print;  ///< none where it was never printed
  std::vector<KeptOperation> before;
  std::vector<MovedOperation> moved;
  OwnThings own;
};

/// The orders of a plan against their prints.
class OrdersAgainstPrints {
 public:
  OrdersAgainstPrints(Register& known, const ReadRun& read, const PlannedTogether& planned, const ShopPlan& from_now,
                      const Surroundings& around)
      : known_{known}, read_{read}, planned_{planned}, from_now_{from_now}, around_{around} {
    for (std::size_t i = 0; i < planned.orders.size(); ++i) orders_.push_back(against_print(i));
    const bool any = std::ranges::any_of(orders_, [](const AgainstPrint& one) { return !one.moved.empty(); });
    if (any) entries_ = known.all_entries();
  }

  /// In lines; empty where nothing moved.
  std::string told(std::size_t i) {
    const AgainstPrint& one = orders_.at(i);
    if (one.before.empty() || one.moved.empty()) return {};
    const Zone& zone = read_.inputs.shop.zone.value;
    const PlacedTimes& now = *times(i);
    const Instant finish = std::ranges::max(one.before, {}, [](const KeptOperation& op) { return op.at.to; }).at.to;
    return fmt::format(
        "  since issue {} of {}: {}\n  finish {}{}{}; moved by: {}; old times on: {}\n", one.print->print.number,
        when(zone, one.print->print.made), moved_text(one.moved, zone), when(zone, now.planned.finish),
        finish == now.planned.finish ? std::string{" as before"} : fmt::format(", was {}", when(zone, finish)),
        newly_late(i, finish), fmt::join(moved_by(i), ", "), fmt::join(old_paper(i), ", "));
  }

 private:
  /// ", late now: due 2027-05-17"; empty of what is in time, or was late before.
  std::string newly_late(std::size_t i, Instant before) const {
    const Zone& zone = read_.inputs.shop.zone.value;
    const auto& due = planned_.to_make.at(i).due;
    if (!due || date_of(zone, times(i)->planned.finish) <= due->value || date_of(zone, before) > due->value)
      return {};
    return fmt::format(", late now: due {}", text(due->value));
  }

  /// The pages in hand that show what moved; the sheets alone where many orders are to be looked at, or a print of
  /// this one cannot be laid out as it was.
  std::vector<std::string> old_paper(std::size_t i) {
    const AgainstPrint& one = orders_.at(i);
    const std::set<SheetKind> old = sheets_with_old_times(one.moved, *times(i), read_.inputs.shop.zone.value);
    if (old.empty() || laid_out_ == most_laid_out) return old_sheets(old, *times(i), plan(i));
    PaperInHand paper = in_hand(planned_.orders.at(i));
    if (!paper.can_be_compared()) return old_sheets(old, *times(i), plan(i));
    std::erase_if(paper.pages, [&](const IssuedPage& page) { return !shows_old_times(known_, page, old); });
    if (paper.pages.empty()) return {"none"};
    const bool of_newest = std::ranges::all_of(
        paper.pages, [&](const IssuedPage& page) { return page.issue == one.print->print.number; });
    return {of_newest ? page_list(paper.pages) : page_list_by_issue(paper.pages)};
  }

  PaperInHand in_hand(const PlannedOrder& order) {
    const Shop& shop = read_.inputs.shop;
    if (laid_out_++ == 0) prints_.emplace(known_, shop.source->name, around_, job_files_of(read_, planned_));
    return prints_->in_hand(order.id, order.job ? read_.jobs.at(*order.job).file
                                                : job_file_of(around_.disk, shop.source->name, shop, order.id));
  }

  const ShopPlan& plan(std::size_t i) const { return i < planned_.of_run ? planned_.plan : from_now_; }
  const std::optional<PlacedTimes>& times(std::size_t i) const { return plan(i).orders.at(i).times; }

  AgainstPrint against_print(std::size_t i) const {
    const PlannedOrder& order = planned_.orders.at(i);
    AgainstPrint out{known_.print_of_order(order.id), {}, {}, {}};
    if (!out.print || !times(i)) return out;
    out.before = read_kept_plan(out.print->plan);
    if (!out.before.empty()) out.moved = moved_since(out.before, *times(i));
    out.own = own_things(known_, order.id, order.job ? &*read_.jobs.at(*order.job).order : nullptr);
    return out;
  }

  /// What moved an order: texts, entries of its own or of others that moved as well, an hour at which something was
  /// to have begun.
  std::vector<std::string> moved_by(std::size_t i) const {
    const AgainstPrint& one = orders_.at(i);
    std::vector<std::string> by = planned_.orders.at(i).job
                                      ? changed_texts(*one.print, read_, *planned_.orders.at(i).job)
                                      : std::vector<std::string>{};
    std::vector<EntryNumber> numbers;
    std::set<std::string> new_orders;
    for (const Entry& entry : entries_) {
      if (entry.number <= one.print->print.last_entry || !concerns(entry, i)) continue;
      const std::string order = entry.text(Field::order);
      if (entry.kind == EntryKind::issued && order != planned_.orders.at(i).id) {
        new_orders.insert(order);
      } else {
        numbers.push_back(entry.number);
      }
    }
    if (!numbers.empty()) by.push_back(entries_text(numbers));
    const bool is_beside_run = i >= planned_.of_run && !read_.wanted.flags.draft;
    for (std::size_t k = 0; is_beside_run && k < planned_.of_run; ++k) {
      if (!orders_.at(k).print) new_orders.insert(planned_.orders.at(k).id);
    }
    for (const std::string& order : new_orders) by.push_back("order " + order);
    const Instant now = planned_.time.at;
    const bool was_to_begin = std::ranges::any_of(one.moved, [&](const MovedOperation& op) {
      return op.before && op.now && op.before->from < now && op.now->from >= now;
    });
    if (was_to_begin) by.emplace_back("the time that passed");
    return by.empty() ? moved_by_others(i) : by;
  }

  /// What else may have: an order that was compiled otherwise since, what was entered of others; if there is nothing
  /// of that, that it is later now.
  std::vector<std::string> moved_by_others(std::size_t i) const {
    const Print& print = orders_.at(i).print->print;
    std::vector<std::string> by;
    for (std::size_t k = 0; k < orders_.size(); ++k) {
      const auto& other = orders_.at(k).print;
      if (k == i || !other) continue;
      const auto& job = planned_.orders.at(k).job;
      if (other->print.made > print.made || (job && !changed_texts(*other, read_, *job).empty()))
        by.push_back("order " + planned_.orders.at(k).id);
    }
    if (!by.empty()) return by;
    std::vector<EntryNumber> numbers;
    for (const Entry& entry : entries_) {
      if (entry.number > print.last_entry) numbers.push_back(entry.number);
    }
    if (!numbers.empty()) return {entries_text(numbers)};
    // As a new order it was planned behind the open ones, of which it is one since.
    return {print.number == 1 && orders_.size() > 1 ? "its own turn among the open orders" : "the time that passed"};
  }

  bool concerns(const Entry& entry, std::size_t i) const {
    for (std::size_t k = 0; k < orders_.size(); ++k) {
      if ((k == i || !orders_.at(k).moved.empty()) && orders_.at(k).own.are_of(entry)) return true;
    }
    return false;
  }

  Register& known_;
  const ReadRun& read_;
  const PlannedTogether& planned_;
  const ShopPlan& from_now_;
  const Surroundings& around_;
  std::optional<PrintsOnPaper> prints_;
  int laid_out_ = 0;
  std::vector<AgainstPrint> orders_;
  std::vector<Entry> entries_;
};

/// The plan once the new orders of a run are open, too, as `today` and the next compile make it: the earlier due date
/// goes first then. Where all have blanks already it is the plan that there is.
std::optional<ShopPlan> plan_from_now(const ReadRun& read, const PlannedTogether& planned) {
  const auto holds = [](const OrderToMake& order) { return order.holds_place; };
  const auto of_run = std::span{planned.to_make}.first(planned.of_run);
  if (planned.of_run == planned.to_make.size() || read.wanted.flags.draft || std::ranges::all_of(of_run, holds))
    return std::nullopt;
  std::vector<OrderToMake> open = planned.to_make;
  for (std::size_t i = 0; i < open.size(); ++i) {
    OrderToMake& order = open.at(i);
    const auto& times = planned.plan.orders.at(i).times;
    if (!order.holds_place && times) order.planned = kept_plan(*times);
    order.holds_place = true;
    order.of_run = false;
  }
  Diagnostics ignored;
  return plan_shop(open, read.inputs.shop, planned.time, ignored);
}

}  // namespace

std::vector<std::string> what_moved(const ReadRun& read, const PlannedTogether& planned, const Surroundings& around) {
  std::vector<std::string> out(planned.orders.size());
  auto known = Register::open_to_read(read.register_place);
  if (!known) return out;
  const auto from_now = plan_from_now(read, planned);
  OrdersAgainstPrints orders{*known, read, planned, from_now ? *from_now : planned.plan, around};
  for (std::size_t i = 0; i < out.size(); ++i) out.at(i) = orders.told(i);
  return out;
}

}  // namespace blankwright

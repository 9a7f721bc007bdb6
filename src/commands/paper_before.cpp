// What was printed of each order before, where only a part of its paper is asked for.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <ostream>

#include "commands/calendars.h"
#include "commands/chosen_paper.h"
#include "commands/compile_steps.h"
#include "commands/order_on_paper.h"
#include "commands/prints_on_paper.h"
#include "commands/since_print.h"
#include "plan/shop/kept_events.h"
#include "register/register.h"
#include "sheet/sheet/part_asked.h"

namespace blankwright {
namespace {

void add_once(std::vector<std::string>& to, const std::vector<std::string>& some) {
  for (const std::string& one : some) {
    if (std::ranges::find(to, one) == to.end()) to.push_back(one);
  }
}

bool is_handed_out(const std::vector<CalendarEntry>& calendar, const std::vector<KeptEvent>& before) {
  return std::ranges::all_of(
      calendar, [&](const CalendarEntry& entry) { return std::ranges::find(before, entry.event) != before.end(); });
}

/// Is all of the paper printed?
bool is_whole(const CompileFlags& flags) { return !flags.changed && flags.pages.empty(); }

/// Of each order of a run: was it printed, and has a text changed since, or something of it been entered?
std::vector<bool> changed_since_print(const ReadRun& read, const PlannedTogether& planned) {
  std::vector<bool> out;
  auto known = Register::open_to_read(read.register_place);
  const std::vector<Entry> entries = known ? known->all_entries() : std::vector<Entry>{};
  for (const PlannedOrder& order : planned.own()) {
    const auto print = known ? known->print_of_order(order.id) : std::nullopt;
    out.push_back(print && !changed_texts(*print, read, *order.job).empty());
    if (!print || out.back() || entries.empty() || entries.back().number <= print->print.last_entry) continue;
    const OwnThings own = own_things(*known, order.id, &*read.jobs.at(*order.job).order);
    out.back() = std::ranges::any_of(
        entries, [&](const Entry& entry) { return entry.number > print->print.last_entry && own.are_of(entry); });
  }
  return out;
}

/// Looks at each order of a run, planned as it stands before anything is issued.
class OrdersBefore {
 public:
  OrdersBefore(const ReadRun& read, const PlannedTogether& planned, const Surroundings& around)
      : read_{read},
        planned_{planned},
        now_{issued_before(read, planned)},
        to_bathe_{blanks_to_bathe(read, planned, blanks_of(now_.orders))} {
    if (!flags().draft) known_ = Register::open_to_read(read.register_place);
    if (known_) prints_.emplace(*known_, read.inputs.shop.source->name, around, job_files_of(read, planned));
  }

  PaperBefore of_order(std::size_t n, std::optional<int> again) {
    PaperBefore paper;
    const OrderOfRun order{read_, planned_, n, now_.orders.at(n)};
    if (prints_) paper.in_hand = prints_->in_hand(order.id(), order.job().file, again);
    if (is_whole(flags())) return paper;
    const auto on_paper = order_on_paper(order, to_bathe_);
    if (on_paper == nullptr) return paper;  // said when it is written
    if (flags().changed) {
      look_for_changes(n, on_paper->dossier(), paper);
    } else {
      look_for_pages(on_paper->dossier());
    }
    return paper;
  }

  bool has_pages() const { return has_pages_; }
  const std::vector<std::string>& there_is() const { return there_is_; }

 private:
  const CompileFlags& flags() const { return read_.wanted.flags; }

  /// Where the paper is right, the other files may still have to be written: times move that no page shows.
  void look_for_changes(std::size_t n, const Dossier& d, PaperBefore& paper) {
    paper.in_hand.is_right = is_in_hand(d, flags(), paper.in_hand);
    if (!paper.in_hand.is_right) return;
    const std::string& id = d.order.id.value;
    paper.is_left_out = !wants(flags(), "calendar") ||
                        is_handed_out(now_.calendars.of_order.at(n), read_kept_events(known_->newest_plan(id)));
    paper.told = fmt::format("{}: nothing changed since issue {}; nothing was written\n", id, *paper.in_hand.print);
  }

  void look_for_pages(const Dossier& d) {
    const auto sheets = traveller_sheets(d, sheet_fonts().metrics);
    const auto asked = pages_asked(sheets, flags().pages, d.sheet_template.words);
    has_pages_ = has_pages_ || std::ranges::find(asked, true) != asked.end();
    add_once(there_is_, what_can_be_asked(sheets, d.sheet_template.words));
  }

  const ReadRun& read_;
  const PlannedTogether& planned_;
  IssuedRun now_;
  std::vector<IssuedTo> to_bathe_;
  std::optional<Register> known_;
  std::optional<PrintsOnPaper> prints_;
  bool has_pages_ = false;  ///< any order those that are asked for
  std::vector<std::string> there_is_;
};

/// What was printed of the orders that changed, to tell which of it is no longer right.
std::vector<PaperBefore> paper_of_changed(const ReadRun& read, const PlannedTogether& planned,
                                          const Surroundings& around) {
  std::vector<PaperBefore> out;
  const std::vector<bool> changed = changed_since_print(read, planned);
  if (std::ranges::find(changed, true) == changed.end()) return out;
  OrdersBefore orders{read, planned, around};
  for (std::size_t n = 0; n < planned.of_run; ++n) {
    out.push_back(changed.at(n) ? orders.of_order(n, {}) : PaperBefore{});
  }
  return out;
}

}  // namespace

std::optional<std::vector<PaperBefore>> paper_before(const ReadRun& read, const PlannedTogether& planned,
                                                     Surroundings& around, std::optional<int> again) {
  const CompileFlags& flags = read.wanted.flags;
  std::vector<PaperBefore> out;
  if (is_whole(flags))
    return again || flags.draft || !wants(flags, "traveller") ? out : paper_of_changed(read, planned, around);
  OrdersBefore orders{read, planned, around};
  for (std::size_t n = 0; n < planned.of_run; ++n) out.push_back(orders.of_order(n, again));
  if (flags.changed || out.empty() || orders.has_pages()) return out;
  const bool has_earlier = !again && !planned.plan.under_way.empty();
  around.errors << fmt::format(
      "blankwright: --pages: there is no \"{}\"; there is {}{}\n", flags.pages, fmt::join(orders.there_is(), ", "),
      has_earlier ? "; cards of what is in bath or oven by now: --again with their issue" : "");
  return std::nullopt;
}

}  // namespace blankwright

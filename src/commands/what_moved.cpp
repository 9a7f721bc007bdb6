#include "commands/what_moved.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "commands/output.h"
#include "plan/shop/kept_plan.h"
#include "register/register.h"

namespace blankwright {
namespace {

/// "Mon 3 May 08:00" of the terminal: day and time as the shop's clock has them.
std::string when(const Zone& zone, Instant at) { return clock_text(zone, at); }

/// What differs from what the print was made of.
std::vector<std::string> what_changed(const LastPrint& print, const ReadRun& read, const PlannedOrder& order,
                                      EntryNumber last_entry) {
  std::vector<std::string> changed;
  if (order.job) {
    const CompileInputs now = inputs_of(read, *order.job);
    if (now.job_text != print.job) changed.emplace_back("the job file");
    if (now.shop_text != print.shop) changed.emplace_back("the shop file");
    if (now.template_text != print.template_text) changed.emplace_back("the template");
    if (now.program_version != print.print.program_version) changed.emplace_back("the program");
  }
  if (last_entry > print.print.last_entry) {
    changed.push_back(print.print.last_entry + 1 == last_entry
                          ? fmt::format("entry {}", last_entry)
                          : fmt::format("entries {} to {}", print.print.last_entry + 1, last_entry));
  }
  if (changed.empty()) changed.emplace_back("other orders, or the hour");
  return changed;
}

/// "\"Cure\" from 2027-05-05 08:00 to 2027-05-06 08:00", or what of it moved is its end.
std::string moved_text(const std::string& name, Interval before, Interval now, const Zone& zone) {
  const std::string from = when(zone, before.from), to = when(zone, now.from);
  if (from != to) return fmt::format("{} from {} to {}", name, from, to);
  return fmt::format("{} until {} instead of {}", name, when(zone, now.to), when(zone, before.to));
}

/// "\"Cure\" from 2027-05-05 08:00 to 2027-05-06 08:00; also \"Turn\"; new \"Oil\"; no more \"Wax\"".
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
  if (!also.empty()) parts.push_back(fmt::format("also {}", fmt::join(also, ", ")));
  if (!added.empty()) parts.push_back(fmt::format("new {}", fmt::join(added, ", ")));
  if (!gone.empty()) parts.push_back(fmt::format("no more {}", fmt::join(gone, ", ")));
  return fmt::format("{}", fmt::join(parts, "; "));
}

bool is_other_day(const Zone& zone, Instant a, Instant b) { return date_of(zone, a) != date_of(zone, b); }

/// Does the routing say something else of it? It shows days, and how long what runs unattended takes.
bool shows_in_routing(const MovedOperation& moved, const OperationFacts& facts, const Zone& zone) {
  const Interval before = *moved.before, now = *moved.now;
  const bool has_length = facts.hands_on.value != HandsOnWhen::throughout;
  return is_other_day(zone, before.from, now.from) || is_other_day(zone, before.to, now.to) ||
         (has_length && now.to - now.from != before.to - before.from);
}

/// The printed pages that show what moved: cards show the day on which it begins.
std::vector<std::string> old_pages(const std::vector<MovedOperation>& moved, const PlacedTimes& times,
                                   const Zone& zone) {
  bool routing = false, bath = false, oven = false;
  for (const MovedOperation& one : moved) {
    const auto facts = std::ranges::find(times.routing, one.name, [](const auto* row) { return row->name.value; });
    routing = routing || !one.before || !one.now || shows_in_routing(one, **facts, zone);
    if (!one.before || !one.now || !is_other_day(zone, one.before->from, one.now->from) || !(*facts)->planned)
      continue;
    bath = bath || (*facts)->planned->value == PlannedWork::vacuum;
    oven = oven || (*facts)->planned->value == PlannedWork::cure;
  }
  std::vector<std::string> pages;
  if (routing) pages.emplace_back("routing");
  if (bath) pages.emplace_back("bath card");
  if (oven) pages.emplace_back("oven card");
  if (pages.empty()) pages.emplace_back("none");
  return pages;
}

}  // namespace

std::vector<std::string> what_moved(const ReadRun& read, const PlannedTogether& planned) {
  std::vector<std::string> out(planned.orders.size());
  auto known = Register::open_to_read(read.register_file);
  if (!known) return out;
  const Zone& zone = read.inputs.shop.zone.value;
  const EntryNumber last_entry = known->last_entry();
  for (std::size_t i = 0; i < planned.orders.size(); ++i) {
    const PlannedOrder& order = planned.orders.at(i);
    const PlacedTimes& times = *planned.plan.orders.at(i).times;
    const auto print = known->print_of_order(order.id);
    if (!print) continue;
    const auto before = read_kept_plan(print->plan);
    const auto moved = moved_since(before, times);
    if (before.empty() || moved.empty()) continue;
    const Instant finish = std::ranges::max(before, {}, [](const KeptOperation& one) { return one.at.to; }).at.to;
    out.at(i) = fmt::format(
        "  since print {} of {}, moved: {}\n  finish {}{}; moved by: {}; printed pages with old times: {}\n",
        print->print.number, when(zone, print->print.made), moved_text(moved, zone), when(zone, times.planned.finish),
        finish == times.planned.finish ? std::string{" as before"} : fmt::format(", was {}", when(zone, finish)),
        fmt::join(what_changed(*print, read, order, last_entry), ", "),
        fmt::join(old_pages(moved, times, zone), ", "));
  }
  return out;
}

}  // namespace blankwright

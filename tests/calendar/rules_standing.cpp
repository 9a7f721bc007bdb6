#include <fmt/format.h>

#include <algorithm>

#include "rules.h"

namespace calendar_rules {
namespace {

/// What was done to blanks of an order at one step: when the first of them was begun, and when they were ended.
struct Past {
  std::optional<Span> at;
  Instant first_end;
  int blanks = 0;
};
Past past_of(const Planned& planned, const std::string& order, std::size_t step) {
  Past past;
  for (const auto& [id, blank] : planned.ledger) {
    const auto done = blank.done.find(step);
    if (blank.order != order || done == blank.done.end()) continue;
    const Span& at = done->second;
    past.first_end = past.at ? std::min(past.first_end, at.to) : at.to;
    past.at = past.at ? Span{std::min(past.at->from, at.from), std::max(past.at->to, at.to)} : at;
    ++past.blanks;
  }
  return past;
}

void check_past(const Planned& planned, const std::string& order, const PlannedOperation& op, std::size_t step,
                Breaches& out) {
  const Past past = past_of(planned, order, step);
  const auto run = std::ranges::find(op.runs, true, &Run::done);
  const std::string name = fmt::format("{} of {}", op.name, order);
  if (run == op.runs.end()) {
    if (past.at)
      out.push_back({"past", fmt::format("{}: done {}, and not told", name, text_of(planned.zone, *past.at))});
    return;
  }
  if (!past.at) {
    out.push_back({"past", fmt::format("{}: told as done {}", name, text_of(planned.zone, run->at))});
    return;
  }
  if (run->at.to != past.at->to || run->at.from < past.at->from || run->at.from > past.first_end)
    out.push_back({"past", fmt::format("{}: told as done {}, it was {}", name, text_of(planned.zone, run->at),
                                       text_of(planned.zone, *past.at))});
  if (run->blanks != past.blanks)
    out.push_back({"past", fmt::format("{}: done to {} blanks, told of {}", name, past.blanks, run->blanks)});
}

/// What goes on with blanks of an order at one step, by when it began and where.
using GoesOn = std::map<std::tuple<Instant, std::string, std::string>, int>;
GoesOn goes_on(const Planned& planned, const std::string& order, std::size_t step) {
  GoesOn all;
  for (const auto& [id, blank] : planned.ledger) {
    if (blank.order != order || blank.over || !blank.going_on || blank.going_on->step != step) continue;
    ++all[{blank.going_on->since, blank.going_on->place, blank.going_on->name}];
  }
  return all;
}

void check_told_to_go_on(const Planned& planned, const std::string& order, const PlannedOperation& op,
                         std::size_t step, Breaches& out) {
  GoesOn told;
  for (const Run& run : op.runs) {
    if (run.begun && !run.done) told[{run.at.from, run.resource, run.name}] += run.blanks;
  }
  const GoesOn real = goes_on(planned, order, step);
  const auto text = [&](const GoesOn& all) {
    std::string words;
    for (const auto& [key, blanks] : all)
      words += fmt::format(" {} since {} in {} {},", blanks, planned.zone.clock_text(std::get<0>(key)),
                           std::get<1>(key), std::get<2>(key));
    return words.empty() ? " nothing" : words;
  };
  const bool alike = std::ranges::equal(told, real, [](const auto& a, const auto& b) {
    return a.first == b.first && (a.second == 0 || a.second == b.second);
  });
  if (!alike)
    out.push_back({"goes on", fmt::format("{} of {}: told{} and it is{}", op.name, order, text(told), text(real))});
}

/// Each blank for which an operation is open has it planned once, where the plan tells for how many it is.
void check_open(const Planned& planned, const std::string& order, const PlannedOperation& op, std::size_t step,
                Breaches& out) {
  const int open = open_of(planned, order, step).blanks;
  int told = 0, runs = 0, most = 0;
  bool all_told = true;
  for (const Run& run : op.runs) {
    if (run.begun || run.done) continue;
    told += run.blanks;
    most = std::max(most, run.blanks);
    all_told = all_told && run.blanks > 0;
    ++runs;
  }
  const std::string text =
      fmt::format("{} of {}: open for {} blanks, planned for {} in {} runs", op.name, order, open, told, runs);
  if (open > 0 && runs == 0) out.push_back({"blank lost", text});
  if (open == 0 && runs > 0) out.push_back({"blank twice", text});
  if (!all_told || runs == 0) return;
  const Work work = planned.shop.routing.at(step).planned;
  // Of what is done load by load each run is told of all that go through it so.
  const bool load_by_load = runs > 1 && (work == Work::drying || work == Work::cooling || work == Work::cure);
  if (told < open) out.push_back({"blank lost", text});
  if (told > open && !(load_by_load && most <= open)) out.push_back({"blank twice", text});
}

}  // namespace

void check_standing(const Planned& planned, Breaches& out) {
  for (const auto& [id, plan] : planned.plans) {
    for (const PlannedOperation& op : plan.schedule) {
      const std::size_t step = step_called(planned.shop, op.name);
      check_past(planned, id, op, step, out);
      check_told_to_go_on(planned, id, op, step, out);
      check_open(planned, id, op, step, out);
    }
  }
}

}  // namespace calendar_rules

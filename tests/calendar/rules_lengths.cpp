#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "lengths.h"
#include "rules.h"

namespace calendar_rules {
namespace {

using std::chrono::days;

/// What the plan gives its time is rounded to a minute.
constexpr Minutes slack{1};

constexpr Minutes usual_least_part{15};  // manual, `routing[].least_part`

Minutes worked(const Doing& doing) {
  Minutes sum{0};
  for (const HandsOn& part : doing.run.hands_on) sum += part.at.length();
  return sum;
}

/// Parts of work that nothing stands between.
std::vector<Span> parts_of(const Doing& doing) {
  std::vector<Span> spans;
  for (const HandsOn& part : doing.run.hands_on) spans.push_back(part.at);
  return joined(std::move(spans));
}

/// Done in part, it takes the time for the pieces that are left and no second one for setting up.
bool was_set_up(const Planned& planned, const Chain& chain, const Doing& doing) {
  return std::ranges::any_of(planned.ledger, [&](const auto& one) {
    const auto& [id, blank] = one;
    const bool is_past =
        !blank.over && blank.next > doing.step && is_done_to(planned.shop, doing.step, blank.witness);
    if (!is_past || !planned.plans.contains(blank.order)) return false;
    if (chain.kind == Chain::Kind::under_way) return blank.bath == chain.name;
    return std::ranges::any_of(planned.plans.at(blank.order).baths, [&](const PlannedBath& bath) {
      return bath.number == chain.bath && std::ranges::find(bath.blanks, id) != bath.blanks.end();
    });
  });
}

/// What work of a chain whose runs tell their blanks has to take: the one, or where it is set up already, the other.
void check_work(const Planned& planned, const Chain& chain, const Doing& doing, Breaches& out) {
  const int pieces = std::accumulate(doing.blanks.begin(), doing.blanks.end(), 0,
                                     [](int sum, const auto& one) { return sum + one.second; });
  const Minutes fresh = least_length(planned, chain, doing, pieces);
  const Minutes fixed = operation(planned, doing).fixed.value_or(Minutes{0});
  const Minutes wanted = was_set_up(planned, chain, doing) ? fresh - fixed : fresh;
  if (worked(doing) != wanted)
    out.push_back(
        {"length", fmt::format("{}: {} min of work for {} blanks instead of {}", text_of(planned, chain, doing),
                               worked(doing).count(), pieces, wanted.count())});
}

/// All work at one step of an order's own: its runs do not tell their blanks, but together they are for all of them.
void check_own_work(const Planned& planned, const Chain& chain, std::size_t step, Breaches& out) {
  const Operation& op = planned.shop.routing.at(step);
  Minutes sum{0};
  int runs = 0;
  for (const Doing& doing : chain.doings) {
    if (doing.step != step) continue;
    sum += worked(doing);
    ++runs;
  }
  const Open open = open_of(planned, chain.name, step);
  const Minutes fixed = op.fixed.value_or(Minutes{0});
  for (int set_up = open.any_past ? 0 : 1; set_up <= runs; ++set_up) {
    if (sum == set_up * fixed + open.blanks * op.per_piece.value_or(Minutes{0})) return;
  }
  out.push_back({"length", fmt::format("{} of {}: {} min of work in {} runs, for {} blanks", op.name, chain.name,
                                       sum.count(), runs, open.blanks)});
}

void check_throughout(const Planned& planned, const Chain& chain, const Doing& doing, Breaches& out) {
  const Operation& op = operation(planned, doing);
  const std::string text = text_of(planned, chain, doing);
  const std::vector<Span> parts = parts_of(doing);
  const bool spans_run = parts.empty()
                             ? doing.run.at.length() == Minutes{0}
                             : parts.front().from == doing.run.at.from && parts.back().to == doing.run.at.to;
  if (!spans_run) out.push_back({"hands", text + ": nobody is at its beginning or its end"});
  if (op.most && doing.run.at.length() > std::max(*op.most, worked(doing)))
    out.push_back({"most", fmt::format("{}: at most {} min", text, op.most->count())});
  const Minutes least = std::min(op.least_part.value_or(usual_least_part), worked(doing));
  for (const Span& part : parts) {
    if (part.length() < least)
      out.push_back({"least part", fmt::format("{}: {}", text, text_of(planned.zone, part))});
  }
}

void check_by_the_clock(const Planned& planned, const Chain& chain, const Doing& doing, Breaches& out) {
  const Operation& op = operation(planned, doing);
  const Run& run = doing.run;
  const std::string text = text_of(planned, chain, doing);
  const Minutes length = least_length(planned, chain, doing, 0);
  const Minutes hands = hands_time(op, length);
  std::vector<Span> wanted;
  if (!run.begun) wanted.push_back({run.at.from, run.at.from + hands});
  if (op.hands == Hands::ends || op.turnaround_days) wanted.push_back({run.at.to - hands, run.at.to});
  if (parts_of(doing) != joined(wanted))
    out.push_back(
        {"hands", fmt::format("{}: {} min in {} parts", text, worked(doing).count(), parts_of(doing).size())});
  const Minutes least = std::max(length, hands * (op.hands == Hands::ends ? 2 : 1));
  const char* rule = op.planned == Work::soak ? "soak" : "length";
  if (run.at.length() + slack < least)
    out.push_back({rule, fmt::format("{}: {} min, at least {}", text, run.at.length().count(), least.count())});
  if (run.begun) {  // it may run too long already, or nobody is there to end it
    const auto is_told = [&](const std::string& id) { return planned.plans.at(id).warns("runs-too-long", op.name); };
    if (op.most && run.at.length() > *op.most && !std::ranges::any_of(chain.orders(), is_told))
      out.push_back({"most", fmt::format("{}: at most {} min, and it is not told", text, op.most->count())});
    return;
  }
  if (!op.may_run_long && !op.turnaround_days && run.at.length() > least + slack)
    out.push_back({"length", fmt::format("{}: {} min instead of {}", text, run.at.length().count(), least.count())});
  if (op.may_run_long && op.most && run.at.length() > std::max(*op.most, least + slack))
    out.push_back({"most", fmt::format("{}: at most {} min", text, op.most->count())});
}

/// So many pieces a day at most, over all orders, and each batch within its day.
void check_batches(const Planned& planned, const std::vector<Chain>& chains, Breaches& out) {
  std::map<std::pair<std::size_t, Date>, int> pieces;
  for (const Chain& chain : chains) {
    for (const Doing& doing : chain.doings) {
      const Operation& op = operation(planned, doing);
      if (!op.most_a_day || doing.run.at.length() == Minutes{0}) continue;
      const Date day = planned.zone.date_of(doing.run.at.from);
      if (planned.zone.date_of(doing.run.at.to - Minutes{1}) != day)
        out.push_back({"batch of a day", text_of(planned, chain, doing) + ": over midnight"});
      for (const auto& [order, blanks] : doing.blanks) pieces[{doing.step, day}] += blanks;
    }
  }
  for (const auto& [key, count] : pieces) {
    const Operation& op = planned.shop.routing.at(key.first);
    if (count > *op.most_a_day)
      out.push_back({"batch of a day", fmt::format("{} of {} pieces on {}", op.name, count, date_text(key.second))});
  }
}

}  // namespace

void check_lengths(const Planned& planned, const std::vector<Chain>& chains, Breaches& out) {
  for (const Chain& chain : chains) {
    std::set<std::size_t> own;
    for (const Doing& doing : chain.doings) {
      if (operation(planned, doing).hands != Hands::throughout || operation(planned, doing).turnaround_days) {
        check_by_the_clock(planned, chain, doing, out);
        continue;
      }
      check_throughout(planned, chain, doing, out);
      if (chain.kind == Chain::Kind::order) {
        own.insert(doing.step);
      } else {
        check_work(planned, chain, doing, out);
      }
    }
    for (const std::size_t step : own) check_own_work(planned, chain, step, out);
  }
  check_batches(planned, chains, out);
}

}  // namespace calendar_rules

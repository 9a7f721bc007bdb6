#include "work.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

namespace calendar_rules {
namespace {

/// Rows of a table of entries, which are to come in the order of what they tell.
class EntriesTable {
 public:
  explicit EntriesTable(const Zone& zone) : zone_{zone} {}

  /// `says`: the fields of the entry, as columns of the table.
  void add(const char* kind, const std::string& blank, Instant at, std::map<std::string, std::string> says = {}) {
    rows_.push_back({at, fmt::format("{},{},{}", kind, blank, zone_.text(at)), std::move(says)});
  }

  std::string text() {
    static constexpr std::array columns{"bath", "vessel",    "load",   "oven", "board",
                                        "mass", "operation", "filled", "hard", "reason"};
    std::ranges::stable_sort(rows_, {}, &Row::at);
    std::string out = "kind,blank,at";
    for (const char* column : columns) out += fmt::format(",{}", column);
    out += "\n";
    for (Row& row : rows_) {
      out += row.begins;
      for (const char* column : columns) out += fmt::format(",{}", row.says[column]);
      out += "\n";
    }
    return rows_.empty() ? "" : out;
  }

 private:
  struct Row {
    Instant at;
    std::string begins;
    std::map<std::string, std::string> says;
  };
  const Zone& zone_;
  std::vector<Row> rows_;
};

/// Glue sets, what came out of the oven cools, and what is made elsewhere is sent off: nobody enters that it begins.
bool begins_by_itself(const Operation& op) {
  return op.planned == Work::cooling || op.planned == Work::glue_setting || op.turnaround_days ||
         (op.planned == Work::no && op.hands == Hands::start && op.unattended.value_or(false));
}

/// The shop at its work.
class Worker {
 public:
  Worker(Chance& chance, const Planned& planned, const Pace& pace, Ledger& ledger)
      : chance_{chance}, planned_{planned}, pace_{pace}, ledger_{ledger}, table_{planned.zone} {}

  /// Steps of a chain that one load of the oven after the other goes through are worked at load by load.
  void work_at(const Chain& chain) {
    if (chain.kind == Chain::Kind::order && chance_.yes(pace_.lags)) return;
    std::map<std::size_t, int> turn;                    // by step
    std::map<std::size_t, std::set<std::string>> took;  // likewise
    for (const Doing& doing : chain.doings) {
      const auto turns = static_cast<int>(std::ranges::count(chain.doings, doing.step, &Doing::step));
      auto blanks = blanks_of(chain, doing, turn[doing.step]++, turns);
      if (chain.kind == Chain::Kind::order && turns > 1) keep_ready(doing, took[doing.step], blanks);
      work_at(chain, doing, std::move(blanks));
    }
  }

  std::string done() {
    scrap();
    for (auto& [id, blank] : ledger_) note_what_goes_on(blank);
    return table_.text();
  }

 private:
  Instant late(Instant planned) const { return planned + pace_.late; }
  bool is_past(Instant planned) const { return late(planned) <= pace_.until; }

  std::vector<std::string> blanks_of(const Chain& chain, const Doing& doing, int turn, int turns) const {
    std::vector<std::string> all;
    for (const std::string& order : chain.orders()) {
      const Plan& plan = planned_.plans.at(order);
      for (const PlannedBath& bath : plan.baths) {
        if (chain.kind == Chain::Kind::bath && bath.number == chain.bath) all = bath.blanks;
      }
      if (chain.kind == Chain::Kind::order) all = plan.blanks();
    }
    if (doing.run.load) {
      for (const std::string& order : chain.orders()) {
        for (const PlannedLoad& load : planned_.plans.at(order).loads) {
          if (load.number == *doing.run.load) return load.blanks;
        }
      }
    }
    std::erase_if(
        all, [&](const std::string& id) { return !is_done_to(planned_.shop, doing.step, ledger_.at(id).witness); });
    if (turns == 1 || chain.kind == Chain::Kind::order) return all;
    const auto size = (static_cast<int>(all.size()) + turns - 1) / turns;
    const auto first = std::min<std::ptrdiff_t>(std::ssize(all), turn * size);
    const auto last = std::min<std::ptrdiff_t>(std::ssize(all), first + size);
    return {all.begin() + first, all.begin() + last};
  }

  /// Of what an order does by itself in several runs each takes as many as it is planned for: of those that are
  /// there by then, and that none before it took.
  void keep_ready(const Doing& doing, std::set<std::string>& took, std::vector<std::string>& blanks) const {
    std::erase_if(blanks, [&](const std::string& id) {
      const BlankSeen& blank = ledger_.at(id);
      return took.contains(id) || blank.next > doing.step || !is_there(blank, doing);
    });
    const auto planned = static_cast<std::size_t>(doing.run.blanks);
    if (planned > 0 && blanks.size() > planned) blanks.resize(planned);
    took.insert(blanks.begin(), blanks.end());
  }

  /// Is it through the step before?
  bool is_there(const BlankSeen& blank, const Doing& doing) const {
    for (std::size_t step = doing.step; step-- > 0;) {
      const bool passes_over = !applies(planned_, blank.order, planned_.shop.routing.at(step)) ||
                               !is_done_to(planned_.shop, step, blank.witness);
      if (passes_over) continue;
      const auto done = blank.done.find(step);
      return done != blank.done.end() && done->second.to <= late(doing.run.at.from);
    }
    return true;
  }

  void work_at(const Chain& chain, const Doing& doing, std::vector<std::string> blanks) {
    std::erase_if(blanks, [&](const std::string& id) { return ledger_.at(id).next > doing.step; });
    if (!is_past(doing.run.at.from) || blanks.empty()) return;
    const std::string name = name_of(chain, doing);
    begin(chain, doing, blanks, name);
    if (!is_past(doing.run.at.to)) {
      if (operation(planned_, doing).hands == Hands::throughout) blanks.resize(part_done(doing, blanks.size()));
      if (operation(planned_, doing).hands != Hands::throughout) return;
      end(doing, blanks, name, {late(doing.run.at.from), pace_.until});
      return;
    }
    end(doing, blanks, name, {late(doing.run.at.from), late(doing.run.at.to)});
  }

  /// As many pieces as the time so far was enough for.
  std::size_t part_done(const Doing& doing, std::size_t all) {
    const Operation& op = operation(planned_, doing);
    if (!op.per_piece || *op.per_piece == Minutes{0} || !chance_.yes(pace_.part_entered)) return 0;
    Minutes worked{0};
    for (const HandsOn& part : doing.run.hands_on)
      worked += overlap(part.at, {part.at.from, std::max(part.at.from, pace_.until - pace_.late)});
    const auto pieces = (worked - op.fixed.value_or(Minutes{0})) / *op.per_piece;
    return std::min(all - 1, static_cast<std::size_t>(std::max<long>(0, pieces)));
  }

  /// As the shop calls the bath or the load: no two alike.
  std::string name_of(const Chain& chain, const Doing& doing) {
    const Work work = operation(planned_, doing).planned;
    if (work == Work::drying) return fmt::format("D{}", ++drying_loads_);
    if (work == Work::cure) return fmt::format("L{}", doing.run.load.value_or(0));
    return fmt::format("B{}", chain.bath);
  }

  void begin(const Chain& chain, const Doing& doing, const std::vector<std::string>& blanks,
             const std::string& name) {
    const Work work = operation(planned_, doing).planned;
    const Instant at = late(doing.run.at.from);
    for (const std::string& id : blanks) {
      BlankSeen& blank = ledger_.at(id);
      if (work == Work::drying) table_.add("into-drying", id, at, {{"load", name}, {"oven", doing.run.resource}});
      if (work == Work::vacuum) table_.add("into-bath", id, at, {{"bath", name}, {"vessel", doing.run.resource}});
      if (work == Work::cure) table_.add("into-oven", id, at, {{"load", name}, {"oven", doing.run.resource}});
      if (work == Work::vacuum) blank.bath = name;
      // Released, it soaks already, whenever that was planned to begin.
      if (work == Work::drying || work == Work::vacuum || work == Work::cure)
        blank.going_on = GoingOn{doing.step, at, doing.run.resource, name};
    }
    if (work != Work::vacuum) return;
    table_.add("vacuum-on", "", at, {{"bath", name}});
    Minutes pumps_down{0};
    for (const std::string& order : chain.orders())
      pumps_down = std::max(pumps_down, planned_.plans.at(order).pumps_down);
    if (at + pumps_down <= pace_.until) table_.add("target-reached", "", at + pumps_down, {{"bath", name}});
  }

  void end(const Doing& doing, const std::vector<std::string>& blanks, const std::string& name, const Span& at) {
    const Operation& op = operation(planned_, doing);
    if (op.planned == Work::vacuum) table_.add("released", "", at.to, {{"bath", name}});
    for (const std::string& id : blanks) {
      BlankSeen& blank = ledger_.at(id);
      blank.next = doing.step + 1;
      blank.done[doing.step] = {blank.going_on ? blank.going_on->since : at.from, at.to};
      blank.going_on.reset();
      enter_end(op, id, at.to);
      // Released, it soaks.
      if (op.planned == Work::vacuum) blank.going_on = GoingOn{doing.step + 1, at.to, doing.run.resource, name};
    }
  }

  void enter_end(const Operation& op, const std::string& id, Instant at) {
    BlankSeen& blank = ledger_.at(id);
    if (op.planned == Work::vacuum) return;
    if (op.planned == Work::drying) return table_.add("out-of-drying", id, at);
    if (op.planned == Work::soak) return table_.add("out-of-bath", id, at);
    if (op.planned == Work::cure) return table_.add("out-of-oven", id, at);
    if (op.ended_by.empty()) return table_.add("done", id, at, {{"operation", op.name}});
    std::map<std::string, std::string> says;
    if (op.ended_by == "sawn") says["board"] = "1";
    if (op.ended_by == "weighed") {
      const double nominal = planned_.plans.at(blank.order).dry_mass_g;
      // What is not treated has no mass in its plan.
      says["mass"] = fmt::format("{:.1f} g", (nominal > 0 ? nominal : 60) * chance_.between(0.97, 1.03));
    }
    if (op.ended_by == "witness-cut") {
      says = {{"filled", "yes"}, {"hard", "yes"}};
      blank.over = true;
    }
    table_.add(op.ended_by.c_str(), id, at, says);
  }

  /// Only what lies about: who scraps what is in bath or oven takes it out first.
  void scrap() {
    for (auto& [id, blank] : ledger_) {
      if (blank.over || blank.next == 0 || blank.going_on || !chance_.yes(pace_.scrapped)) continue;
      table_.add("scrapped", id, pace_.until, {{"reason", "split"}});
      blank.over = true;
    }
  }

  /// What goes on by itself since the step before it was done.
  void note_what_goes_on(BlankSeen& blank) const {
    const auto passes_over = [&](std::size_t step) {
      return !applies(planned_, blank.order, planned_.shop.routing.at(step)) ||
             !is_done_to(planned_.shop, step, blank.witness);
    };
    while (blank.next < planned_.shop.routing.size() && passes_over(blank.next)) ++blank.next;
    if (blank.going_on || blank.over || blank.next == 0 || blank.next >= planned_.shop.routing.size()) return;
    const Operation& op = planned_.shop.routing.at(blank.next);
    const auto before = blank.done.empty() ? blank.done.end() : std::prev(blank.done.end());
    if (begins_by_itself(op) && before != blank.done.end())
      blank.going_on = GoingOn{blank.next, before->second.to, "", ""};
  }

  Chance& chance_;
  const Planned& planned_;
  const Pace& pace_;
  Ledger& ledger_;
  EntriesTable table_;
  int drying_loads_ = 0;
};

}  // namespace

void begin_ledger(Ledger& ledger, const std::map<std::string, Plan>& plans) {
  for (const auto& [order, plan] : plans) {
    for (const std::string& id : plan.pieces) ledger.try_emplace(id, BlankSeen{.order = order});
    for (const std::string& id : plan.witnesses) ledger.try_emplace(id, BlankSeen{.order = order, .witness = true});
  }
}

std::string work_by_plan(Chance& chance, const Planned& planned, const std::vector<Chain>& chains, const Pace& pace,
                         Ledger& ledger) {
  Worker worker{chance, planned, pace, ledger};
  for (const Chain::Kind kind : {Chain::Kind::bath, Chain::Kind::order}) {
    for (const Chain& chain : chains) {
      if (chain.kind == kind) worker.work_at(chain);
    }
  }
  return worker.done();
}

}  // namespace calendar_rules

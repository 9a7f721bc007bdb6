#include "plan/order/order_to_make.h"

#include <algorithm>
#include <map>
#include <span>

#include "measure/elapsed.h"
#include "plan/order/witnesses.h"
#include "plan/wood/dryness.h"

namespace blankwright {
namespace {

/// Finds where blanks stand, and gathers those that stand together.
class Gatherer {
 public:
  Gatherer(const Record& record, const std::string& order_id, const PlannedDurations& durations,
           const OrderPlan& plan, const Shop& shop)
      : record_{record},
        order_id_{order_id},
        routing_{routing_of(durations, shop)},
        hold_{durations.vacuum - durations.pump_down},
        plan_{plan},
        shop_{shop},
        past_(routing_.size()) {}

  BlankGroup group_of(const BlankState& blank) const {
    const BathState bath = bath_of(blank);
    BlankGroup group{.at = standing_of(blank, bath, routing_), .bath = blank.bath, .load = blank.load};
    (blank.witness ? group.witnesses : group.pieces) = 1;
    group.lowest = blank.id;
    send_back(blank, group);
    if (!group.at.begun && !blank.sealed_since && !group.again) group.waits_since = group.at.since;
    if (blank.stage == Stage::in_bath) group.vessel = bath.vessel;
    group.lies_in = lies_in(record_, blank);
    if (!blank.earlier_baths.empty()) {
      group.soaked_before = 1;
      group.soaked_again = blank.into_bath;
    }
    if (blank.is_drying) group.load = blank.drying_load;
    if (blank.is_drying || blank.stage == Stage::in_oven) {
      const auto load = record_.loads.find(group.load);
      if (load != record_.loads.end()) group.oven = load->second.oven;
    }
    const auto until = record_.in_oven_until.find(*blank.id);
    if (until != record_.in_oven_until.end()) group.runs_until = until->second;
    if (blank.stage == Stage::in_bath && bath.target_reached && !bath.released)
      group.runs_until = later(*bath.target_reached, hold_);
    const auto& from = bath.target_reached ? bath.target_reached : bath.vacuum_on;
    if (bath.released && from) group.held = between(*from, *bath.released);
    return group;
  }

  /// Takes a blank's past, and where it goes on, its place.
  void add(const BlankState& blank) {
    note_past(blank);
    const bool is_here = !blank.is_over() && blank.promised == order_id_ &&
                         std::ranges::find(record_.replaced, *blank.id) == record_.replaced.end();
    if (!is_here) return;
    BlankGroup one = group_of(blank);
    const auto same = std::ranges::find_if(groups_, [&](const BlankGroup& group) {
      return group.at.next == one.at.next && group.bath == one.bath && group.load == one.load &&
             group.at.begun == one.at.begun;
    });
    if (same == groups_.end()) {
      groups_.push_back(std::move(one));
      return;
    }
    same->pieces += one.pieces;
    same->witnesses += one.witnesses;
    same->soaked_before += one.soaked_before;
    same->soaked_again = std::max(same->soaked_again, one.soaked_again);
    same->runs_until = std::max(same->runs_until, one.runs_until);
    same->at.since = std::max(same->at.since, one.at.since);
    same->lowest = std::min(same->lowest, one.lowest);
    if (!same->waits_since || (one.waits_since && *one.waits_since < *same->waits_since))
      same->waits_since = one.waits_since;
  }

  void note_past(const BlankState& blank) {
    const BathState bath = bath_of(blank);
    for (std::size_t i = 0; i < routing_.size(); ++i) {
      const auto done = done_at(i, blank, bath, routing_);
      if (!done) continue;
      DoneBetween& past = past_.at(i);
      const Instant begun = std::min(*done, begun_at(*routing_[i], blank, bath).value_or(*done));
      past.at =
          past.at ? Interval{std::min(past.at->from, begun), std::max(past.at->to, *done)} : Interval{begun, *done};
      ++past.blanks;
      past.each.push_back(*done);
    }
  }

  std::vector<BlankGroup> groups() && { return std::move(groups_); }
  std::vector<DoneBetween> past() const { return past_; }

 private:
  /// What its weighings show to be moist stands before its drying again, and what took up too little resin before its
  /// bath, however far it was taken.
  void send_back(const BlankState& blank, BlankGroup& group) const {
    if (record_.soak_again.contains(*blank.id)) return send_back_to(PlannedWork::vacuum, group);
    if (blank.stage != Stage::begun) return;
    const auto seen =
        dryness(blank, dry_volume(blank, plan_.blank), plan_.process.drying, shop_.drying, blank.last_at);
    if (seen && (seen->answer == DryAnswer::dry_longer || seen->answer == DryAnswer::dry_again))
      send_back_to(PlannedWork::drying, group);
  }

  void send_back_to(PlannedWork work, BlankGroup& group) const {
    const auto found = std::ranges::find_if(routing_, [&](const OperationFacts* facts) { return facts->is(work); });
    const auto step = static_cast<std::size_t>(found - routing_.begin());
    if (found == routing_.end() || group.at.next <= step) return;
    group.again = true;
    group.at.next = step;
    group.at.begun.reset();
  }

  BathState bath_of(const BlankState& blank) const {
    const auto found = record_.baths.find(blank.bath);
    return blank.bath.empty() || found == record_.baths.end() ? BathState{} : found->second;
  }

  const Record& record_;
  const std::string& order_id_;
  std::vector<const OperationFacts*> routing_;
  Duration hold_;  ///< of the vacuum, from its target on
  const OrderPlan& plan_;
  const Shop& shop_;
  std::vector<BlankGroup> groups_;
  std::vector<DoneBetween> past_;
};

void set_bath(OrderToMake& to_make, const Order& order, const OrderPlan& plan) {
  to_make.resin = plan.process.resin;
  to_make.pieces_a_witness = pieces_a_witness(plan, order);
  if (!order.treatment->dye) return;
  to_make.dye = order.treatment->dye->value;
  const auto& dyes = plan.process.resin->dyes;
  const auto found = std::ranges::find(dyes, *to_make.dye, [](const auto& dye) { return dye.value; });
  to_make.darkness = static_cast<int>(found - dyes.begin()) + 1;
}

/// Where the blanks stand: those for which a bath is planned, or which have none, one by one, the others in groups.
void set_standing(OrderToMake& to_make, const Order& order, const Shop& shop, const OrderPlan& plan,
                  const Record& record) {
  Gatherer gatherer{record, order.id.value, to_make.durations, plan, shop};
  std::map<BlankId, const BlankState*> seen;
  for (const BlankState& blank : record.blanks) seen.emplace(*blank.id, &blank);
  const auto take = [&](std::span<const BlankId> blanks, int wanted, std::vector<BlankGroup>& waiting) {
    for (const BlankId& id : blanks) {
      const auto blank = seen.find(id);
      if (blank != seen.end() && !is_to_be_bathed(record, *blank->second)) gatherer.add(*blank->second);
    }
    for (const BlankId& id : to_be_bathed(record, blanks)) {
      if (std::ssize(waiting) >= wanted) break;
      const auto blank = seen.find(id);
      waiting.push_back(blank == seen.end() ? BlankGroup{} : gatherer.group_of(*blank->second));
      if (blank != seen.end()) gatherer.note_past(*blank->second);
    }
    while (!waiting.empty() && waiting.back().at.next == 0 && !waiting.back().at.begun) waiting.pop_back();
  };
  const std::span all{record.issued_to_order};
  const std::size_t pieces = all.size() - static_cast<std::size_t>(record.witnesses);
  take(all.first(pieces), to_make.pieces, to_make.waiting_pieces);
  take(all.subspan(pieces), to_make.witnesses, to_make.waiting_witnesses);
  const auto past = gatherer.past();
  if (std::ranges::any_of(past, [](const DoneBetween& one) { return one.blanks > 0; })) to_make.past = past;
  to_make.under_way = std::move(gatherer).groups();
}

}  // namespace

OrderToMake order_to_make(const Order& order, const Shop& shop, const OrderPlan& plan, const Record& record) {
  OrderToMake to_make;
  to_make.id = order.id.value;
  to_make.pieces = plan.start.pieces - plan.pieces_done;
  to_make.witnesses = plan.witnesses - plan.witnesses_done;
  to_make.started = plan.start.pieces;
  to_make.witnesses_started = plan.witnesses;
  to_make.due = order.due;
  to_make.quantity_at = order.quantity.at;
  to_make.durations = planned_durations(plan.process, shop);
  to_make.durations.witnessed = plan.witnesses > 0;
  to_make.holds_place = !record.issued_to_order.empty();
  if (plan.process.uptake) to_make.blank = bath_blank(plan.process, plan.blank);
  const bool any_left = to_make.pieces + to_make.witnesses > 0;
  if (any_left && plan.process.uptake && plan.process.bath_room > 0) set_bath(to_make, order, plan);
  to_make.sawn_section = plan.blank.sawn_section.value_or(plan.blank.squared_section);
  to_make.sawn_length = plan.blank.sawn_length.value_or(plan.blank.squared_length);
  if (!plan.process.ovens.empty()) {
    to_make.oven = plan.process.ovens.front().oven;
    to_make.cure = plan.process.ovens.front().cure;
    to_make.further_ovens.assign(plan.process.ovens.begin() + 1, plan.process.ovens.end());
  }
  set_standing(to_make, order, shop, plan, record);
  return to_make;
}

}  // namespace blankwright

// What is said to the bench about itself: units, tare, who enters, what is taken back.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "commands/at_register.h"
#include "commands/bench_session.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

constexpr std::array mass_units{"g", "kg", "oz", "lb"};
constexpr std::array length_units{"mm", "cm", "in"};

}  // namespace

BenchAnswer BenchSession::take_back() {
  if (after_all_ && after_all_->kind == EntryKind::corrected)
    return done(fmt::format("taken back (entry {})", *std::exchange(after_all_, std::nullopt)->replaces));
  if (added_.empty()) return refuse("nothing was entered in this session that is not taken back already");
  const auto entry = known_.entry(added_.back());
  Entry back;
  back.kind = EntryKind::corrected;
  back.blank = entry->blank;
  back.replaces = entry->number;
  back.person = person_;
  back.set(Field::reason, std::string{"taken back at the bench"});
  const Instant now = now_at(known_, around_);
  back.at = now;
  back.offset = local_time(shop_.zone.value, now).offset;
  const auto added = send(back, now);
  if (!added) {
    const Refusal& why = added.error().front().refusal;
    // Somebody has replaced it since: the one before is the next to be taken back.
    if (why.why == Refused::replaced_before) added_.pop_back();
    return refuse(why.text);
  }
  added_.pop_back();
  without_length_.reset();
  return done(fmt::format("taken back: {}{} (entry {})", entry->blank ? entry->blank->shown() + " " : "",
                          name_of(entry->kind), entry->number));
}

BenchAnswer BenchSession::set_unit(const std::string& typed) {
  const std::string unit = ascii_lower(typed);
  if (std::ranges::find(mass_units, unit) != mass_units.end()) {
    mass_unit_ = unit;
    return done(fmt::format("bare masses are in {}", unit));
  }
  if (std::ranges::find(length_units, unit) != length_units.end()) {
    length_unit_ = unit;
    return done(fmt::format("bare lengths are in {}", unit));
  }
  return refuse(fmt::format("units are {}, {}", fmt::join(mass_units, " "), fmt::join(length_units, " ")));
}

BenchAnswer BenchSession::set_tare(const std::string& typed) {
  const FieldFacts& field = facts_of(Field::tare);
  const auto value = read_field(field, typed, mass_unit_);
  if (!value) return refuse(value.error());
  const bool none = std::get<double>(*value) <= 0;
  tare_ = none ? std::nullopt : std::optional{std::get<double>(*value)};
  return done(none ? "masses are without tag"
                   : fmt::format("tag of {} taken off each mass", value_text(field, *value, shop_.units.value)));
}

BenchAnswer BenchSession::override_last(const std::string& reason) {
  if (!refused_) return refuse("nothing was refused that could be overridden");
  const auto text = read_field(text_beside_fields("override"), reason);
  if (!text) return refuse(reason.empty() ? "override needs a reason: override WHY" : text.error());
  Entry entry = *std::exchange(refused_, std::nullopt);
  entry.overridden = std::get<std::string>(*text);
  return add(std::move(entry));
}

BenchAnswer BenchSession::set_person(const std::string& typed) {
  const auto name = read_field(text_beside_fields("person"), typed);
  if (!name) return refuse(typed.empty() ? "person needs a name: person NAME" : name.error());
  person_ = std::get<std::string>(*name);
  return done(fmt::format("entered by {}", person_));
}

BenchAnswer BenchSession::end() {
  ended_ = true;
  const std::string lost = half_said();
  if (lost.empty()) return BenchAnswer::ok(fmt::format("{} entered", added_.size()));
  return BenchAnswer::no(fmt::format("{} was not entered; {} entered before", lost, added_.size()));
}

/// Pages that are no longer right have to be heard.
BenchAnswer BenchSession::check_page(const PageCode& code) {
  std::string wrong;
  const Instant now = now_at(known_, around_);
  const auto checked = checked_issue(known_, shop_, around_, code, now, wrong);
  if (!checked) return BenchAnswer::no(wrong);
  return checked->wrong().empty() ? done(in_a_line(*checked)) : BenchAnswer::no(in_a_line(*checked));
}

/// Lines that are about the session; none where the line is something else. A text that is asked for may begin with
/// any of their words: only those that stand alone, which is no sensible text, are then what they are otherwise.
std::optional<BenchAnswer> BenchSession::told(const std::string& word, const std::string& rest) {
  const bool text_is_due = any_text_is_due();
  const bool is_undo = word == "undo" || word == ascii_lower(undo_code);
  if (is_undo || word == "end" || word == "help" || word == "?") {
    if (text_is_due && !rest.empty()) return std::nullopt;
    if (!rest.empty()) return refuse(fmt::format("`{}` stands alone on its line", word));
    if (word == "end") return end();
    return is_undo ? take_back() : BenchAnswer{help() + question()};
  }
  if (text_is_due) return std::nullopt;
  if (word == "unit") return set_unit(rest);
  if (word == "tare") return set_tare(rest);
  if (word == "person") return set_person(rest);
  if (word == "override") return override_last(rest);
  return std::nullopt;
}

}  // namespace blankwright

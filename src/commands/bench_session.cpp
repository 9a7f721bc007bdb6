#include "commands/bench_session.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "measure/utf8.h"
#include "sheet/code_sheet.h"

namespace blankwright {
namespace {

constexpr std::array mass_units{"g", "kg", "oz", "lb"};
constexpr std::array length_units{"mm", "cm", "in"};

/// The first word and what follows it.
std::pair<std::string, std::string> parted(std::string_view line) {
  const std::size_t space = line.find(' ');
  if (space == std::string_view::npos) return {std::string{line}, {}};
  return {std::string{line.substr(0, space)}, std::string{trimmed(line.substr(space))}};
}

/// A figure as it arrives where a scanner types for a QWERTY keyboard and the machine has an AZERTY one.
std::string from_azerty(std::string_view typed) {
  static constexpr std::array<std::pair<std::string_view, char>, 12> keys{{{"&", '1'},
                                                                           {"é", '2'},
                                                                           {"\"", '3'},
                                                                           {"'", '4'},
                                                                           {"(", '5'},
                                                                           {"-", '6'},
                                                                           {"è", '7'},
                                                                           {"_", '8'},
                                                                           {"ç", '9'},
                                                                           {"à", '0'},
                                                                           {":", '.'},
                                                                           {",", 'm'}}};
  std::string out;
  while (!typed.empty()) {
    const auto* const key = std::ranges::find_if(keys, [&](const auto& k) { return typed.starts_with(k.first); });
    out += key == keys.end() ? typed.front() : key->second;
    typed.remove_prefix(key == keys.end() ? 1 : key->first.size());
  }
  return out;
}

/// Is a field said once for all blanks that follow? Figures are measured on each blank.
bool is_said_once(const KindFacts& kind, const FieldFacts& field) { return !kind.of_blank || !field.kind; }

}  // namespace

BenchSession::BenchSession(Register& known, const Shop& shop, const Clock& clock)
    : known_{known}, shop_{shop}, clock_{clock}, gates_{known, shop} {
  const bool metric = shop.units.value == UnitSystem::metric;
  mass_unit_ = metric ? "g" : "oz";
  length_unit_ = metric ? "mm" : "in";
}

std::string BenchSession::help() {
  std::string out =
      "Say what is done (a code from the sheet, or its name), then what is asked for. Besides:\n"
      "  unit g        the unit of bare figures: g kg oz lb, mm cm in\n"
      "  person Ada    who enters\n"
      "  tare 3        what the tag weighs that stays on, for every mass that follows; tare 0 ends that\n"
      "  undo          takes the last entry of this session back\n"
      "  override WHY  enters what was refused last, with a reason\n"
      "  end           ends\n"
      "What can be done:\n";
  for (const KindFacts& kind : kind_list()) {
    if (!kind.code.empty()) out += fmt::format("  {}  {:<16} {}\n", kind.code, kind.name, kind.says);
  }
  return out;
}

std::string BenchSession::refuse(std::string_view why) const { return fmt::format("NO {}\a", why); }

std::string_view BenchSession::unit_for(Kind kind) const {
  if (kind == Kind::mass) return mass_unit_;
  if (kind == Kind::length) return length_unit_;
  if (kind == Kind::share) return "%";
  return {};
}

bool BenchSession::has(Field field) const {
  const auto is_it = [&](const auto& said) { return said.first == field; };
  return std::ranges::any_of(once_, is_it) || std::ranges::any_of(figures_, is_it);
}

const FieldFacts* BenchSession::due() const {
  if (kind_ == nullptr) return nullptr;
  for (const FieldUse& use : kind_->fields) {
    const FieldFacts& field = facts_of(use.field);
    if (use.needed && !has(use.field) && (is_said_once(*kind_, field) || blank_)) return &field;
  }
  return nullptr;
}

std::string BenchSession::question() const {
  if (kind_ == nullptr) return "what is done?";
  const std::string about = blank_ ? blank_->shown() : std::string{kind_->name};
  if (const FieldFacts* field = due()) {
    if (!field->words.empty()) return fmt::format("{}: {}? ({})", about, field->name, fmt::join(field->words, ", "));
    const std::string_view unit = field->kind ? unit_for(*field->kind) : std::string_view{};
    return fmt::format("{}: {}{}?", about, field->name, unit.empty() ? "" : fmt::format(" in {}", unit));
  }
  return fmt::format("{}: scan a blank", about);
}

std::string BenchSession::begin(const KindFacts& kind) {
  const bool cut_short = blank_ && due() != nullptr;
  const std::string lost = cut_short ? fmt::format("; {} was not entered", blank_->shown()) : "";
  kind_ = &kind;
  once_.clear();
  figures_.clear();
  blank_.reset();
  refused_.reset();
  const std::string next = go_on();
  return cut_short ? fmt::format("NO {}{}\a", next, lost) : next;
}

std::string BenchSession::go_on() {
  if (due() != nullptr || (kind_->of_blank && !blank_)) return "OK " + question();
  return add();
}

std::string BenchSession::take_value(std::string_view typed) {
  const FieldFacts& field = *due();
  const std::string_view unit = field.kind ? unit_for(*field.kind) : std::string_view{};
  auto value = read_field(field, typed, unit);
  if (!value && field.kind) {
    if (auto mended = read_field(field, from_azerty(typed), unit)) value = std::move(mended);
  }
  if (!value) {
    // A blank where a figure is due: the figure was forgotten, and the blank is the next one.
    if (blank_ && field.kind && BlankId::read(typed)) {
      const std::string forgotten = fmt::format("{} has no {} and was not entered", blank_->shown(), field.name);
      figures_.clear();
      blank_.reset();
      return fmt::format("NO {}; {}\a", forgotten, take_blank(typed));
    }
    return refuse(value.error());
  }
  (is_said_once(*kind_, field) ? once_ : figures_).emplace_back(field.field, std::move(*value));
  return go_on();
}

std::string BenchSession::take_blank(std::string_view typed) {
  const auto id = BlankId::read(typed);
  if (!id) return refuse(in_words(id.error(), typed.substr(0, 40)));
  if (!known_.blank(*id)) return refuse(fmt::format("the register has no blank {}", id->shown()));
  blank_ = *id;
  return go_on();
}

std::string BenchSession::add() {
  Entry entry;
  entry.kind = kind_->kind;
  entry.blank = blank_;
  for (const auto& [field, value] : once_) entry.set(field, value);
  for (const auto& [field, value] : figures_) entry.set(field, value);
  if (entry.kind == EntryKind::weighed && tare_) entry.set(Field::tare, *tare_);
  figures_.clear();
  blank_.reset();
  if (!kind_->of_blank) {  // said once, and entered once
    kind_ = nullptr;
    once_.clear();
  }
  return add(std::move(entry));
}

std::string BenchSession::add(Entry entry) {
  const Instant now{std::chrono::seconds{clock_.now_unix()}};
  entry.at = not_said;
  entry.offset = local_time(shop_.zone.value, now).offset;
  entry.person = person_;
  const auto added = known_.add(std::array{entry}, now);
  if (!added) {
    refused_ = std::move(entry);
    return refuse(added.error().front().refusal.text);
  }
  refused_.reset();
  added_.push_back(added->front().number);
  const std::string says = says_text(entry, shop_.units.value);
  std::string out = fmt::format("OK {}{}{}{}", entry.blank ? entry.blank->shown() + " " : "", name_of(entry.kind),
                                says.empty() ? "" : ": ", says);
  const std::string against = gates_.against(added->front());
  bool holds = !against.empty();
  if (holds) out += " | " + against;
  if (entry.blank) {
    for (const Judged& judged : gates_.judge(*known_.blank(*entry.blank), now)) {
      out += " | " + judged.words;
      holds = holds || judged.is_wrong();
    }
  }
  return holds ? out + "\a" : out;
}

std::string BenchSession::take_back() {
  if (added_.empty()) return refuse("nothing was entered in this session that is not taken back already");
  const auto entry = known_.entry(added_.back());
  Entry back;
  back.kind = EntryKind::corrected;
  back.blank = entry->blank;
  back.replaces = entry->number;
  back.person = person_;
  back.set(Field::reason, std::string{"taken back at the bench"});
  const Instant now{std::chrono::seconds{clock_.now_unix()}};
  back.at = now;
  back.offset = local_time(shop_.zone.value, now).offset;
  const auto added = known_.add(std::array{back}, now);
  if (!added) {
    const Refusal& why = added.error().front().refusal;
    // Somebody has replaced it since: the one before is the next to be taken back.
    if (why.why == Refused::replaced_before) added_.pop_back();
    return refuse(why.text);
  }
  added_.pop_back();
  return fmt::format("OK taken back: {}{} (entry {})", entry->blank ? entry->blank->shown() + " " : "",
                     name_of(entry->kind), entry->number);
}

std::string BenchSession::set_unit(const std::string& typed) {
  const std::string unit = ascii_lower(typed);
  if (std::ranges::find(mass_units, unit) != mass_units.end()) {
    mass_unit_ = unit;
    return fmt::format("OK bare masses are in {}", unit);
  }
  if (std::ranges::find(length_units, unit) != length_units.end()) {
    length_unit_ = unit;
    return fmt::format("OK bare lengths are in {}", unit);
  }
  return refuse(fmt::format("units are {}, {}", fmt::join(mass_units, " "), fmt::join(length_units, " ")));
}

std::string BenchSession::set_tare(const std::string& typed) {
  const FieldFacts& field = facts_of(Field::tare);
  const auto value = read_field(field, typed, mass_unit_);
  if (!value) return refuse(value.error());
  const bool none = std::get<double>(*value) <= 0;
  tare_ = none ? std::nullopt : std::optional{std::get<double>(*value)};
  return none ? "OK masses are without tag" : "OK off each mass: " + value_text(field, *value, shop_.units.value);
}

std::string BenchSession::override_last(const std::string& reason) {
  if (!refused_) return refuse("nothing was refused that could be overridden");
  const auto text = read_field(facts_of(Field::reason), reason);
  if (!text) return refuse("override needs a reason: override WHY");
  Entry entry = *refused_;
  entry.overridden = std::get<std::string>(*text);
  return add(std::move(entry));
}

/// Lines that are about the session; none where the line is something else.
std::optional<std::string> BenchSession::told(const std::string& word, const std::string& rest) {
  if (word == "help" || word == "?") return help();
  if (word == "undo" || word == ascii_lower(undo_code)) return take_back();
  if (word == "unit") return set_unit(rest);
  if (word == "tare") return set_tare(rest);
  if (word == "override") return override_last(rest);
  if (word == "end") {
    ended_ = true;
    return fmt::format("OK {} entered", added_.size());
  }
  if (word == "person") {
    const auto name = read_field(facts_of(Field::remark), rest);
    if (!name) return refuse("person needs a name: person NAME");
    person_ = std::get<std::string>(*name);
    return fmt::format("OK entered by {}", person_);
  }
  return std::nullopt;
}

std::string BenchSession::answer(std::string_view line) {
  const std::string_view typed = trimmed(line);
  if (typed.empty()) return "OK " + question();
  const auto [word, rest] = parted(typed);
  if (auto said = told(ascii_lower(word), rest)) return std::move(*said);
  const auto kind = read_kind(word);
  // A verdict or a bath may be called like a kind; then it is what was asked for, unless it is a code.
  const bool asked_for_text = due() != nullptr && !due()->kind && find_code(word) == nullptr;
  if (kind && !asked_for_text) {
    std::string said = begin(**kind);
    return rest.empty() || !said.starts_with("OK") ? said : answer(rest);
  }
  if (kind_ == nullptr) return refuse(kind.error());
  const FieldFacts* field = due();
  if (field == nullptr) {
    std::string said = take_blank(word);
    if (rest.empty() || !said.starts_with("OK") || !blank_) {
      // IDs are also written with a space in them.
      if (!rest.empty() && !blank_ && BlankId::read(typed)) return take_blank(typed);
      return said;
    }
    return answer(rest);
  }
  if (field->is_name && !rest.empty()) {
    std::string said = take_value(word);
    return said.starts_with("OK") ? answer(rest) : said;
  }
  return take_value(typed);
}

}  // namespace blankwright

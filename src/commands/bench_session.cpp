#include "commands/bench_session.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "commands/at_register.h"
#include "commands/new_names.h"
#include "commands/scanner_layout.h"
#include "commands/shop_names.h"
#include "measure/utf8.h"
#include "sheet/sheet/code_sheet.h"

namespace blankwright {
namespace {

constexpr std::array own_words{"help", "?", "undo", "end", "unit", "tare", "person", "override"};
constexpr std::size_t longest_line = 1000;  // bytes

/// The first word and what follows it.
std::pair<std::string_view, std::string_view> parted(std::string_view line) {
  const std::size_t space = std::min(line.find(' '), line.size());
  return {line.substr(0, space), trimmed(line.substr(space))};
}

/// Whether any text will do: not the name of a thing, and none of some words.
bool is_any_text(const FieldFacts& field) {
  return !field.kind && field.form == TextForm::any && field.words.empty();
}

/// Is a field said once for all blanks that follow? Figures are measured on each blank.
bool is_said_once(const KindFacts& kind, const FieldFacts& field) { return !kind.of_blank || !field.kind; }

/// Are these sizes of a blank without its length?
bool may_have_length(const Entry& entry) {
  const bool of_sizes = entry.kind == EntryKind::measured || entry.kind == EntryKind::squared;
  return of_sizes && !entry.number_of(Field::length);
}

tl::expected<FieldValue, std::string> read_figure(const FieldFacts& field, std::string_view typed,
                                                  std::string_view unit) {
  auto value = read_field(field, typed, unit);
  if (value) return value;
  const auto meant = from_azerty(typed, unit);
  auto mended = meant ? read_field(field, *meant, unit) : value;
  return mended ? mended : value;
}

}  // namespace

BenchAnswer BenchAnswer::ok(std::string_view what) { return {fmt::format("OK {}", what)}; }

BenchAnswer BenchAnswer::no(std::string_view why) { return {fmt::format("NO {}", why), true}; }

BenchSession::BenchSession(Register& known, const Shop& shop, const Surroundings& around)
    : known_{known}, shop_{shop}, around_{around}, gates_{known, shop} {
  const bool metric = shop.units.value == UnitSystem::metric;
  mass_unit_ = metric ? "g" : "oz";
  length_unit_ = metric ? "mm" : "in";
}

std::string BenchSession::help() {
  std::string out =
      "Say what is done (scan its code, or type its name), then what is asked for. Besides:\n"
      "  128           after width and depth: the length, before the next blank\n"
      "  91 kPa        after the bath whose target was reached, on the same line: the gauge\n"
      "  unit g        the unit of bare figures: g kg oz lb, mm cm in\n"
      "  person Ada    who enters\n"
      "  tare 3        mass of the tag that stays on, taken off each mass that follows; tare 0 ends that\n"
      "  undo          takes the last entry of this session back; alone on its line, like help and end\n"
      "  override WHY  enters what was refused last, with a reason\n"
      "  TA-0147/2     the code of a page: is it still right\n"
      "  end           leaves the bench\n"
      "What can be done:\n";
  for (const KindFacts& kind : kind_list()) {
    if (!kind.code.empty()) out += fmt::format("  {}  {:<16} {}\n", kind.code, kind.name, kind.says);
  }
  return out;
}

BenchAnswer BenchSession::refuse(std::string why) {
  if (blank_) {
    why += fmt::format("; {} was not entered", blank_->shown());
    figures_.clear();
    blank_.reset();
  } else if (is_complete()) {
    why += fmt::format("; {} was not entered", about());
    kind_ = nullptr;
    once_.clear();
  } else if (due()) {
    why += "; " + question();
  }
  return BenchAnswer::no(why);
}

BenchAnswer BenchSession::done(std::string what) const {
  return BenchAnswer::ok(what + (due() ? "; " + question() : ""));
}

std::string_view BenchSession::unit_for(const FieldFacts& field) const {
  if (field.kind == Kind::mass) return mass_unit_;
  if (field.kind == Kind::length) return length_unit_;
  if (field.kind == Kind::share) return "%";
  return {};
}

bool BenchSession::has(Field field) const {
  const auto is_it = [&](const auto& said) { return said.first == field; };
  return std::ranges::any_of(once_, is_it) || std::ranges::any_of(figures_, is_it);
}

std::optional<FieldFacts> BenchSession::due() const {
  if (kind_ == nullptr) return std::nullopt;
  for (const FieldUse& use : kind_->fields) {
    const FieldFacts field = facts_of(use);
    if (use.needed && !has(use.field) && (is_said_once(*kind_, field) || blank_)) return field;
  }
  return std::nullopt;
}

bool BenchSession::any_text_is_due() const {
  const auto field = due();
  return field && is_any_text(*field);
}

bool BenchSession::is_complete() const { return kind_ != nullptr && !due() && (!kind_->of_blank || blank_); }

std::string BenchSession::about() const {
  if (blank_) return blank_->shown();
  std::string out{kind_->name};
  for (const auto& [name, value] : once_) {
    const FieldFacts& field = facts_of(name);
    out += fmt::format(", {} {}", field.name, value_text(field, value, shop_.units.value));
  }
  return out;
}

std::string BenchSession::question() const {
  if (kind_ == nullptr) return "what is done?";
  if (const auto field = due()) {
    if (!field->words.empty())
      return fmt::format("{}: {}? ({})", about(), field->name, fmt::join(field->words, ", "));
    const std::string_view unit = unit_for(*field);
    return fmt::format("{}: {}{}?", about(), field->name, unit.empty() ? "" : fmt::format(" in {}", unit));
  }
  return fmt::format("{}: scan a blank", about());
}

std::string BenchSession::half_said() const { return due() ? about() : std::string{}; }

const KindFacts* BenchSession::begun_by(std::string_view word) const {
  if (any_text_is_due()) return find_code(word);  // a reason may begin with any word
  return read_kind(word).value_or(nullptr);
}

void BenchSession::say(const FieldFacts& field, FieldValue value) {
  (is_said_once(*kind_, field) ? once_ : figures_).emplace_back(field.field, std::move(value));
}

std::optional<std::string> BenchSession::take(std::string_view& left) {
  if (const auto further = further_figure()) return take_figure(*further, left);
  if (is_complete()) return fmt::format("\"{}\" is more than {} asks for", left.substr(0, 40), kind_->name);
  const auto field = due();
  if (!field) return take_blank(left);
  if (take_in_blank(left)) return std::nullopt;
  return field->kind ? take_figure(*field, left) : take_text(*field, left);
}

/// Behind what a bath or a load needs, on the same line, stands what it may have besides: the gauge.
std::optional<FieldFacts> BenchSession::further_figure() const {
  if (!is_complete() || kind_->of_blank) return std::nullopt;
  for (const FieldUse& use : kind_->fields) {
    const FieldFacts field = facts_of(use);
    if (!use.needed && field.kind && !has(use.field)) return field;
  }
  return std::nullopt;
}

std::optional<std::string> BenchSession::take_figure(const FieldFacts& field, std::string_view& left) {
  const std::string_view typed = std::exchange(left, {});
  const std::string_view unit = unit_for(field);
  auto value = read_figure(field, typed, unit);
  if (!value) return value.error();
  say(field, std::move(*value));
  return std::nullopt;
}

std::optional<std::string> BenchSession::take_text(const FieldFacts& field, std::string_view& left) {
  // An ID is also written with a space in it; nothing that begins with one is a name or a reason.
  for (std::size_t end = 0; end != std::string_view::npos;) {
    end = left.find(' ', end + 1);
    if (auto fault = scanned_instead(field, left.substr(0, end))) return fault;
  }
  const auto [word, rest] = parted(left);
  const bool is_own = std::ranges::find(own_words, ascii_lower(word)) != own_words.end();
  if (field.form == TextForm::name && (is_own || read_kind(word))) {
    return fmt::format("{}: \"{}\" is what is done, not a {}", field.name, word, field.name);
  }
  auto value = read_field(field, is_any_text(field) ? std::exchange(left, {}) : word);
  if (!value) return value.error();
  if (!is_any_text(field)) left = rest;
  say(field, std::move(*value));
  return std::nullopt;
}

std::optional<std::string> BenchSession::take_blank(std::string_view& left) {
  const auto [word, rest] = parted(left);
  const auto first = BlankId::read(word);
  const auto id = first ? first : BlankId::read(left);  // IDs are also written with a space in them
  if (!id) return in_words(first.error(), word.substr(0, 40));
  if (!known_.blank(*id)) return fmt::format("the register has no blank {}", id->shown());
  blank_ = *id;
  left = first ? rest : std::string_view{};
  return std::nullopt;
}

/// A blank in whose middle something is measured may be scanned before what is asked for.
bool BenchSession::take_in_blank(std::string_view& left) {
  const auto is_it = [](const FieldUse& use) { return use.field == Field::in_blank; };
  if (std::ranges::none_of(kind_->fields, is_it) || has(Field::in_blank)) return false;
  const auto [word, rest] = parted(left);
  const auto first = BlankId::read(word);
  const auto id = first ? first : BlankId::read(left);
  if (!id) return false;
  once_.emplace_back(Field::in_blank, id->encoded());
  left = first ? rest : std::string_view{};
  return true;
}

/// A blank where a figure is due: the figure was forgotten, and the blank is the next one.
std::optional<BenchAnswer> BenchSession::next_blank(std::string_view typed) {
  if (!blank_ || !BlankId::read(typed)) return std::nullopt;
  const std::string forgotten = fmt::format("{} has no {} and was not entered", blank_->shown(), due()->name);
  figures_.clear();
  blank_.reset();
  if (const auto fault = take_blank(typed)) return BenchAnswer::no(fmt::format("{}; {}", forgotten, *fault));
  return BenchAnswer::no(fmt::format("{}; OK {}", forgotten, question()));
}

BenchAnswer BenchSession::add() {
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

std::optional<BenchAnswer> BenchSession::add_length(std::string_view typed) {
  const auto sizes = std::exchange(without_length_, std::nullopt);
  constexpr std::string_view named = "length=";
  if (ascii_lower(typed).starts_with(named)) typed.remove_prefix(named.size());
  if (!sizes || kind_ == nullptr || kind_->kind != sizes->kind || blank_ || BlankId::read(typed)) return std::nullopt;
  const auto length = read_figure(facts_of(Field::length), typed, length_unit_);
  if (!length) return std::nullopt;
  Entry entry = *sizes;
  entry.replaces = entry.number;
  entry.overridden.clear();
  entry.set(Field::length, *length);
  const std::size_t before = added_.size();
  BenchAnswer said = add(std::move(entry));
  if (added_.size() > before) added_.erase(added_.end() - 2);  // `undo` takes both back
  return said;
}

BenchAnswer BenchSession::add(Entry entry) {
  const Instant now = now_at(known_, around_);
  entry.at = not_said;
  entry.offset = local_time(shop_.zone.value, now).offset;
  entry.person = person_;
  if (const auto fault = name_from_shop(entry, shop_)) return refuse(*fault);
  if (is_there_already(entry)) return stands(*std::exchange(after_all_, std::nullopt), {}, now);
  const auto begun = new_names(known_, std::array{entry});
  const auto added = send(entry, now);
  if (!added) {
    refused_ = std::move(entry);
    return refuse(added.error().front().refusal.text);
  }
  added_.push_back(added->front().number);
  if (may_have_length(added->front())) without_length_ = added->front();
  after_all_ = added->front();  // until how it stands was told
  BenchAnswer said = stands(added->front(), begun, now);
  after_all_.reset();
  return said;
}

BenchAnswer BenchSession::stands(const Entry& entry, const std::vector<std::string>& begun, Instant now) {
  const std::string out = in_short(entry);
  const auto against = gates_.against(entry);
  std::string holds = against ? against->words : std::string{};
  std::string now_due;
  if (entry.blank) {
    for (const Judged& judged : gates_.judge(*known_.blank(*entry.blank), now)) {
      std::string& part = judged.is_wrong() ? holds : now_due;
      part += (part.empty() ? "" : " | ") + in_words(judged);
    }
  }
  if (const std::string held = gates_.held_by_cut(entry, now); !held.empty())
    holds += (holds.empty() ? "" : " | ") + held;
  for (const std::string& odd : gates_.oddities(entry)) holds += (holds.empty() ? "CHECK: " : " | CHECK: ") + odd;
  const std::string load = entry.blank ? std::string{} : entry.text(Field::load);
  if (const auto judged = load.empty() ? std::nullopt : gates_.judge_load(load, now)) now_due = in_words(*judged);
  if (!now_due.empty()) now_due = " | " + now_due;
  for (const HoldPassed& passed : gates_.holds_passed_by(entry))
    now_due = fmt::format(" | not entered: {}{}", in_words(passed), now_due);
  for (const std::string& line : begun) now_due = " | " + line + now_due;
  if (holds.empty()) return BenchAnswer::ok(out + now_due);
  return BenchAnswer::no(fmt::format("{} | {} | entered{}; `undo` takes it back{}", holds, out,
                                     against ? " all the same" : "", now_due));
}

BenchAnswer BenchSession::answer_to(std::string_view line) {
  std::string_view left = trimmed(line);
  if (left.empty()) return BenchAnswer::ok(question());
  if (left.size() > longest_line) return refuse(fmt::format("a line has at most {} letters", longest_line));
  const auto [word, rest] = parted(left);
  if (auto said = told(ascii_lower(word), std::string{rest})) return std::move(*said);
  refused_.reset();
  if (auto said = add_length(left)) return std::move(*said);
  const auto page = due() ? std::nullopt : read_page_code(left);
  if (page && known_.has_order(page->order)) return check_page(*page);
  if (const KindFacts* kind = begun_by(word)) {
    const std::string lost = half_said();
    kind_ = kind;
    once_.clear();
    figures_.clear();
    blank_.reset();
    if (!lost.empty()) return BenchAnswer::no(fmt::format("{} was not entered; OK {}", lost, question()));
    left = rest;
  } else if (kind_ == nullptr) {
    const auto as_one = read_kind(fmt::format("{}-{}", word, parted(rest).first));
    const std::string fault = read_kind(word).error();
    const bool two_words = !rest.empty() && !as_one && as_one.error().find("did you mean") != std::string::npos;
    return refuse(two_words && fault.find("did you mean") == std::string::npos ? as_one.error() : fault);
  }
  while (!left.empty()) {
    if (const auto field = due(); field && field->kind) {
      if (auto said = next_blank(left)) return std::move(*said);
    }
    if (auto fault = take(left)) return refuse(std::move(*fault));
  }
  return is_complete() ? add() : BenchAnswer::ok(question());
}

BenchAnswer BenchSession::too_long() { return refuse("this line is longer than any that can be said"); }

std::optional<BenchAnswer> BenchSession::broken_off(std::string_view rest) {
  std::vector<std::string> lost;
  if (!trimmed(rest).empty()) lost.emplace_back("the last line broke off before its line end and was not entered");
  if (!half_said().empty()) lost.push_back(half_said() + " was not entered");
  if (lost.empty()) return std::nullopt;
  return BenchAnswer::no(fmt::format("{}", fmt::join(lost, "; ")));
}

}  // namespace blankwright

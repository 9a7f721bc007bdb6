#include "read/entry_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "diagnose/failure.h"
#include "measure/nearest.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

constexpr std::size_t longest_name = 40;
constexpr std::size_t longest_text = 200;

std::string did_you_mean(std::string_view typed, const std::vector<std::string>& known) {
  const auto near = nearest_names(typed, known, 2);
  return near.empty() ? std::string{} : fmt::format("; did you mean {}?", fmt::join(near, " or "));
}

bool is_name(std::string_view text) {
  const auto fits = [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '_' ||
           c == '-';
  };
  return !text.empty() && text.size() <= longest_name && std::ranges::all_of(text, fits);
}

/// The unit in which a text ends, the longest of those that fit; none where it ends in another way.
const UnitName* unit_at_end(std::string_view typed, Kind kind) {
  const UnitName* found = nullptr;
  for (const UnitName& unit : unit_names()) {
    const bool fits =
        unit.kind == kind &&
        (unit.exact_case ? typed.ends_with(unit.written) : ascii_lower(typed).ends_with(ascii_lower(unit.written)));
    if (fits && (found == nullptr || unit.written.size() > found->written.size())) found = &unit;
  }
  return found;
}

/// An end of a range, at most a thousandth further in, so that what is said to be possible is.
enum class End { least, most };
double inward(double end, End which) {
  if (end == 0) return 0;
  const double scale = std::pow(10, 3 - std::floor(std::log10(std::abs(end))));
  constexpr double slack = 1e-6;  // what came of converting units
  return (which == End::least ? std::ceil(end * scale - slack) : std::floor(end * scale + slack)) / scale;
}

/// "width is between 0.001 and 1 m; 45 m is not", in the unit in which it was said.
std::string outside(const FieldFacts& field, std::string_view said, const UnitName& unit) {
  const auto end = [&](double si, End which) { return inward((si - unit.offset) / unit.factor, which); };
  double least = end(field.range.least, End::least), most = end(field.range.most, End::most);
  if (unit.kind == Kind::gauge_pressure) {  // below the air, and read without a sign
    std::swap(least, most);
    least = std::abs(least);
    most = std::abs(most);
  }
  return fmt::format("{} is between {} and {} {}; {} is not", field.name, least, most, unit.written, said);
}

/// What may have been meant by a figure outside the range: the same with a unit that differs in one letter.
std::string unit_slip(const FieldFacts& field, std::string_view said, const UnitName& unit) {
  const std::string_view figure = said.substr(0, said.size() - unit.written.size());
  for (const UnitName& other : unit_names()) {
    if (other.kind != unit.kind || edit_distance(other.written, unit.written) != 1) continue;
    const std::string meant = fmt::format("{}{}", figure, other.written);
    const auto si = read_si(meant, other.kind);
    if (si && field.range.holds(*si)) return fmt::format(": {}?", meant);
  }
  return {};
}

tl::expected<FieldValue, std::string> read_number(const FieldFacts& field, std::string_view typed,
                                                  std::string_view bare_unit) {
  std::string said{typed};
  auto si = read_si(said, *field.kind);
  if (!si && si.error().cause == QuantityFault::Cause::bare_number && !bare_unit.empty()) {
    said = fmt::format("{} {}", typed, bare_unit);
    si = read_si(said, *field.kind);
  }
  if (!si) {
    const QuantityFault& fault = si.error();
    const bool is_example = fault.hint == example(*field.kind);  // none of what was typed is in it
    const std::string hint = is_example           ? fmt::format("; such as {}", field.such_as)
                             : fault.hint.empty() ? std::string{}
                                                  : fmt::format("; write {}", fault.hint);
    return tl::make_unexpected(fmt::format("{}: {}{}", field.name, fault.message, hint));
  }
  const double value = *field.kind == Kind::gauge_pressure ? -std::abs(*si) : *si;
  if (field.range.holds(value)) return value;
  const UnitName* unit = unit_at_end(said, *field.kind);
  if (unit == nullptr) return tl::make_unexpected(*number_problem(field, value));  // a space that is none of ASCII
  return tl::make_unexpected(outside(field, said, *unit) + unit_slip(field, said, *unit));
}

tl::expected<std::string, std::string> read_text(const FieldFacts& field, std::string_view typed) {
  if (!field.words.empty()) {
    const std::string lower = ascii_lower(typed);
    if (std::ranges::find(field.words, std::string_view{lower}) != field.words.end()) return lower;
    return tl::make_unexpected(
        fmt::format("{} is one of {}, not \"{}\"", field.name, fmt::join(field.words, ", "), typed));
  }
  if (field.form == TextForm::blank_id) {
    const auto blank = BlankId::read(typed);
    if (!blank) return tl::make_unexpected(fmt::format("{}: {}", field.name, in_words(blank.error(), typed)));
    return blank->encoded();
  }
  if (field.form == TextForm::name) {
    if (is_name(typed)) return std::string{typed};
    if (field.field == Field::resin) {
      return tl::make_unexpected(fmt::format(
          "resin is the name of a lot, which is 1 to 40 of A-Z a-z 0-9 . _ -, not \"{}\": what was entered "
          "as resin-opened",
          typed.substr(0, longest_text)));
    }
    return tl::make_unexpected(
        fmt::format("{} is 1 to 40 of A-Z a-z 0-9 . _ -, not \"{}\"", field.name, typed.substr(0, longest_text)));
  }
  const auto text = normalised(typed);
  if (!text) return tl::make_unexpected(fmt::format("{}: {}", field.name, in_words(text.error())));
  if (code_point_count(*text) > longest_text) {
    return tl::make_unexpected(fmt::format("{} is longer than {} characters", field.name, longest_text));
  }
  return *text;
}

/// Adds a field to an entry, or says what is wrong with it.
void take_field(const KindFacts& kind, const std::string& name, const std::string& typed, Entry& entry,
                std::vector<std::string>& wrong) {
  const auto use = std::ranges::find(kind.fields, name, [](const FieldUse& u) { return facts_of(u.field).name; });
  if (use == kind.fields.end()) {
    std::vector<std::string> names;
    for (const FieldUse& other : kind.fields) names.emplace_back(facts_of(other.field).name);
    wrong.push_back(fmt::format("{} has no {}{}", kind.name, name, did_you_mean(name, names)));
    return;
  }
  const auto same = [&](const auto& said) { return said.first == use->field; };
  if (std::ranges::any_of(entry.values, same)) {
    wrong.push_back(fmt::format("{} is said twice", name));
    return;
  }
  auto value = read_field(facts_of(*use), typed);
  if (!value) {
    wrong.push_back(std::move(value.error()));
  } else {
    entry.set(use->field, std::move(*value));
  }
}

/// What a kind needs and the entry lacks. Of a field that was said and could not be read, that was told already.
void miss_fields(const SaidEntry& said, const Entry& entry, std::vector<std::string>& wrong) {
  for (const FieldUse& use : said.kind->fields) {
    const std::string_view name = facts_of(use.field).name;
    const bool is_given = std::ranges::any_of(said.values, [&](const auto& value) { return value.first == name; });
    const bool has = std::ranges::any_of(entry.values, [&](const auto& value) { return value.first == use.field; });
    if (use.needed && !has && !is_given) {
      const FieldFacts& field = facts_of(use.field);
      const std::string_view eg = field.kind             ? field.such_as
                                  : !field.words.empty() ? field.words.front()
                                                         : std::string_view{"..."};
      wrong.push_back(fmt::format("{} needs {} ({}): write \"{}={}\"", said.kind->name, name, field.says, name, eg));
    }
  }
}

std::string quantity_text(Kind kind, double si, UnitSystem units) {
  const Printing fine{units, Round::nearest, Fineness::measured};
  switch (kind) {
    case Kind::length:
      return text(si * metre, fine);
    case Kind::mass:
      return text(si * kilogram, units);
    case Kind::volume:
      return liquid_text(KindOf<Volume>::from_si(si), units);
    case Kind::share:
      return text(KindOf<Share>::from_si(si));
    case Kind::gauge_pressure:
      return text(KindOf<GaugePressure>::from_si(si), units);
    case Kind::temperature:
      return text(printed_to_a_tenth(KindOf<Temperature>::from_si(si), units));
    case Kind::force:
      return text(si * newton, units);
    case Kind::duration:
    case Kind::torque:
    case Kind::stress:
    case Kind::density:
    case Kind::angle:
    case Kind::rotational_speed:
    case Kind::volume_flow:
    case Kind::temperature_change:
    case Kind::absolute_pressure:
      break;
  }
  BW_EXPECT(false);  // no field is of another kind
  return {};
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

std::string in_words(IdFault fault, std::string_view typed) {
  switch (fault) {
    case IdFault::symbol:
      return fmt::format("{} is no blank's ID: those are of the symbols {}", typed, id_symbols);
    case IdFault::length:
      return fmt::format("{} is no blank's ID: those have seven symbols", typed);
    case IdFault::check:
      return fmt::format("{} is mistyped: its last symbol does not fit the others", typed);
  }
  return {};
}

std::optional<std::string> number_problem(const FieldFacts& field, double si) {
  if (field.range.holds(si)) return std::nullopt;
  const std::string_view usual = usual_unit(*field.kind);
  const UnitName* unit = unit_at_end(usual, *field.kind);
  return outside(field, fmt::format("{:g} {}", (si - unit->offset) / unit->factor, usual), *unit);
}

std::optional<std::string> scanned_instead(const FieldFacts& field, std::string_view typed) {
  if (field.field == Field::order || field.form == TextForm::blank_id) return std::nullopt;
  if (const auto blank = BlankId::read(typed)) {
    const std::string wanted = field.words.empty() ? fmt::format("not a {}", field.name)
                                                   : fmt::format("here it is {}", fmt::join(field.words, " or "));
    return fmt::format("{}: {} is a blank, {}", field.name, blank->shown(), wanted);
  }
  const bool names_ours = field.field == Field::bath || field.field == Field::load || field.field == Field::board;
  if (names_ours && BlankId::read(typed) == tl::make_unexpected(IdFault::check)) {
    return fmt::format("{0}: {1} looks like a blank's ID that is mistyped; a {0} has a name of another shape",
                       field.name, typed);
  }
  if (find_code(typed) == nullptr && ascii_lower(typed) != ascii_lower(undo_code)) return std::nullopt;
  return fmt::format("{}: {} is an action code, not a {}", field.name, typed, field.name);
}

tl::expected<FieldValue, std::string> read_field(const FieldFacts& field, std::string_view typed,
                                                 std::string_view bare_unit) {
  typed = trimmed(typed);
  if (typed.empty()) return tl::make_unexpected(fmt::format("{} is empty", field.name));
  if (field.kind) return read_number(field, typed, bare_unit);
  if (auto fault = scanned_instead(field, typed)) return tl::make_unexpected(std::move(*fault));
  return read_text(field, typed);
}

tl::expected<std::string, std::string> read_kept_text(const FieldFacts& field, std::string_view kept) {
  if (trimmed(kept).empty()) return tl::make_unexpected(fmt::format("{} is empty", field.name));
  return read_text(field, trimmed(kept));
}

tl::expected<Entry, std::vector<std::string>> read_entry(const SaidEntry& said) {
  const KindFacts& kind = *said.kind;
  std::vector<std::string> wrong;
  Entry entry;
  entry.kind = kind.kind;
  entry.at = said.at;
  entry.offset = said.offset;
  entry.replaces = said.replaces;
  if (kind.kind == EntryKind::issued) wrong.emplace_back("blanks are issued by compile, not by hand");
  if (kind.kind == EntryKind::corrected && !said.replaces) {
    wrong.emplace_back("corrected needs the number of the entry that was wrong");
  }
  if (!said.blank.empty()) {
    const auto blank = BlankId::read(said.blank);
    if (!blank) {
      wrong.push_back(in_words(blank.error(), said.blank));
    } else if (!kind.of_blank && kind.kind != EntryKind::corrected) {
      wrong.push_back(fmt::format("{} is not said of a blank", kind.name));
    } else {
      entry.blank = *blank;
    }
  } else if (kind.of_blank) {
    wrong.push_back(fmt::format("{} needs a blank's ID", kind.name));
  }
  for (const auto& [name, typed] : said.values) take_field(kind, name, typed, entry, wrong);
  miss_fields(said, entry, wrong);
  const auto free_text = [&](std::string_view name, const std::string& typed, std::string& out) {
    if (typed.empty()) return;
    const auto text = read_field(text_beside_fields(name), typed);
    if (text) {
      out = std::get<std::string>(*text);
    } else {
      wrong.push_back(text.error());
    }
  };
  free_text("person", said.person, entry.person);
  free_text("override", said.overridden, entry.overridden);
  if (!wrong.empty()) return tl::make_unexpected(std::move(wrong));
  return entry;
}

tl::expected<const KindFacts*, std::string> read_kind(std::string_view typed) {
  typed = trimmed(typed);
  const std::string lower = ascii_lower(typed);
  if (const KindFacts* kind = find_kind(lower)) return kind;
  if (const KindFacts* kind = find_code(typed)) return kind;
  std::vector<std::string> names;
  for (const KindFacts& kind : kind_list()) names.emplace_back(kind.name);
  return tl::make_unexpected(
      fmt::format("nothing is called \"{}\"{}", typed.substr(0, longest_name), did_you_mean(lower, names)));
}

std::string value_text(const FieldFacts& field, const FieldValue& value, UnitSystem units) {
  const auto* const words = std::get_if<std::string>(&value);
  const auto blank =
      words && field.form == TextForm::blank_id ? BlankId::read(*words) : tl::make_unexpected(IdFault::length);
  if (blank) return blank->shown();
  if (words) return *words;
  return quantity_text(*field.kind, std::get<double>(value), units);
}

std::string says_text(const Entry& entry, UnitSystem units) {
  std::vector<std::string> parts;
  for (const auto& [name, value] : entry.values) {
    const FieldFacts& field = facts_of(name);
    parts.push_back(fmt::format("{} {}", field.name, value_text(field, value, units)));
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::string entry_usage(const KindFacts& kind) {
  std::string out = fmt::format("{}{}", kind.name, kind.of_blank ? " BLANK..." : "");
  for (const FieldUse& use : kind.fields) {
    out += fmt::format(fmt::runtime(use.needed ? " {}=" : " [{}=]"), facts_of(use.field).name);
  }
  return out;
}

std::string field_usage(const FieldFacts& field) {
  if (field.kind) return fmt::format("{}, such as \"{}\"", field.says, field.such_as);
  if (field.words.empty()) return std::string{field.says};
  return fmt::format("{}: {}", field.says, fmt::join(field.words, ", "));
}

}  // namespace blankwright

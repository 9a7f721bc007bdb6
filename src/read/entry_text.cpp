#include "read/entry_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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

tl::expected<FieldValue, std::string> read_number(const FieldFacts& field, std::string_view typed,
                                                  std::string_view bare_unit) {
  auto si = read_si(typed, *field.kind);
  if (!si && si.error().cause == QuantityFault::Cause::bare_number && !bare_unit.empty()) {
    si = read_si(fmt::format("{} {}", typed, bare_unit), *field.kind);
  }
  if (!si) {
    const std::string hint = si.error().hint.empty() ? "" : fmt::format("; write {}", si.error().hint);
    return tl::make_unexpected(fmt::format("{}: {}{}", field.name, si.error().message, hint));
  }
  if (*field.kind == Kind::gauge_pressure) return -std::abs(*si);
  if (auto problem = number_problem(field, *si)) return tl::make_unexpected(std::move(*problem));
  return *si;
}

tl::expected<FieldValue, std::string> read_text(const FieldFacts& field, std::string_view typed) {
  if (!field.words.empty()) {
    const std::string lower = ascii_lower(typed);
    if (std::ranges::find(field.words, std::string_view{lower}) != field.words.end()) return lower;
    return tl::make_unexpected(
        fmt::format("{} is one of {}, not \"{}\"", field.name, fmt::join(field.words, ", "), typed));
  }
  if (field.is_name) {
    if (is_name(typed)) return std::string{typed};
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
  const FieldFacts* field = find_field(name);
  const bool known =
      field != nullptr && std::ranges::find(kind.fields, field->field, &FieldUse::field) != kind.fields.end();
  if (!known) {
    std::vector<std::string> names;
    for (const FieldUse& use : kind.fields) names.emplace_back(facts_of(use.field).name);
    wrong.push_back(fmt::format("{} has no {}{}", kind.name, name, did_you_mean(name, names)));
    return;
  }
  const auto same = [&](const auto& said) { return said.first == field->field; };
  if (std::ranges::any_of(entry.values, same)) {
    wrong.push_back(fmt::format("{} is said twice", name));
    return;
  }
  auto value = read_field(*field, typed);
  if (!value) {
    wrong.push_back(std::move(value.error()));
  } else {
    entry.set(field->field, std::move(*value));
  }
}

/// What a kind needs and the entry lacks. Of a field that was said and could not be read, that was told already.
void miss_fields(const SaidEntry& said, const Entry& entry, std::vector<std::string>& wrong) {
  for (const FieldUse& use : said.kind->fields) {
    const std::string_view name = facts_of(use.field).name;
    const bool tried = std::ranges::any_of(said.values, [&](const auto& value) { return value.first == name; });
    const bool has = std::ranges::any_of(entry.values, [&](const auto& value) { return value.first == use.field; });
    if (use.needed && !has && !tried) {
      const FieldFacts& field = facts_of(use.field);
      const std::string_view eg = field.kind             ? example(*field.kind)
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
      return text(KindOf<Temperature>::from_si(si), units);
    case Kind::force:
      return text(si * newton, units);
    default:
      return fmt::format("{}", si);  // no field is of another kind
  }
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
      return fmt::format("{} is no blank's ID: it holds a symbol that IDs do not have", typed);
    case IdFault::length:
      return fmt::format("{} is no blank's ID: those have seven symbols", typed);
    case IdFault::check:
      return fmt::format("{} is mistyped: its last symbol does not fit the others", typed);
  }
  return {};
}

std::optional<std::string> number_problem(const FieldFacts& field, double si) {
  if (!std::isfinite(si)) return fmt::format("{} is no number", field.name);
  const bool may_be_negative =
      field.kind == Kind::gauge_pressure || field.field == Field::lean_1 || field.field == Field::lean_2;
  if (si < 0 && !may_be_negative) return fmt::format("{} cannot be below 0", field.name);
  return std::nullopt;
}

tl::expected<FieldValue, std::string> read_field(const FieldFacts& field, std::string_view typed,
                                                 std::string_view bare_unit) {
  typed = trimmed(typed);
  if (typed.empty()) return tl::make_unexpected(fmt::format("{} is empty", field.name));
  if (field.kind) return read_number(field, typed, bare_unit);
  return read_text(field, typed);
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
    wrong.emplace_back("corrected needs the number of the entry that does not hold");
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
    const auto text = read_text(FieldFacts{Field::remark, name, {}, {}, false, {}}, trimmed(typed));
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
  if (const auto* words = std::get_if<std::string>(&value)) return *words;
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

}  // namespace blankwright

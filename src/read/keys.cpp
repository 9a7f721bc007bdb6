#include "read/keys.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnose/problem.h"
#include "diagnose/says_read.h"
#include "measure/instant.h"
#include "read/meant.h"
#include "read/toml_lines.h"

namespace blankwright {
namespace {

std::string shown_si(Kind kind, double si) {
  switch (kind) {
    case Kind::length:
      return std::abs(si) < 100 ? fmt::format("{:g} mm", si * 1e3) : fmt::format("{:g} m", si);
    case Kind::volume:
      return fmt::format("{:g} l", si * 1e3);
    case Kind::mass:
      return fmt::format("{:g} kg", si);
    case Kind::duration:
      return fmt::format("{:g} h", si / 3600);
    case Kind::force:
      return fmt::format("{:g} kN", si / 1e3);
    case Kind::torque:
      return fmt::format("{:g} N m", si);
    case Kind::stress:
      return fmt::format("{:g} MPa", si / 1e6);
    case Kind::density:
      return fmt::format("{:g} g/cm3", si / 1e3);
    case Kind::angle:
      return fmt::format("{:.0f} deg", si * Angle::unit() / degree);
    case Kind::share:
      return fmt::format("{:g} %", si * 100);
    case Kind::rotational_speed:
      return fmt::format("{:g} rpm", si * 60);
    case Kind::volume_flow:
      return fmt::format("{:g} l/min", si * VolumeFlow::unit() / litre_per_minute);
    case Kind::temperature:
      return fmt::format("{:g} °C", si - (ice_point - Temperature{}) / kelvin);
    case Kind::temperature_change:
      return fmt::format("{:g} K", si);
    case Kind::absolute_pressure:
    case Kind::gauge_pressure:
      return fmt::format("{:g} kPa", si / 1e3);
  }
  return {};
}

constexpr double usual_count = 6;

bool is_within(double value, Limits limits) {
  return limits.high <= limits.low || (value >= limits.low && value <= limits.high);
}

bool is_accepted(std::string_view typed, Kind kind, Limits limits) {
  const auto value = read_si(typed, kind);
  return value && is_within(*value, limits);
}

/// What to paste: `key = value`, and within a list the value alone.
Saying assignment(std::string_view name, std::string_view value) {
  return name.ends_with("[]") ? say(says::as_it_is, value) : say(says::key_is, name, value);
}

Problem problem_of(QuantityFault::Cause cause) {
  switch (cause) {
    case QuantityFault::Cause::bare_number:
      return Problem::bare_number;
    case QuantityFault::Cause::not_a_quantity:
    case QuantityFault::Cause::fraction_by_zero:
      return Problem::not_a_quantity;
    case QuantityFault::Cause::unknown_unit:
      return Problem::unknown_unit;
    case QuantityFault::Cause::other_kind:
      return Problem::other_kind;
    case QuantityFault::Cause::out_of_range:
      return Problem::out_of_range;
  }
  return Problem::not_a_quantity;
}

Diagnostic& say_wrong_type(const Node& node, std::string_view name, Sentence<2> is_wanted, Reading& in) {
  return in.out.error(Problem::wrong_type, node.at, is_wanted, key_name(name), say(type_name(node.type)));
}

/// The unit of the key's own example, or the usual one of its kind.
std::string_view unit_to_put(Kind kind, std::string_view own_example) {
  if (own_example.empty()) return usual_unit(kind);
  const std::size_t at = own_example.rfind(' ') + 1;
  return own_example.substr(at, own_example.size() - 1 - at);
}

/// How a table is to be written where a list of them belongs.
Saying as_list_of_tables(const Node& table, std::string_view name) {
  const std::string_view text = written_at(table.at);
  const std::size_t end = text.starts_with('{')   ? text.rfind('}')
                          : text.starts_with('[') ? text.find(']')
                                                  : text.npos;
  if (end == text.npos) return say(says::key_in_two_brackets, name);
  return text.starts_with('{') ? say(says::key_is_list_of, name, text.substr(0, end + 1))
                               : say(says::key_in_two_brackets, text.substr(1, end - 1));
}

/// The day that a value names, if it names one.
std::optional<std::chrono::year_month_day> day_in(const Node& node) {
  if (node.type == Node::Type::date) return node.date;
  constexpr std::size_t of_date = 10;
  if (node.type != Node::Type::text && node.type != Node::Type::moment) return std::nullopt;
  const auto day = parse_date(std::string_view{node.text}.substr(0, of_date));
  return day ? std::optional{*day} : std::nullopt;
}

}  // namespace

std::chrono::year_month_day Reading::usual_day() const {
  using namespace std::chrono;
  return day_before ? year_month_day{sys_days{*day_before} + days{1}} : year{2027} / January / 29;
}

std::string in_quotes(std::string_view text) {
  std::string out{"\""};
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

std::string limits_text(Kind kind, Limits l) {
  return fmt::format("{} to {}", shown_si(kind, l.low), shown_si(kind, l.high));
}
std::string Form<int>::limits(Limits l) { return fmt::format("{:.0f} to {:.0f}", l.low, l.high); }
std::string Form<std::string>::limits(Limits l) { return fmt::format("at most {:.0f} characters", l.high); }
std::string example_within(const Shape& shape, Limits limits) {
  if (limits.high < limits.low || limits.high == 0) return shape.example;
  if (shape.type == Shape::Type::count) {
    return fmt::format("{:.0f}", std::clamp(usual_count, limits.low, limits.high));
  }
  if (shape.type != Shape::Type::quantity) return shape.example;
  const auto usual = read_si(example(shape.kind), shape.kind);
  return usual && is_within(*usual, limits) ? shape.example : in_quotes(shown_si(shape.kind, limits.high));
}
std::string list_limits(Limits l) {
  return l.low > 0 ? fmt::format("{:.0f} to {:.0f} of them", l.low, l.high) : fmt::format("at most {:.0f}", l.high);
}

std::optional<double> read_quantity_value(const Node& node, std::string_view name, Kind kind, Limits limits,
                                          Reading& in) {
  const std::string_view own_example = name.ends_with("[]") ? std::string_view{} : in.example;
  const Shape shape{.type = Shape::Type::quantity, .kind = kind, .example = in_quotes(example(kind))};
  const std::string eg = own_example.empty() ? example_within(shape, limits) : std::string{own_example};
  if (node.type == Node::Type::count || node.type == Node::Type::real) {
    const std::string with_unit = fmt::format("{} {}", node.text, unit_to_put(kind, own_example));
    in.out.error(Problem::bare_number, node.at, says::bare_number, with_article(kind))
        .hint(assignment(name, is_accepted(with_unit, kind, limits) ? in_quotes(with_unit) : std::string{eg}));
    return std::nullopt;
  }
  if (node.type != Node::Type::text) {
    in.out
        .error(Problem::wrong_type, node.at, says::wrong_quantity_type, key_name(name), say(type_name(node.type)),
               with_article(kind))
        .hint(assignment(name, eg));
    return std::nullopt;
  }
  const auto value = read_si(node.text, kind);
  if (!value) {
    auto& said = in.out.error(problem_of(value.error().cause), node.at, says::value_because, key_name(name),
                              value.error().message);
    const std::string& hint = value.error().hint;
    const auto drawn = as_on_a_drawing(node.text);
    if (drawn && is_accepted(drawn->quantity, kind, limits)) {
      const std::string pasted = in_quotes(drawn->quantity);
      said.hint(drawn->tolerance.empty() ? assignment(name, pasted) : say(says::tolerance_apart, name, pasted));
    } else if (!hint.empty())
      said.hint(assignment(
          name, own_example.empty() && is_accepted(hint, kind, limits) ? in_quotes(hint) : std::string{eg}));
    return std::nullopt;
  }
  if (!is_within(*value, limits)) {
    const std::string nearest = shown_si(kind, std::clamp(*value, limits.low, limits.high));
    in.out
        .error(Problem::out_of_range, node.at, says::out_of_range, key_name(name), node.text,
               shown_si(kind, limits.low), shown_si(kind, limits.high))
        .hint(assignment(name, is_accepted(nearest, kind, limits) ? in_quotes(nearest) : eg));
    return std::nullopt;
  }
  return *value;
}

std::optional<std::string> read_plain_text(const Node& node, std::string_view name, Reading& in) {
  if (node.type == Node::Type::text) return node.text;
  const bool as_is = !node.text.empty();
  say_wrong_type(node, name, says::wrong_text_type, in)
      .hint(assignment(name, as_is ? in_quotes(node.text) : "\"...\""));
  return std::nullopt;
}

std::optional<std::string> read_text_value(const Node& node, std::string_view name, Limits limits, Reading& in) {
  const auto text = read_plain_text(node, name, in);
  if (!text) return std::nullopt;
  constexpr double one_line = 200;  // keys that take more characters than this take several lines as well
  const auto clean = normalised(*text, limits.high > one_line ? Lines::several : Lines::one);
  if (!clean) {
    in.out.error(Problem::unprintable_text, node.at, says::value_because, key_name(name), in_words(clean.error()))
        .hint(says::take_printed_letters);
    return std::nullopt;
  }
  const auto length = code_point_count(*clean);
  if (limits.high > 0 && static_cast<double>(length) > limits.high) {
    in.out.error(Problem::out_of_range, node.at, says::too_many_characters, key_name(name), length,
                 decimal(limits.high, 0));
    return std::nullopt;
  }
  if (limits.low > 0 && clean->find_first_not_of(' ') == std::string::npos) {
    in.out.error(Problem::out_of_range, node.at, says::is_empty, key_name(name)).hint(says::write_in_quotes);
    return std::nullopt;
  }
  return *clean;
}

std::optional<int> read_count_value(const Node& node, std::string_view name, Limits limits, Reading& in) {
  if (node.type != Node::Type::count) {
    const bool is_number = node.type == Node::Type::text && !node.text.empty() && node.text.size() < 6 &&
                           node.text.find_first_not_of("0123456789") == std::string::npos;
    say_wrong_type(node, name, says::wrong_count_type, in)
        .hint(assignment(name, is_number ? node.text : example_within(Form<int>::shape(), limits)));
    return std::nullopt;
  }
  const auto value = static_cast<double>(node.count);
  if (value < limits.low || value > limits.high) {
    in.out
        .error(Problem::out_of_range, node.at, says::out_of_range, key_name(name), node.count, decimal(limits.low, 0),
               decimal(limits.high, 0))
        .hint(assignment(name, fmt::format("{:.0f}", std::clamp(value, limits.low, limits.high))));
    return std::nullopt;
  }
  return static_cast<int>(node.count);
}

std::optional<bool> read_truth_value(const Node& node, std::string_view name, Reading& in) {
  if (node.type == Node::Type::truth) return node.truth;
  say_wrong_type(node, name, says::wrong_truth_type, in).hint(assignment(name, "true"));
  return std::nullopt;
}

std::optional<std::chrono::year_month_day> read_date_value(const Node& node, std::string_view name, Reading& in) {
  using namespace std::chrono;
  if (node.type != Node::Type::date) {
    const bool in_quotes = node.type == Node::Type::text && parse_date(node.text).has_value();
    const auto meant = node.type == Node::Type::text ? date_meant(node.text) : std::nullopt;
    in.out.error(Problem::bad_date, node.at, says::wrong_date_type, key_name(name), say(type_name(node.type)))
        .hint(assignment(name, in_quotes ? node.text
                               : meant   ? *meant
                                         : text(in.usual_day())));
    return std::nullopt;
  }
  if (node.date < year{2000} / January / 1 || node.date > year{2099} / December / 31) {
    in.out.error(Problem::bad_date, node.at, says::not_this_century, key_name(name))
        .hint(assignment(name, text(in.usual_day())));
    return std::nullopt;
  }
  return node.date;
}

std::optional<std::size_t> read_word_value(const Node& node, std::string_view name,
                                           const std::vector<std::string>& words, Reading& in) {
  const std::string typed = node.type == Node::Type::text ? node.text : std::string{};
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (node.type == Node::Type::text && words.at(i) == typed) return i;
  }
  std::vector<Saying> may_stand;
  for (const std::string& word : words) may_stand.push_back(say(says::as_it_is, in_quotes(word)));
  const auto meant = names_meant(typed, words);
  std::vector<std::string> choices;
  for (const std::string& word : meant.empty() ? words : std::vector{meant.front()})
    choices.push_back(in_quotes(word));
  const bool in_list = key_name(name) != name;
  in.out
      .error(Problem::unknown_word, node.at, in_list ? says::unknown_item : says::unknown_word, key_name(name),
             node.type == Node::Type::text ? say(says::as_it_is, in_quotes(typed)) : say(type_name(node.type)),
             listed(std::move(may_stand), says::one_and_next))
      .hint(assignment(name, fmt::format("{}", fmt::join(choices, "  or  "))));
  return std::nullopt;
}

bool is_table(const Node& node, std::string_view name, Reading& in) {
  if (node.type == Node::Type::table) return true;
  say_wrong_type(node, name, says::wrong_table_type, in).hint(says::key_in_brackets, name);
  return false;
}

bool is_list(const Node& node, std::string_view name, Limits limits, Reading& in) {
  if (node.type != Node::Type::list) {
    say_wrong_type(node, name, says::wrong_list_type, in)
        .hint(node.type == Node::Type::table  ? as_list_of_tables(node, name)
              : node.type == Node::Type::text ? say(says::key_is_list_of, name, in_quotes(node.text))
                                              : say(says::key_is_some_list, name));
    return false;
  }
  const auto count = static_cast<double>(node.items.size());
  if (limits.high > 0 && (count < limits.low || count > limits.high)) {
    in.out.error(Problem::out_of_range, node.at, says::too_many_items, key_name(name), node.items.size(),
                 decimal(limits.low, 0), decimal(limits.high, 0));
    return false;
  }
  return true;
}

namespace {

const void* member(const void* facts, const Key& key) { return static_cast<const std::byte*>(facts) + key.at; }

bool must_be_written(const Key& key, const void* fresh) {
  return key.kind->must_be_written(member(fresh, key), key.limits);
}

Shape shape_of(const Key& key) {
  Shape shape = key.kind->shape();
  shape.example = key.example.empty() ? example_within(shape, key.limits) : std::string{key.example};
  return shape;
}

}  // namespace

bool any_must_be_written(const KeyList& keys, const void* fresh) {
  return std::any_of(keys.begin(), keys.end(), [&](const Key& key) { return must_be_written(key, fresh); });
}

Shape table_shape(const KeyList& keys, const void* fresh) {
  Shape shape{Shape::Type::table};
  std::string inside;
  for (const Key& key : keys) {
    auto [standard, source] = key.kind->standard(member(fresh, key));
    const std::string limits = key.limits.high > 0 ? key.kind->limits(key.limits) : std::string{};
    shape.keys.push_back({std::string{key.name}, must_be_written(key, fresh), std::string{key.says}, limits,
                          std::move(standard), std::move(source), shape_of(key)});
    if (!shape.keys.back().required) continue;
    inside += (inside.empty() ? "" : ", ") + shape.keys.back().name + " = " + shape.keys.back().shape.example;
  }
  shape.example = "{" + inside + "}";
  return shape;
}

bool read_members(const Node& node, const KeyList& keys, void* into, const void* fresh, Reading& in) {
  bool good = true;
  std::vector<std::string> known;
  for (const Key& key : keys) known.emplace_back(key.name);
  const auto unknown = unknown_members(node, known);
  // A key under another name is told as that: it is not missing as well.
  constexpr std::size_t most_looked_at = 20;  // a file of another kind is not told key by key
  std::vector<std::string> unknown_names, meant;
  for (const Member* member : unknown) {
    if (unknown_names.size() == most_looked_at) break;
    unknown_names.push_back(member->key);
    for (const std::string& name : names_meant(member->key, known)) {
      meant.push_back(name);
      break;
    }
  }
  const auto is_meant = [&](std::string_view name, const Shape& shape) {
    return std::ranges::find(meant, name) != meant.end() ||
           std::ranges::any_of(shape.keys, [&](const KeyInfo& inside) {
             return std::ranges::find(unknown_names, inside.name) != unknown_names.end();
           });
  };
  std::vector<MissingKey> missing;
  in.day_before.reset();
  for (const Key& key : keys) {
    bool written = false;
    for (const Member& found : node.members) {
      if (found.key != key.name) continue;
      written = true;
      in.example = key.example;
      good = key.kind->read(found.value, key.name, key.limits, static_cast<std::byte*>(into) + key.at, in) && good;
      in.example = {};
      if (const auto day = day_in(found.value)) in.day_before = day;
    }
    if (!written && must_be_written(key, fresh)) {
      Shape shape = shape_of(key);
      if (in.day_before && parse_date(shape.example)) shape.example = text(in.usual_day());
      if (!is_meant(key.name, shape)) missing.emplace_back(key.name, std::move(shape));
      good = false;
    }
  }
  say_missing(node, missing, known, in);
  if (!unknown.empty()) say_unknown(node, known, in, table_shape(keys, fresh).keys);
  return good && unknown.empty();
}

}  // namespace blankwright

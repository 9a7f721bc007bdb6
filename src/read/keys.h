#pragma once

#include <array>
#include <chrono>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "diagnose/diagnostics.h"
#include "measure/quantity_text.h"
#include "measure/utf8.h"
#include "read/document.h"
#include "read/shape.h"

namespace blankwright {

/// What reading a value needs to know besides the value.
struct Reading {
  Origin origin;  ///< whose file it is
  Diagnostics& out;
  std::vector<std::string> top{};  ///< keys of the file outside all tables: often written below one by mistake
};

/// Between what a value must lie, in SI units; of a text how many characters, of a list how many items.
struct Limits {
  double low = 0;
  double high = 0;
};

template <class Q>
Limits within(Q low, Q high) {
  return {KindOf<Q>::to_si(low), KindOf<Q>::to_si(high)};
}
inline Limits within(int low, int high) { return {static_cast<double>(low), static_cast<double>(high)}; }

/// A key of a table: written down once, and everything that is said about it is made from this.
template <class Facts, class Member>
struct Key {
  std::string_view name;
  Member Facts::*member;
  std::string_view says;
  Limits limits;
  std::string_view example{};  ///< as TOML, where the usual one of its type would not do
};

template <class Facts, class Member>
constexpr Key<Facts, Member> key(std::string_view name, Member Facts::*member, std::string_view says,
                                 Limits limits = {}, std::string_view example = {}) {
  return {name, member, says, limits, example};
}

/// How a T is written: `read` from a node or say why not, `shape` for descriptions, `written` as TOML.
template <class T>
struct Form;

// -- scalars
// ---------------------------------------------------------------------------------------------------------

/// Each says what is wrong with the node and answers nothing, or answers the value.
std::optional<double> read_quantity_value(const Node& node, std::string_view name, Kind kind, Limits limits,
                                          Reading& in);
std::optional<std::string> read_text_value(const Node& node, std::string_view name, Limits limits, Reading& in);
std::optional<int> read_count_value(const Node& node, std::string_view name, Limits limits, Reading& in);
std::optional<bool> read_truth_value(const Node& node, std::string_view name, Reading& in);
std::optional<std::chrono::year_month_day> read_date_value(const Node& node, std::string_view name, Reading& in);
/// The index of the word among those that may stand there.
std::optional<std::size_t> read_word_value(const Node& node, std::string_view name,
                                           const std::vector<std::string>& words, Reading& in);
/// A text without looking at its length; says so when the node is something else.
std::optional<std::string> read_plain_text(const Node& node, std::string_view name, Reading& in);

/// The key as the user typed it: items of a list are read under the list's name and "[]".
inline std::string_view key_name(std::string_view name) {
  return name.ends_with("[]") ? name.substr(0, name.size() - 2) : name;
}

std::string limits_text(Kind kind, Limits limits);
/// A value that is accepted, as TOML: the usual example, or one inside the limits.
std::string example_within(const Shape& shape, Limits limits);
std::string in_quotes(std::string_view text);

template <class Q>
concept IsQuantity = requires {
  KindOf<Q>::kind;
};

template <IsQuantity Q>
struct Form<Q> {
  static std::optional<Q> read(const Node& node, std::string_view name, Limits limits, Reading& in) {
    const auto si = read_quantity_value(node, name, KindOf<Q>::kind, limits, in);
    return si ? std::optional{KindOf<Q>::from_si(*si)} : std::nullopt;
  }
  static Shape shape() {
    Shape shape{Shape::Type::quantity};
    shape.kind = KindOf<Q>::kind;
    shape.example = in_quotes(example(shape.kind));
    return shape;
  }
  static std::string limits(Limits l) { return limits_text(KindOf<Q>::kind, l); }
  static std::string written(const Q& q) {
    if constexpr (std::is_same_v<Q, Length>) {
      return in_quotes(text(q, {UnitSystem::metric, Round::nearest, Fineness::measured}));
    } else if constexpr (std::is_same_v<Q, Volume>) {
      return in_quotes(liquid_text(q, UnitSystem::metric));
    } else if constexpr (requires { text(q, UnitSystem::metric); }) {
      return in_quotes(text(q, UnitSystem::metric));
    } else {
      return in_quotes(text(q));
    }
  }
};

template <>
struct Form<std::string> {
  static std::optional<std::string> read(const Node& node, std::string_view name, Limits limits, Reading& in) {
    return read_text_value(node, name, limits, in);
  }
  static Shape shape() { return {.type = Shape::Type::text, .example = "\"abc\""}; }
  static std::string limits(Limits l);
  static std::string written(const std::string& words) { return words.empty() ? "" : in_quotes(words); }
};

template <>
struct Form<int> {
  static std::optional<int> read(const Node& node, std::string_view name, Limits limits, Reading& in) {
    return read_count_value(node, name, limits, in);
  }
  static Shape shape() { return {.type = Shape::Type::count, .example = "6"}; }
  static std::string limits(Limits l);
  static std::string written(int n) { return std::to_string(n); }
};

template <>
struct Form<bool> {
  static std::optional<bool> read(const Node& node, std::string_view name, Limits, Reading& in) {
    return read_truth_value(node, name, in);
  }
  static Shape shape() { return {.type = Shape::Type::truth, .example = "true"}; }
  static std::string limits(Limits) { return {}; }
  static std::string written(bool truth) { return truth ? "true" : "false"; }
};

template <>
struct Form<std::chrono::year_month_day> {
  static std::optional<std::chrono::year_month_day> read(const Node& node, std::string_view name, Limits,
                                                         Reading& in) {
    return read_date_value(node, name, in);
  }
  static Shape shape() { return {.type = Shape::Type::date, .example = "2027-01-29"}; }
  static std::string limits(Limits) { return {}; }
  static std::string written(const std::chrono::year_month_day&) { return {}; }
};

/// The words for an enumeration, in its order: specialise with `static constexpr std::array<std::string_view, n>
/// list`.
template <class E>
struct Words;

template <class E>
requires std::is_enum_v<E>
struct Form<E> {
  static std::vector<std::string> words() { return {Words<E>::list.begin(), Words<E>::list.end()}; }
  static std::optional<E> read(const Node& node, std::string_view name, Limits, Reading& in) {
    const auto index = read_word_value(node, name, words(), in);
    return index ? std::optional{static_cast<E>(*index)} : std::nullopt;
  }
  static Shape shape() {
    return {.type = Shape::Type::word, .example = in_quotes(Words<E>::list.front()), .words = words()};
  }
  static std::string limits(Limits) { return {}; }
  static std::string written(E e) { return in_quotes(Words<E>::list.at(static_cast<std::size_t>(e))); }
};

// -- tables
// ----------------------------------------------------------------------------------------------------------

/// The keys of a table of facts: specialise with `static constexpr auto list = std::tuple{key(...), ...}`.
template <class Facts>
struct Keys;
template <class Facts>
concept IsTable = requires {
  Keys<Facts>::list;
};

/// Says of each member that it is unknown, with the nearest known name.
void say_unknown(const Node& table, const std::vector<std::string>& known, Reading& in);
void say_missing(const Node& table, std::string_view name, const Shape& shape, Reading& in);
bool is_table(const Node& node, std::string_view name, Reading& in);
bool is_list(const Node& node, std::string_view name, Limits limits, Reading& in);
std::string list_limits(Limits l);

template <class Facts>
bool read_table(const Node& node, Facts& into, Reading& in);

/// How a member of a struct of facts holds its value: a table in place, a given value, optional, a list.
template <class M>
struct Slot {
  static_assert(IsTable<M>);
  static bool read(const Node& node, std::string_view name, Limits, M& into, Reading& in) {
    return is_table(node, name, in) && read_table(node, into, in);
  }
  static Shape shape() { return Form<M>::shape(); }
  static std::string limits(Limits) { return {}; }
  static std::pair<std::string, std::string> standard(const M&) { return {}; }
  static constexpr bool required = true;
};

template <class T>
struct Slot<Given<T>> {
  static bool read(const Node& node, std::string_view name, Limits limits, Given<T>& into, Reading& in) {
    auto value = Form<T>::read(node, name, limits, in);
    if (value) into = {std::move(*value), in.origin, node.at, {}};
    return value.has_value();
  }
  static Shape shape() { return Form<T>::shape(); }
  static std::string limits(Limits l) { return Form<T>::limits(l); }
  /// A Given with a source has a standard value; one without has to be written.
  static std::pair<std::string, std::string> standard(const Given<T>& g) {
    return g.source.empty() ? std::pair<std::string, std::string>{} : std::pair{Form<T>::written(g.value), g.source};
  }
  static constexpr bool required = true;
};

template <class M>
struct Slot<std::optional<M>> {
  static bool read(const Node& node, std::string_view name, Limits limits, std::optional<M>& into, Reading& in) {
    M value{};
    if (!Slot<M>::read(node, name, limits, value, in)) return false;
    into = std::move(value);
    return true;
  }
  static Shape shape() { return Slot<M>::shape(); }
  static std::string limits(Limits l) { return Slot<M>::limits(l); }
  static std::pair<std::string, std::string> standard(const std::optional<M>&) { return {}; }
  static constexpr bool required = false;
};

/// Limits of a list's items: a text in a list is a line or two.
template <class M>
constexpr Limits item_limits() {
  if constexpr (std::is_same_v<M, Given<std::string>>) return {1, 200};
  return {};
}

/// A list replaces what stood there. `limits` says how many items there may be.
template <class M>
struct Slot<std::vector<M>> {
  static bool read(const Node& node, std::string_view name, Limits limits, std::vector<M>& into, Reading& in) {
    if (!is_list(node, name, limits, in)) return false;
    into.clear();
    bool good = true;
    const std::string item_name = std::string{name} + "[]";  // its hints are values alone
    for (const Node& item : node.items) {
      M value{};
      if (Slot<M>::read(item, item_name, item_limits<M>(), value, in)) {
        into.push_back(std::move(value));
      } else {
        good = false;
      }
    }
    return good;
  }
  static Shape shape() {
    Shape shape{Shape::Type::list};
    shape.item = std::make_shared<Shape>(Slot<M>::shape());
    shape.example = "[" + shape.item->example + "]";
    return shape;
  }
  static std::string limits(Limits l) { return list_limits(l); }
  static std::pair<std::string, std::string> standard(const std::vector<M>&) { return {}; }
  static constexpr bool required = true;
};

template <class M>
inline constexpr bool is_list_type = false;
template <class M>
inline constexpr bool is_list_type<std::vector<M>> = true;

/// What stands in place of a table that is left out: facts whose every member has a standard value.
template <class Facts>
bool may_be_left_out(const Facts& facts);

/// Must the key be written? Only a value that has no standard and is not optional. (A list that may be empty need
/// not.)
template <class Facts, class M>
bool must_be_written(const Key<Facts, M>& k) {
  const Facts fresh{};
  if constexpr (IsTable<M>) {
    return !may_be_left_out(fresh.*(k.member));
  } else if constexpr (is_list_type<M>) {
    return k.limits.low > 0;
  } else {
    return Slot<M>::required && Slot<M>::standard(fresh.*(k.member)).first.empty();
  }
}

template <class Facts>
bool may_be_left_out(const Facts&) {
  return std::apply([](const auto&... k) { return (!must_be_written(k) && ...); }, Keys<Facts>::list);
}

template <class Facts, class M>
Shape shape_of(const Key<Facts, M>& k) {
  Shape shape = Slot<M>::shape();
  shape.example = k.example.empty() ? example_within(shape, k.limits) : std::string{k.example};
  return shape;
}

template <class Facts>
std::vector<KeyInfo> key_infos() {
  const Facts fresh{};
  std::vector<KeyInfo> infos;
  const auto add = [&]<class M>(const Key<Facts, M>& k) {
    auto [standard, source] = Slot<M>::standard(fresh.*(k.member));
    const std::string limits = k.limits.high > 0 ? Slot<M>::limits(k.limits) : std::string{};
    infos.push_back({std::string{k.name}, must_be_written(k), std::string{k.says}, limits, std::move(standard),
                     std::move(source), shape_of(k)});
  };
  std::apply([&](const auto&... k) { (add(k), ...); }, Keys<Facts>::list);
  return infos;
}

/// Reads a table over what `into` holds; keys that it lacks stay as they are. Says everything that is wrong in one
/// go.
template <class Facts>
bool read_table(const Node& node, Facts& into, Reading& in) {
  bool good = true;
  std::vector<std::string> known;
  const auto read_key = [&]<class M>(const Key<Facts, M>& k) {
    known.emplace_back(k.name);
    bool written = false;
    for (const Member& member : node.members) {
      if (member.key != k.name) continue;
      written = true;
      good = Slot<M>::read(member.value, k.name, k.limits, into.*(k.member), in) && good;
    }
    if (!written && must_be_written(k)) {
      say_missing(node, k.name, shape_of(k), in);
      good = false;
    }
  };
  std::apply([&](const auto&... k) { (read_key(k), ...); }, Keys<Facts>::list);
  if constexpr (requires { into.place; }) into.place = node.at;
  const int before = in.out.errors();
  say_unknown(node, known, in);
  return good && in.out.errors() == before;
}

template <IsTable Facts>
struct Form<Facts> {
  static Shape shape() {
    Shape shape{Shape::Type::table};
    shape.keys = key_infos<Facts>();
    std::string inside;
    for (const KeyInfo& k : shape.keys) {
      if (!k.required) continue;
      inside += (inside.empty() ? "" : ", ") + k.name + " = " + k.shape.example;
    }
    shape.example = "{" + inside + "}";
    return shape;
  }
};

}  // namespace blankwright

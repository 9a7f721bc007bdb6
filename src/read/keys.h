#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
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
  std::string_view example{};      ///< of the key that is read, as TOML, where it has one of its own
  /// A day that the table names before the key: what `to` has to lie behind is `from`.
  std::optional<std::chrono::year_month_day> day_before{};
  /// A day to propose: behind that one, where there is one.
  std::chrono::year_month_day usual_day() const;
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

/// How a member of a struct of facts is read and described, whatever its type: so that what goes through a list of
/// keys is compiled once, and not for each struct.
struct MemberKind {
  bool (*read)(const Node& node, std::string_view name, Limits limits, void* into, Reading& in);
  Shape (*shape)();
  std::string (*limits)(Limits limits);
  std::pair<std::string, std::string> (*standard)(const void* fresh);  ///< as TOML, and whose it is; or empty
  bool (*must_be_written)(const void* fresh, Limits limits);
};

/// A key of a table: written down once, and everything that is said about it is made from this.
struct Key {
  std::string_view name;
  std::string_view says;
  Limits limits;
  std::string_view example;  ///< as TOML, where the usual one of its type would not do
  const MemberKind* kind;
  std::ptrdiff_t at;  ///< where the member lies in its struct, in bytes
};

/// The keys of a table of facts: specialise with `static inline const KeyList list{key(...), ...}`.
using KeyList = std::vector<Key>;
template <class Facts>
struct Keys;
template <class Facts>
concept IsTable = requires {
  Keys<Facts>::list;
};

/// Facts as they are before anything was read. Not inlined: built at each key they take most of the compiler's time.
template <class Facts>
[[gnu::noinline]] const Facts& fresh() {
  static const Facts facts{};
  return facts;
}
template <class M>
const MemberKind& kind_of_member();

/// A key of a struct that has its members from `Base`.
template <class Facts, class Base, class M>
Key key_of(std::string_view name, M Base::*member, std::string_view says, Limits limits = {},
           std::string_view example = {}) {
  const auto* start = reinterpret_cast<const std::byte*>(&fresh<Facts>());
  const auto* place = reinterpret_cast<const std::byte*>(&(fresh<Facts>().*member));
  return {name, says, limits, example, &kind_of_member<M>(), place - start};
}
template <class Facts, class M>
Key key(std::string_view name, M Facts::*member, std::string_view says, Limits limits = {},
        std::string_view example = {}) {
  return key_of<Facts>(name, member, says, limits, example);
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

std::vector<const Member*> unknown_members(const Node& table, const std::vector<std::string>& known);
/// Says of each member that it is unknown, with what may have been meant. `keys` are those of the table, where it has
/// tables inside.
void say_unknown(const Node& table, const std::vector<std::string>& known, Reading& in,
                 const std::vector<KeyInfo>& keys = {});
/// A key that has to be written, and what its value looks like.
using MissingKey = std::pair<std::string_view, Shape>;
/// Says what a table lacks: tables one by one, values all at once, and of an operation its time with them.
void say_missing(const Node& table, const std::vector<MissingKey>& missing, const std::vector<std::string>& known,
                 Reading& in);
bool is_table(const Node& node, std::string_view name, Reading& in);
bool is_list(const Node& node, std::string_view name, Limits limits, Reading& in);
std::string list_limits(Limits l);

/// Reads a table over what `into` holds; keys that it lacks stay as they are. Says everything that is wrong in one
/// go. `fresh` is what stands in a struct of this type before anything was read.
bool read_members(const Node& node, const KeyList& keys, void* into, const void* fresh, Reading& in);
bool any_must_be_written(const KeyList& keys, const void* fresh);
Shape table_shape(const KeyList& keys, const void* fresh);

template <class Facts>
bool read_table(const Node& node, Facts& into, Reading& in) {
  if constexpr (requires { into.place; }) into.place = node.at;
  return read_members(node, Keys<Facts>::list, &into, &fresh<Facts>(), in);
}
template <class Facts>
std::vector<KeyInfo> key_infos() {
  return table_shape(Keys<Facts>::list, &fresh<Facts>()).keys;
}

template <IsTable Facts>
struct Form<Facts> {
  static Shape shape() { return table_shape(Keys<Facts>::list, &fresh<Facts>()); }
};

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

/// Must the key be written? Only a value that has no standard and is not optional, and a table that has such a one.
/// (A list that may be empty need not.)
template <class M>
bool must_be_written(const M& fresh_member, Limits limits) {
  if constexpr (IsTable<M>) {
    return any_must_be_written(Keys<M>::list, &fresh<M>());
  } else if constexpr (is_list_type<M>) {
    return limits.low > 0;
  } else {
    return Slot<M>::required && Slot<M>::standard(fresh_member).first.empty();
  }
}

template <class M>
const MemberKind& kind_of_member() {
  static constexpr MemberKind kind{
      [](const Node& node, std::string_view name, Limits limits, void* into, Reading& in) {
        return Slot<M>::read(node, name, limits, *static_cast<M*>(into), in);
      },
      [] { return Slot<M>::shape(); },
      [](Limits limits) { return Slot<M>::limits(limits); },
      [](const void* fresh) { return Slot<M>::standard(*static_cast<const M*>(fresh)); },
      [](const void* fresh, Limits limits) { return must_be_written(*static_cast<const M*>(fresh), limits); },
  };
  return kind;
}

}  // namespace blankwright

#include "commands/shop_names.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string_view>
#include <vector>

#include "measure/nearest.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

/// Names are whole phrases, of which people type the first word.
std::vector<std::string> beginning_nearly(const std::string& typed, const std::vector<std::string>& names) {
  std::vector<std::string> beginnings, near;
  for (const std::string& name : names) beginnings.push_back(name.substr(0, typed.size()));
  for (const std::string& beginning : nearest_names(typed, beginnings, 1)) {
    for (const std::string& name : names) {
      if (name.starts_with(beginning)) near.push_back(name);
    }
  }
  return near;
}

/// The names among which one is looked for, and how they are called together: "the shop's routing has no".
struct NamesOf {
  Field field;
  std::string_view called;
  std::vector<std::string> names;
};

std::optional<std::string> name_one(Entry& entry, const NamesOf& of) {
  const std::string typed = ascii_lower(entry.text(of.field));
  if (typed.empty()) return std::nullopt;
  std::vector<std::string> begin_so;
  for (const std::string& name : of.names) {
    if (ascii_lower(name) == typed) {
      entry.set(of.field, name);
      return std::nullopt;
    }
    if (ascii_lower(name).starts_with(typed)) begin_so.push_back(name);
  }
  if (begin_so.size() == 1) {
    entry.set(of.field, begin_so.front());
    return std::nullopt;
  }
  const auto near = begin_so.empty() ? beginning_nearly(typed, of.names) : begin_so;
  return fmt::format("{}: the shop{} has no \"{}\"; {}{}", facts_of(of.field).name, of.called, entry.text(of.field),
                     near.empty() ? "it has " : "perhaps ", fmt::join(near.empty() ? of.names : near, ", "));
}

template <class Facts>
std::vector<std::string> names_of(const std::vector<Facts>& all) {
  std::vector<std::string> names;
  for (const Facts& facts : all) names.push_back(facts.name.value);
  return names;
}

}  // namespace

std::optional<std::string> name_from_shop(Entry& entry, const Shop& shop) {
  if (auto fault = name_one(entry, {Field::operation, "'s routing", names_of(shop.routing)})) return fault;
  if (auto fault = name_one(entry, {Field::vessel, "", names_of(shop.vessels)})) return fault;
  return name_one(entry, {Field::oven, "", names_of(shop.ovens)});
}

}  // namespace blankwright

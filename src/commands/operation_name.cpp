#include "commands/operation_name.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

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

}  // namespace

std::optional<std::string> name_operation(Entry& entry, const Shop& shop) {
  const std::string typed = ascii_lower(entry.text(Field::operation));
  if (typed.empty()) return std::nullopt;
  std::vector<std::string> names, begin_so;
  for (const OperationFacts& facts : shop.routing) {
    const std::string& name = facts.name.value;
    names.push_back(name);
    if (ascii_lower(name) == typed) {
      entry.set(Field::operation, name);
      return std::nullopt;
    }
    if (ascii_lower(name).starts_with(typed)) begin_so.push_back(name);
  }
  if (begin_so.size() == 1) {
    entry.set(Field::operation, begin_so.front());
    return std::nullopt;
  }
  const auto near = begin_so.empty() ? beginning_nearly(typed, names) : begin_so;
  return fmt::format("operation: the shop's routing has no \"{}\"; {}{}", entry.text(Field::operation),
                     near.empty() ? "it has " : "perhaps ", fmt::join(near.empty() ? names : near, ", "));
}

}  // namespace blankwright

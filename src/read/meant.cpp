#include "read/meant.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <regex>
#include <utility>

#include "measure/nearest.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

/// Words of the trade and of other languages for what our files have one word for.
constexpr auto other_words = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"customer", "client"}, {"buyer", "client"},   {"kunde", "client"},    {"name", "id"},
    {"number", "id"},       {"order", "id"},       {"product", "item"},    {"article", "item"},
    {"pieces", "quantity"}, {"count", "quantity"}, {"amount", "quantity"}, {"number", "quantity"},
    {"deadline", "due"},    {"delivery", "due"},   {"date", "due"},        {"comment", "notes"},
    {"remark", "notes"},    {"material", "wood"},  {"timber", "wood"},     {"material", "species"},
    {"type", "species"},    {"kind", "species"},   {"state", "condition"}, {"humidity", "moisture"},
    {"dia", "diameter"},    {"width", "diameter"}, {"position", "at"},     {"distance", "at"},
    {"screw", "thread"},    {"size", "thread"},    {"depth", "embedded"},  {"timezone", "zone"},
    {"time_zone", "zone"},  {"color", "dye"},      {"colour", "dye"},      {"rotten", "punky"},
    {"rotted", "punky"},    {"decayed", "punky"},  {"soft", "punky"},      {"healthy", "sound"},
    {"good", "sound"},      {"solid", "sound"},    {"action", "kind"},     {"event", "kind"},
    {"what", "kind"},       {"entry", "kind"},     {"id", "blank"},        {"tag", "blank"},
    {"weight", "mass"},     {"date", "at"},        {"time", "at"},         {"when", "at"},
    {"who", "person"},      {"by", "person"},      {"worker", "who"},      {"person", "who"},
    {"operation", "name"},  {"duration", "fixed"}, {"time", "fixed"},
});

/// Takes a clock time off the front: "8", "08:00", "8.30", "8h".
std::optional<int> take_minutes(const std::ssub_match& hours, const std::ssub_match& minutes) {
  const int h = std::stoi(hours), m = minutes.matched ? std::stoi(minutes) : 0;
  return h <= 24 && m < 60 ? std::optional{60 * h + m} : std::nullopt;
}

}  // namespace

std::vector<std::string> names_meant(std::string_view typed, const std::vector<std::string>& known) {
  constexpr std::size_t longest = 60;  // no name of ours is near a longer one
  if (typed.size() > longest) return {};
  const std::string lower = ascii_lower(typed);
  for (const std::string& name : known) {
    if (name == lower) return {name};
  }
  for (const auto& [other, ours] : other_words) {
    if (other == lower && std::ranges::find(known, ours) != known.end()) return {std::string{ours}};
  }
  return nearest_names(typed, known, 2);
}

std::optional<DrawnQuantity> as_on_a_drawing(std::string_view typed) {
  std::string text{typed};
  for (const std::string_view sign : {"Ø", "ø", "⌀", "D"}) {
    if (text.starts_with(sign)) text.erase(0, text.find_first_not_of(' ', sign.size()));
  }
  DrawnQuantity out;
  for (const std::string_view sign : {"±", "+/-", "+-"}) {
    const auto at = text.find(sign);
    if (at == std::string::npos || at == 0) continue;
    out.tolerance = text.substr(std::min(text.find_first_not_of(' ', at + sign.size()), text.size()));
    text.erase(text.find_last_not_of(' ', at - 1) + 1);
  }
  if (text == typed) return std::nullopt;
  out.quantity = std::move(text);
  return out;
}

std::optional<std::string> hours_meant(std::string_view typed) {
  static const std::regex form{
      R"((\d{1,2})(?:[:.h](\d{2}))?\s*h?\s*(?:-|–|to|bis)\s*(\d{1,2})(?:[:.h](\d{2}))?\s*h?)"};
  constexpr std::size_t longest = 30;
  const std::string text{typed.substr(0, longest)};
  std::smatch m;
  if (!std::regex_match(text, m, form)) return std::nullopt;
  const auto from = take_minutes(m[1], m[2]), to = take_minutes(m[3], m[4]);
  if (!from || !to || *from >= *to) return std::nullopt;
  return fmt::format("{:02}:{:02}-{:02}:{:02}", *from / 60, *from % 60, *to / 60, *to % 60);
}

}  // namespace blankwright

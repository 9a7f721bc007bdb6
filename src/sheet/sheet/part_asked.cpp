#include "sheet/sheet/part_asked.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "measure/utf8.h"

namespace blankwright {
namespace {

/// In the order of the kind.
constexpr auto hand_names = std::to_array<std::string_view>({"desk", "bath", "turner"});
constexpr auto titles = std::to_array<Word>({
#define BW_TITLE(kind, title, maker, hand, sign) Word::title,
    BW_SHEETS(BW_TITLE)
#undef BW_TITLE
});

std::string_view hand_of(SheetKind kind) {
  return hand_names.at(static_cast<std::size_t>(sheet_hands.at(static_cast<std::size_t>(kind))));
}
std::string_view key_of(SheetKind kind) { return sheet_keys.at(static_cast<std::size_t>(kind)); }
const std::string& title_of(SheetKind kind, const WordTable& words) {
  return words[titles.at(static_cast<std::size_t>(kind))];
}

bool is_persons(std::string_view key) { return std::ranges::find(hand_names, key) != hand_names.end(); }

/// What a card is counted as: "bath 2", "load 1".
std::string_view counted_as(SheetKind kind) { return kind == SheetKind::bath ? "bath" : "load"; }

bool is_card_asked(const PartOnPage& part, const std::string& what, const WordTable& words) {
  const std::string counted{counted_as(part.kind)};
  if (what == fmt::format("{} {}", counted, part.number)) return true;
  if (what == fmt::format("{} {}", ascii_lower(title_of(part.kind, words)), part.number)) return true;
  return std::ranges::any_of(part.names, [&](const std::string& name) {
    return what == ascii_lower(name) || what == counted + " " + ascii_lower(name);
  });
}

std::string titled(const PartOnPage& part, const WordTable& words) {
  const std::string& title = title_of(part.kind, words);
  return part.number == 0 ? title : fmt::format("{} {}", title, part.number);
}

void add_once(std::vector<std::string>& to, std::string one) {
  if (std::ranges::find(to, one) == to.end()) to.push_back(std::move(one));
}

}  // namespace

bool is_asked(const PartOnPage& part, std::string_view asked, const WordTable& words) {
  const std::string what = ascii_lower(asked);
  if (what == hand_of(part.kind)) return true;
  if (what == key_of(part.kind) && !is_persons(what)) return true;
  if (what == ascii_lower(title_of(part.kind, words))) return true;
  return part.number != 0 && is_card_asked(part, what, words);
}

std::vector<bool> pages_asked(std::span<const TravellerPage> pages, std::string_view what, const WordTable& words) {
  std::vector<bool> out;
  for (const TravellerPage& page : pages) {
    out.push_back(
        std::ranges::any_of(page.parts, [&](const PartOnPage& part) { return is_asked(part, what, words); }));
  }
  return out;
}

std::vector<std::string> what_can_be_asked(std::span<const TravellerPage> pages, const WordTable& words) {
  std::vector<std::string> persons, sheets, cards;
  for (const TravellerPage& page : pages) {
    for (const PartOnPage& part : page.parts) {
      add_once(persons, std::string{hand_of(part.kind)});
      const std::string_view key = key_of(part.kind);
      add_once(sheets, is_persons(key) ? fmt::format("\"{}\"", title_of(part.kind, words)) : std::string{key});
      if (part.number != 0) add_once(cards, fmt::format("\"{} {}\"", counted_as(part.kind), part.number));
    }
  }
  persons.insert(persons.end(), sheets.begin(), sheets.end());
  persons.insert(persons.end(), cards.begin(), cards.end());
  return persons;
}

std::string holds_text(const TravellerPage& page, const WordTable& words) {
  std::string out;
  const PartOnPage* before = nullptr;
  for (const PartOnPage& part : page.parts) {
    const bool goes_on = before != nullptr && before->kind == part.kind;
    if (goes_on && before->number == part.number) continue;
    out += before == nullptr ? "" : ", ";
    out += goes_on ? std::to_string(part.number) : titled(part, words);
    before = &part;
  }
  return out;
}

}  // namespace blankwright

#include "plan/tables/species.h"

#include <algorithm>

#include "measure/nearest.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

/// Longer than any name: what is typed beyond cannot change the answer.
constexpr std::size_t enough_letters = 60;

/// The words of a name in lower case and sorted. Bytes beyond ASCII count as letters.
std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words;
  bool inside = false;
  for (const char c : ascii_lower(name)) {
    const bool letter = (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) & 0x80) != 0;
    if (letter && !inside) words.emplace_back();
    if (letter) words.back() += c;
    inside = letter;
  }
  std::sort(words.begin(), words.end());
  return words;
}

/// The name and the aliases, one after the other.
std::vector<std::string> names_of(const Species& species) {
  std::vector<std::string> names{std::string{species.name}};
  for (std::string_view rest = species.aliases; !rest.empty();) {
    const std::size_t end = std::min(rest.find(';'), rest.size());
    names.emplace_back(rest.substr(0, end));
    rest.remove_prefix(std::min(end + 2, rest.size()));
  }
  return names;
}

/// What the words that somebody typed are of a name.
enum class Words { all, some };

bool goes_by(const Species& species, const std::vector<std::string>& words, Words which) {
  const std::vector<std::string> names = names_of(species);
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    const std::vector<std::string> own = words_of(name);
    return which == Words::all ? own == words : std::includes(own.begin(), own.end(), words.begin(), words.end());
  });
}

std::vector<const Species*> going_by(const std::vector<std::string>& words, Words which) {
  std::vector<const Species*> found;
  for (const Species& species : species_table()) {
    if (goes_by(species, words, which)) found.push_back(&species);
  }
  return found;
}

std::vector<std::string> full_names(const std::vector<const Species*>& species) {
  std::vector<std::string> names;
  for (const Species* one : species) names.emplace_back(one->name);
  return names;
}

/// The full names of the woods that are written most like `typed`.
std::vector<std::string> nearest_species(std::string_view typed) {
  std::vector<std::string> known;
  for (const Species& species : species_table()) {
    for (std::string& name : names_of(species)) known.push_back(std::move(name));
  }
  std::vector<std::string> nearest;
  for (const std::string& name : nearest_names(typed, known, 3)) {
    for (const Species* species : going_by(words_of(name), Words::all)) {
      const bool listed = std::find(nearest.begin(), nearest.end(), species->name) != nearest.end();
      if (!listed) nearest.emplace_back(species->name);
    }
  }
  return nearest;
}

/// Those of the words that some name has: of "spalted beech" the beech.
std::vector<std::string> known_words(std::vector<std::string> words) {
  std::erase_if(words, [](const std::string& word) { return going_by({word}, Words::some).empty(); });
  return words;
}

}  // namespace

SpeciesAnswer find_species(std::string_view name) {
  const std::string_view typed = name.substr(0, enough_letters);
  const std::vector<std::string> words = words_of(typed);
  if (words.empty()) return UnknownSpecies{};
  const std::vector<const Species*> exact = going_by(words, Words::all);
  if (exact.size() == 1) return exact.front();
  const std::vector<const Species*> partial = exact.empty() ? going_by(words, Words::some) : exact;
  if (!partial.empty()) return WhichSpecies{full_names(partial)};
  const std::vector<std::string> nearest = nearest_species(typed);
  const std::vector<std::string> known = known_words(words);
  if (!nearest.empty() || known.empty()) return UnknownSpecies{nearest};
  const std::vector<const Species*> meant = going_by(known, Words::some);
  return meant.empty() ? SpeciesAnswer{UnknownSpecies{}} : WhichSpecies{full_names(meant)};
}

}  // namespace blankwright

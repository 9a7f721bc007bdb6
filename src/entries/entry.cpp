#include "entries/entry.h"

#include <algorithm>
#include <chrono>
#include <map>

namespace blankwright {

std::optional<double> Entry::number_of(Field field) const {
  for (const auto& [name, value] : values) {
    if (name == field && std::holds_alternative<double>(value)) return std::get<double>(value);
  }
  return std::nullopt;
}

std::string Entry::text(Field field) const {
  for (const auto& [name, value] : values) {
    if (name == field && std::holds_alternative<std::string>(value)) return std::get<std::string>(value);
  }
  return {};
}

std::optional<BlankId> Entry::measured_in() const {
  const auto id = BlankId::read(text(Field::in_blank));
  return id ? std::optional{*id} : std::nullopt;
}

void Entry::set(Field field, FieldValue value) {
  const auto place = std::ranges::lower_bound(values, field, {}, &std::pair<Field, FieldValue>::first);
  if (place != values.end() && place->first == field) {
    place->second = std::move(value);
  } else {
    values.emplace(place, field, std::move(value));
  }
}

std::vector<const Entry*> holding(const std::vector<Entry>& entries) {
  std::vector<const Entry*> places;
  std::map<EntryNumber, std::size_t> place_of;  // of an entry and of all that replaced it
  for (const Entry& entry : entries) {
    const auto replaced = entry.replaces ? place_of.find(*entry.replaces) : place_of.end();
    const std::size_t place = replaced == place_of.end() ? places.size() : replaced->second;
    if (place == places.size()) places.push_back(nullptr);
    places.at(place) = entry.kind == EntryKind::corrected ? nullptr : &entry;
    place_of.emplace(entry.number, place);
  }
  std::erase(places, nullptr);
  std::ranges::stable_sort(places, {}, [](const Entry* entry) { return told_at(*entry); });
  return places;
}

Instant told_at(const Entry& entry) {
  return entry.kind == EntryKind::issued ? Instant::min() : std::chrono::floor<std::chrono::minutes>(entry.at);
}

}  // namespace blankwright

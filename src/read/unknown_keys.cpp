#include <fmt/format.h>

#include <algorithm>

#include "diagnose/problem.h"
#include "diagnose/says_read.h"
#include "read/keys.h"
#include "read/meant.h"

namespace blankwright {
namespace {

/// "handle.stations" for a key that stands in a table of this one.
std::optional<std::string> path_inside(const std::string& key, const std::vector<KeyInfo>& keys) {
  for (const KeyInfo& outer : keys) {
    if (outer.shape.type != Shape::Type::table) continue;
    if (std::ranges::find(outer.shape.keys, key, &KeyInfo::name) != outer.shape.keys.end())
      return outer.name + "." + key;
  }
  return std::nullopt;
}

/// As a part of a file is headed, or where it stands: "[[handle.stations]]" of a list of tables, else "diameter,
/// under [handle]".
Saying where_it_belongs(const std::string& path, const Node& value) {
  const auto dot = path.find('.');
  const bool in_brackets = value.type == Node::Type::list && !value.items.empty() &&
                           written_at(value.at).starts_with('[') &&
                           !written_at(value.items.front().at).starts_with('{');
  return in_brackets ? say(says::head_it, path) : say(says::stands_under, path.substr(dot + 1), path.substr(0, dot));
}

/// The length of a handle is where its last station stands.
std::optional<std::string> station_at_end(const Node& table, const Member& length) {
  const auto stations = std::ranges::find(table.members, "stations", &Member::key);
  if (length.key != "length" || stations == table.members.end() || length.value.type != Node::Type::text) return {};
  if (stations->value.items.empty()) return {};
  const Node& last = stations->value.items.back();
  const auto diameter = std::ranges::find(last.members, "diameter", &Member::key);
  if (diameter == last.members.end()) return {};
  return fmt::format("{{at = {}, diameter = {}}}", in_quotes(length.value.text), in_quotes(diameter->value.text));
}

void hint_at(Diagnostic& said, const Node& table, const Member& member, const std::vector<std::string>& known,
             const std::vector<KeyInfo>& keys, const Reading& in) {
  const auto meant = names_meant(member.key, known);
  const std::string first_part = member.key.substr(0, member.key.find_first_of("-_"));
  if (const auto end = station_at_end(table, member)) {
    said.hint(says::as_last_station, *end);
  } else if (!meant.empty()) {
    said.hint(says::did_you_mean, listed(meant, says::in_ticks, says::either));
  } else if (first_part != member.key && std::ranges::find(known, first_part) != known.end()) {
    said.hint(says::each_by_itself, first_part);
  } else if (const auto path = path_inside(member.key, keys)) {
    said.hint(where_it_belongs(*path, member.value));
  } else if (std::find(in.top.begin(), in.top.end(), member.key) != in.top.end()) {
    said.hint(says::stands_at_top, member.key);
  } else {
    said.hint(says::keys_here, listed(known, says::as_it_is, says::one_and_next));
  }
}

/// Is it an operation without any of the keys that say how long it takes?
bool lacks_time(const Node& table, const std::vector<std::string>& known) {
  if (std::ranges::find(known, "per_piece") == known.end()) return false;
  return std::ranges::none_of(table.members, [](const Member& member) {
    return member.key == "fixed" || member.key == "per_piece" || member.key == "planned" ||
           member.key == "turnaround";
  });
}

}  // namespace

std::vector<const Member*> unknown_members(const Node& table, const std::vector<std::string>& known) {
  std::vector<const Member*> unknown;
  for (const Member& member : table.members) {
    if (std::find(known.begin(), known.end(), member.key) == known.end()) unknown.push_back(&member);
  }
  return unknown;
}

void say_unknown(const Node& table, const std::vector<std::string>& known, Reading& in,
                 const std::vector<KeyInfo>& keys) {
  constexpr int most_told = 20;  // a file of another kind is not told key by key
  int told = 0;
  for (const Member* member : unknown_members(table, known)) {
    if (++told > most_told) {
      in.out.error(Problem::unknown_key, member->key_at, says::more_unknown_keys);
      return;
    }
    hint_at(in.out.error(Problem::unknown_key, member->key_at, says::unknown_key, member->key), table, *member, known,
            keys, in);
  }
}

void say_missing(const Node& table, const std::vector<MissingKey>& missing, const std::vector<std::string>& known,
                 Reading& in) {
  std::vector<std::string> names;
  std::vector<Saying> values;
  for (const auto& [name, shape] : missing) {
    if (shape.type == Shape::Type::table) {
      in.out.error(Problem::missing_key, table.at, says::key_missing, name).hint(says::add_a_table, name);
      continue;
    }
    names.emplace_back(name);
    values.push_back(say(says::key_is, name, shape.example));
  }
  if (names.empty()) return;
  if (lacks_time(table, known)) {
    names.emplace_back("per_piece");
    values.push_back(say(says::key_is, Keyword{"per_piece"}, Keyword{"\"5 min\""}));
  }
  in.out
      .error(Problem::missing_key, table.at,
             names.size() == 1 ? say(says::key_missing, names.front())
                               : say(says::keys_missing, listed(names, says::in_ticks, says::one_and_next)))
      .hint(listed(std::move(values), written_at(table.at).starts_with('{') ? says::one_and_next : says::and_also));
}

}  // namespace blankwright

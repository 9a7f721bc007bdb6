#include <fmt/format.h>
#include <fmt/ranges.h>

#include <limits>
#include <map>

#include "diagnose/failure.h"
#include "measure/nearest.h"
#include "register/entry_rows.h"
#include "register/register.h"

namespace blankwright {
namespace {

/// No entry stands in the place of entry `e` or takes it back.
constexpr std::string_view e_holds = "NOT EXISTS (SELECT 1 FROM entries r WHERE r.replaces = e.number)";

}  // namespace

BlankId Register::series() {
  Statement ask{db_, "SELECT first_id FROM series"};
  if (!ask.step()) throw WorldError{db_.name(), "the register is damaged: it has no series; restore it from a copy"};
  return stored_id(db_, ask.text(0));
}

std::vector<BlankId> Register::never_issued(std::span<const BlankId> ids) {
  // By the rule and not by looking each up, since a folder may hold the tables of many years.
  const BlankId first = series();
  const std::int64_t issued = db_.number("SELECT coalesce(max(n) + 1, 0) FROM blanks");
  std::vector<BlankId> unknown;
  for (const BlankId& id : ids) {
    if (id.place_in_series_of(first) >= issued) unknown.push_back(id);
  }
  return unknown;
}

EntryNumber Register::last_entry() { return db_.number("SELECT coalesce(max(number), 0) FROM entries"); }

std::vector<StoredOrder> Register::stored_orders() { return orders_where(db_, "?1 = ?1", ""); }

bool Register::has_order(std::string_view order_id) {
  return Statement{db_, "SELECT 1 FROM orders WHERE id = ?1"}.with(order_id).step();
}

std::map<std::string, int> Register::quantities() {
  std::map<std::string, int> wanted;
  for (const StoredOrder& order : orders_where(db_, "quantity > 0 AND ?1 = ?1", "")) {
    wanted.emplace(order.id, order.gist.quantity);
  }
  return wanted;
}

bool Register::has_blank(const BlankId& id) {
  return Statement{db_, "SELECT 1 FROM blanks WHERE id = ?1"}.with(id.encoded()).step();
}

std::vector<Entry> Register::entries_of(const BlankId& id) {
  return entries_where(db_, "blank_id = ?1", id.encoded());
}

std::optional<BlankState> Register::blank(const BlankId& id) {
  const std::vector<Entry> entries = entries_of(id);
  return entries.empty() ? std::nullopt : std::optional{state_of(entries)};
}

std::vector<Entry> Register::entries_of_bath(const std::string& name) {
  return entries_where(db_,
                       "bath = ?1 UNION SELECT number FROM entries WHERE kind IN ('into-bath', 'out-of-bath', "
                       "'drained', 'witness-cut') AND blank_id IN (SELECT blank_id FROM entries WHERE bath = ?1)",
                       name);
}

std::vector<Entry> Register::entries_of_board(const std::string& name) {
  return entries_where(db_, "board = ?1", name);
}

std::vector<Entry> Register::entries_of_resin(const std::string& name) {
  return entries_where(db_, "resin = ?1", name);
}

std::vector<Entry> Register::entries_of_load(const std::string& name) {
  return entries_where(
      db_,
      "load = ?1 UNION SELECT number FROM entries WHERE kind IN ('into-oven', 'into-drying', 'out-of-oven', "
      "'out-of-drying', 'scrapped', 'witness-cut') AND blank_id IN (SELECT blank_id FROM entries WHERE load = ?1)",
      name);
}

bool Register::knows(Field field, std::string_view name) {
  Statement ask{db_, fmt::format("SELECT 1 FROM entries e WHERE {} = ?1 AND {}", facts_of(field).name, e_holds)};
  return ask.with(name).step();
}

std::string Register::no_such(Field field, const std::string& name) {
  const std::string_view what = facts_of(field).name;
  Statement ask{
      db_, field == Field::order
               ? "SELECT id FROM orders ORDER BY id"
               : fmt::format("SELECT DISTINCT {0} FROM entries e WHERE {0} IS NOT NULL AND {1} ORDER BY {0}", what,
                             e_holds)};
  std::vector<std::string> names;
  while (ask.step()) names.push_back(ask.text(0));
  const auto near = nearest_names(name, names, 2);
  return fmt::format("the register has no {} {}{}", field == Field::resin ? "lot of resin" : what, name,
                     near.empty() ? std::string{} : fmt::format("; did you mean {}?", fmt::join(near, " or ")));
}

std::vector<Entry> Register::entered(Instant from, Instant before) { return entries_written(db_, from, before); }

std::optional<EntryNumber> Register::replaced_by(EntryNumber number) {
  Statement ask{db_, "SELECT number FROM entries WHERE replaces = ?1"};
  return ask.with(number).step() ? std::optional{ask.number(0)} : std::nullopt;
}

BathState Register::bath(const std::string& name, Instant until) {
  return folded<BathState>(name, entries_of_bath(name), until);
}
LoadState Register::load(const std::string& name, Instant until) {
  return folded<LoadState>(name, entries_of_load(name), until);
}
ResinState Register::resin(const std::string& name) { return folded<ResinState>(name, entries_of_resin(name)); }

std::vector<KnownBlank> Register::known_blanks() { return summaries_where(db_, "?1 = ?1", ""); }

std::vector<KnownBlank> Register::blanks_of_order(std::string_view order_id) {
  return summaries_where(db_,
                         "b.id IN (SELECT id FROM blanks WHERE order_id = ?1 UNION SELECT blank_id FROM blank_states "
                         "WHERE promised = ?1)",
                         order_id);
}

std::vector<KnownBlank> Register::blanks_of_board(std::string_view board) {
  return summaries_where(db_, "board = ?1", board);
}

std::vector<Entry> Register::all_entries() {
  return entries_between(db_, 0, std::numeric_limits<EntryNumber>::max());
}

std::optional<Entry> Register::entry(EntryNumber number) {
  auto found = entries_between(db_, number, number);
  if (found.empty()) return std::nullopt;
  return std::move(found.front());
}

}  // namespace blankwright

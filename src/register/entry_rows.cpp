#include "register/entry_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "diagnose/failure.h"
#include "entries/checksum.h"
#include "entries/order_id.h"

namespace blankwright {
namespace {

/// What an entry concerns, in columns of their own.
constexpr std::array in_columns{Field::order, Field::bath, Field::load, Field::board, Field::resin};

constexpr std::string_view columns =
    "number, kind, at_unix_s, offset_min, written_unix_s, person, blank_id, replaces, overridden, order_id, bath, "
    "load, "
    "board, resin, checksum";
constexpr int first_field_column = 9;
constexpr int sum_column = 14;

/// What an order's row holds, a blank's, and what follows from a blank's entries; each before its checksum.
constexpr std::string_view order_columns = "id, folded_id, at_unix_s, species, condition, dye, quantity";
constexpr Covered order_sum{0, 7, 7};
constexpr std::string_view state_columns =
    "blank_id, promised, stage, bath, load, board, verdict, result, reason, begun, drying, dry_kg, wet_kg, cured_kg, "
    "offset_1_m, offset_2_m, slope_1, slope_2, pulled_n, last_unix_s";

std::optional<std::string> filled(std::string text) {
  return text.empty() ? std::nullopt : std::optional{std::move(text)};
}

[[noreturn]] void damaged(const Database& db, std::string_view what) {
  throw WorldError{db.path(), fmt::format("the register is damaged: {}; restore it from a copy", what)};
}

/// A text that is not UTF-8 may be older than the checksums; no text is entered so.
template <class Name>
void check_sum(const Database& db, const Checksum& sum, std::int64_t written, bool is_utf8, const Name& name) {
  if (sum.value() != written) damaged(db, fmt::format("{} is not as it was written", name()));
  if (!is_utf8) damaged(db, fmt::format("{} holds a text that is not UTF-8", name()));
}

/// Runs a statement whose last value is the checksum of the others.
template <class... Values>
void run_with_sum(Statement& statement, const Values&... values) {
  statement.with(values..., Checksum::of(values...).value()).run();
}

/// Reads entries row by row, each with what it says.
class EntryReader {
 public:
  explicit EntryReader(Database& db)
      : db_{db}, values_{db, "SELECT field, value FROM entry_values WHERE number = ?1 ORDER BY field"} {}

  Entry read(const Statement& row) {
    check(row);
    Entry entry;
    entry.number = row.number(0);
    const KindFacts* kind = find_kind(row.text(1));
    if (kind == nullptr)
      damaged(db_, fmt::format("entry {} is of the unknown kind \"{}\"", entry.number, row.text(1)));
    entry.kind = kind->kind;
    entry.at = Instant{std::chrono::seconds{row.number(2)}};
    entry.offset = std::chrono::minutes{row.number(3)};
    entry.person = row.text(5);
    if (!row.is_null(6)) entry.blank = stored_id(db_, row.text(6));
    if (!row.is_null(7)) entry.replaces = row.number(7);
    entry.overridden = row.text(8);
    int column = first_field_column;
    for (const Field field : in_columns) {
      if (!row.is_null(column)) entry.set(field, row.text(column));
      ++column;
    }
    add_values(entry);
    return entry;
  }

 private:
  /// The whole entry, before anything of it is taken for true.
  void check(const Statement& row) {
    Checksum sum;
    row.add_to(sum, 0, sum_column);
    bool is_utf8 = row.is_utf8(0, sum_column);
    for (values_.with(row.number(0)); values_.step();) {
      values_.add_to(sum, 0, 2);
      is_utf8 = is_utf8 && values_.is_utf8(0, 2);
    }
    check_sum(db_, sum, row.number(sum_column), is_utf8, [&] { return fmt::format("entry {}", row.number(0)); });
  }

  void add_values(Entry& entry) {
    for (values_.with(entry.number); values_.step();) {
      const FieldFacts* field = find_field(values_.text(0));
      if (field == nullptr) {
        damaged(db_, fmt::format("entry {} has the unknown field \"{}\"", entry.number, values_.text(0)));
      }
      entry.set(field->field, values_.is_text(1) ? FieldValue{values_.text(1)} : FieldValue{values_.real(1)});
    }
  }

  Database& db_;
  Statement values_;
};

}  // namespace

BlankId stored_id(const Database& db, const std::string& text) {
  const auto blank = BlankId::read(text);
  if (!blank) damaged(db, fmt::format("\"{}\" is no blank's ID", text));
  return *blank;
}

void check_row(const Database& db, const Statement& row, const Covered& covered,
               const std::function<std::string()>& name) {
  Checksum sum;
  row.add_to(sum, covered.first, covered.count);
  check_sum(db, sum, row.is_null(covered.sum) ? -1 : row.number(covered.sum),
            row.is_utf8(covered.first, covered.count), name);
}

RowWriter::RowWriter(Database& db, Instant now)
    : db_{db},
      now_{now},
      last_{db.number("SELECT coalesce(max(number), 0) FROM entries")},
      order_{db, fmt::format("INSERT INTO orders ({}, checksum) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT "
                             "(id) DO UPDATE SET at_unix_s = ?3, species = ?4, condition = ?5, dye = ?6, "
                             "quantity = ?7, checksum = ?8",
                             order_columns)},
      blank_{db, "INSERT INTO blanks (n, id, order_id, seq, witness, checksum) VALUES (?1, ?2, ?3, ?4, ?5, ?6)"},
      entry_{db, fmt::format("INSERT INTO entries ({}) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, "
                             "?13, ?14, ?15)",
                             columns)},
      value_{db, "INSERT INTO entry_values (number, field, value) VALUES (?1, ?2, ?3)"},
      summary_{db, fmt::format("INSERT INTO blank_states ({}, checksum) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, "
                               "?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?20, ?21) ON CONFLICT (blank_id) DO "
                               "UPDATE SET promised = ?2, stage = ?3, bath = ?4, load = ?5, board = ?6, verdict = ?7, "
                               "result = ?8, reason = ?9, begun = ?10, drying = ?11, dry_kg = ?12, wet_kg = ?13, "
                               "cured_kg = ?14, offset_1_m = ?15, offset_2_m = ?16, slope_1 = ?17, slope_2 = ?18, "
                               "pulled_n = ?19, last_unix_s = ?20, checksum = ?21",
                               state_columns)} {}

void RowWriter::order(const std::string& id, Instant at, const OrderGist& gist) {
  run_with_sum(order_, id, folded_order_id(id), at.time_since_epoch().count(), gist.species, gist.condition, gist.dye,
               std::int64_t{gist.quantity});
}

void RowWriter::blank(std::int64_t n, const BlankId& id, const std::string& order_id, std::int64_t seq,
                      bool witness) {
  run_with_sum(blank_, n, id.encoded(), order_id, seq, std::int64_t{witness ? 1 : 0});
}

EntryNumber RowWriter::entry(const Entry& entry, Instant written) {
  const EntryNumber number = last_ + 1;
  std::map<std::string_view, FieldValue> in_rows;  // by the fields' names, as they are read again
  for (const auto& [field, value] : entry.values) {
    if (std::ranges::find(in_columns, field) == in_columns.end()) in_rows.emplace(facts_of(field).name, value);
  }
  const auto insert = [&](const auto&... values) {
    Checksum sum = Checksum::of(values...);
    for (const auto& [name, value] : in_rows) {
      sum.add(name);
      std::visit([&](const auto& plain) { sum.add(plain); }, value);
    }
    entry_.with(values..., sum.value()).run();
  };
  insert(number, name_of(entry.kind), entry.at.time_since_epoch().count(), std::int64_t{entry.offset.count()},
         written.time_since_epoch().count(), entry.person,
         entry.blank ? std::optional{entry.blank->encoded()} : std::nullopt, entry.replaces, entry.overridden,
         filled(entry.text(Field::order)), filled(entry.text(Field::bath)), filled(entry.text(Field::load)),
         filled(entry.text(Field::board)), filled(entry.text(Field::resin)));
  for (const auto& [name, value] : in_rows) {
    std::visit([&, &name = name](const auto& plain) { value_.with(number, name, plain).run(); }, value);
  }
  last_ = number;
  return number;
}

void RowWriter::summary(const BlankSummary& s) {
  const auto kg = [](const std::optional<Mass>& mass) {
    return mass ? std::optional{*mass / kilogram} : std::nullopt;
  };
  const auto axis = [&](auto value) { return s.axis ? std::optional<double>{value(*s.axis)} : std::nullopt; };
  const auto name = [](const auto& value) { return value ? name_of(*value) : std::string_view{}; };
  run_with_sum(summary_, s.id->encoded(), s.promised, name_of(s.stage), s.bath, s.load, s.board, name(s.verdict),
               name(s.result), s.reason, std::int64_t{s.begun ? 1 : 0}, s.drying, kg(s.dry), kg(s.wet), kg(s.cured),
               axis([](const AxisOffset& a) { return a.offset_1 / metre; }),
               axis([](const AxisOffset& a) { return a.offset_2 / metre; }),
               axis([](const AxisOffset& a) { return a.slope_1; }),
               axis([](const AxisOffset& a) { return a.slope_2; }),
               s.pulled ? std::optional{*s.pulled / newton} : std::nullopt, s.last_at.time_since_epoch().count());
}

std::vector<Entry> entries_where(Database& db, std::string_view where, std::string_view value) {
  Statement ask{db, fmt::format("WITH RECURSIVE picked (number) AS (SELECT number FROM entries WHERE {} UNION "
                                "SELECT e.number FROM entries e JOIN picked p ON e.replaces = p.number UNION "
                                "SELECT e.replaces FROM entries e JOIN picked p ON e.number = p.number "
                                "WHERE e.replaces IS NOT NULL) "
                                "SELECT {} FROM entries WHERE number IN picked ORDER BY number",
                                where, columns)};
  EntryReader reader{db};
  std::vector<Entry> entries;
  for (ask.with(value); ask.step();) entries.push_back(reader.read(ask));
  return entries;
}

std::vector<Entry> entries_written(Database& db, Instant from, Instant before) {
  Statement ask{db, fmt::format("SELECT {} FROM entries WHERE written_unix_s >= ?1 AND written_unix_s < ?2 AND "
                                "kind <> 'issued' ORDER BY number",
                                columns)};
  EntryReader reader{db};
  std::vector<Entry> entries;
  ask.with(std::int64_t{from.time_since_epoch().count()}, std::int64_t{before.time_since_epoch().count()});
  while (ask.step()) entries.push_back(reader.read(ask));
  return entries;
}

std::map<EntryNumber, Instant> times_written(Database& db) {
  Statement ask{db, "SELECT number, written_unix_s FROM entries WHERE written_unix_s <> 0"};
  std::map<EntryNumber, Instant> times;
  while (ask.step()) times.emplace_hint(times.end(), ask.number(0), Instant{std::chrono::seconds{ask.number(1)}});
  return times;
}

std::vector<Entry> entries_after(Database& db, EntryNumber after, std::int64_t at_most) {
  Statement ask{db, fmt::format("SELECT {} FROM entries WHERE number > ?1 ORDER BY number LIMIT ?2", columns)};
  EntryReader reader{db};
  std::vector<Entry> entries;
  for (ask.with(after, at_most); ask.step();) entries.push_back(reader.read(ask));
  return entries;
}

std::vector<StoredOrder> orders_where(Database& db, std::string_view where, std::string_view value) {
  Statement ask{db, fmt::format("SELECT {}, checksum FROM orders WHERE {} ORDER BY id", order_columns, where)};
  std::vector<StoredOrder> orders;
  for (ask.with(value); ask.step();) {
    check_row(db, ask, order_sum, [&] { return fmt::format("order \"{}\"", ask.text(0)); });
    orders.push_back({ask.text(0),
                      Instant{std::chrono::seconds{ask.number(2)}},
                      {ask.text(3), ask.text(4), ask.text(5), static_cast<int>(ask.number(6))}});
  }
  return orders;
}

namespace {

/// What a column of names says; empty says nothing.
template <class Named>
auto read_name(const Database& db, const std::string& text, Named named, std::string_view what) {
  const auto value = named(text);
  if (!value && !text.empty()) damaged(db, fmt::format("\"{}\" is no {}", text, what));
  return value;
}

/// What follows from a blank's entries, of a row whose columns from `first` on are `state_columns`.
BlankSummary read_state(const Database& db, const Statement& row, int first, BlankSummary blank) {
  const auto real = [&](int column) {
    return row.is_null(first + column) ? std::nullopt : std::optional{row.real(first + column)};
  };
  const auto mass = [&](int column) {
    const auto kg = real(column);
    return kg ? std::optional{*kg * kilogram} : std::nullopt;
  };
  const auto stage = stage_named(row.text(first + 2));
  if (!stage) damaged(db, fmt::format("\"{}\" is no stage", row.text(first + 2)));
  blank.promised = row.text(first + 1);
  blank.stage = *stage;
  blank.bath = row.text(first + 3);
  blank.load = row.text(first + 4);
  blank.board = row.text(first + 5);
  blank.verdict = read_name(db, row.text(first + 6), graded_named, "verdict");
  blank.result = read_name(db, row.text(first + 7), outcome_named, "result");
  blank.reason = row.text(first + 8);
  blank.begun = row.number(first + 9) != 0;
  blank.drying = row.text(first + 10);
  blank.dry = mass(11);
  blank.wet = mass(12);
  blank.cured = mass(13);
  if (real(14)) blank.axis = AxisOffset{*real(14) * metre, *real(15) * metre, *real(16), *real(17)};
  if (real(18)) blank.pulled = *real(18) * newton;
  blank.last_at = Instant{std::chrono::seconds{row.number(first + 19)}};
  return blank;
}

}  // namespace

std::vector<KnownBlank> summaries_where(Database& db, std::string_view where, std::string_view value) {
  constexpr Covered blank_sum{0, 5, 5};
  constexpr Covered state_sum{6, 20, 26};
  constexpr Covered order_sum_here{27, 7, 34};
  Statement ask{db,
                fmt::format("SELECT n, b.id, order_id, seq, witness, b.checksum, {}, s.checksum, o.id, folded_id, "
                            "at_unix_s, species, condition, dye, quantity, o.checksum FROM blanks b LEFT JOIN "
                            "blank_states s ON s.blank_id = b.id JOIN orders o ON o.id = b.order_id WHERE {} "
                            "ORDER BY n",
                            state_columns, where)};
  std::vector<KnownBlank> known;
  for (ask.with(value); ask.step();) {
    check_row(db, ask, blank_sum, [&] { return fmt::format("blank \"{}\"", ask.text(1)); });
    check_row(db, ask, order_sum_here, [&] { return fmt::format("order \"{}\"", ask.text(27)); });
    BlankSummary blank;
    blank.id = stored_id(db, ask.text(1));
    blank.order = ask.text(2);
    blank.promised = blank.order;
    blank.witness = ask.number(4) != 0;
    if (ask.is_null(state_sum.first)) {
      blank.last_at = entries_where(db, "blank_id = ?1", ask.text(1)).at(0).at;
    } else {
      check_row(db, ask, state_sum, [&] { return fmt::format("what is kept of blank {}", blank.id->shown()); });
      blank = read_state(db, ask, state_sum.first, std::move(blank));
    }
    known.push_back({std::move(blank), ask.text(30), ask.text(31), ask.text(32)});
  }
  return known;
}

}  // namespace blankwright

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
constexpr int field_column = 15, figure_column = 16, words_column = 17;  // behind them, of a value

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
  throw WorldError{db.name(), fmt::format("the register is damaged: {}; restore it from a copy", what)};
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

/// Entries as `entry_query()` asks for them: a row a value, or one for an entry without any.
class EntryReader {
 public:
  EntryReader(Database& db, Statement& rows) : db_{db}, rows_{rows} {}

  std::vector<Entry> read_all() {
    std::vector<Entry> entries;
    for (bool more = rows_.step(); more;) more = read_one(entries);
    return entries;
  }

 private:
  /// Adds the entry whose first row is the present one. Of one that is not as it was written nothing is taken for
  /// true. Is there a row of a next one?
  bool read_one(std::vector<Entry>& entries) {
    const std::int64_t number = rows_.number(0), written = rows_.number(sum_column);
    Checksum sum;
    rows_.add_to(sum, 0, sum_column);
    bool is_utf8 = rows_.is_utf8(0, sum_column), more = true;
    std::string fault;
    Entry entry = read_columns(fault);
    do {
      if (!rows_.is_null(field_column)) {
        sum.add(rows_.text(field_column));
        rows_.add_to(sum, rows_.is_null(figure_column) ? words_column : figure_column, 1);
        is_utf8 = is_utf8 && rows_.is_utf8(field_column, 1) && rows_.is_utf8(words_column, 1);
        read_value(entry, fault);
      }
      more = rows_.step();
    } while (more && rows_.number(0) == number);
    check_sum(db_, sum, written, is_utf8, [&] { return fmt::format("entry {}", number); });
    if (!fault.empty()) damaged(db_, fault);
    entries.push_back(std::move(entry));
    return more;
  }

  Entry read_columns(std::string& fault) const {
    Entry entry;
    entry.number = rows_.number(0);
    if (const KindFacts* kind = find_kind(rows_.text(1))) {
      entry.kind = kind->kind;
    } else {
      fault = fmt::format("entry {} is of the unknown kind \"{}\"", entry.number, rows_.text(1));
    }
    entry.at = Instant{std::chrono::seconds{rows_.number(2)}};
    entry.offset = std::chrono::minutes{rows_.number(3)};
    entry.person = rows_.text(5);
    if (!rows_.is_null(6)) {
      const auto blank = BlankId::read(rows_.text(6));
      if (blank) entry.blank = *blank;
      if (!blank) fault = fmt::format("\"{}\" is no blank's ID", rows_.text(6));
    }
    if (!rows_.is_null(7)) entry.replaces = rows_.number(7);
    entry.overridden = rows_.text(8);
    int column = first_field_column;
    for (const Field field : in_columns) {
      if (!rows_.is_null(column)) entry.set(field, rows_.text(column));
      ++column;
    }
    return entry;
  }

  void read_value(Entry& entry, std::string& fault) const {
    const FieldFacts* field = find_field(rows_.text(field_column));
    if (field == nullptr) {
      fault = fmt::format("entry {} has the unknown field \"{}\"", entry.number, rows_.text(field_column));
      return;
    }
    entry.set(field->field, rows_.is_null(figure_column) ? FieldValue{rows_.text(words_column)}
                                                         : FieldValue{rows_.real(figure_column)});
  }

  Database& db_;
  Statement& rows_;
};

/// What EntryReader reads, `from` entries e and their values v.
std::string entry_query(const Database& db, std::string_view from) {
  return fmt::format("SELECT e.*, v.field, {} FROM {} ORDER BY e.number, v.field", db.dialect().figure_and_text,
                     from);
}

/// Entries that a condition on the table picks.
std::string entries_that(std::string_view condition) {
  return fmt::format("(SELECT {} FROM entries WHERE {}) e LEFT JOIN entry_values v ON v.number = e.number", columns,
                     condition);
}

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
    : now_{now},
      last_{db.number("SELECT coalesce(max(number), 0) FROM entries")},
      order_{db, fmt::format("INSERT INTO orders ({}, checksum) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT "
                             "(id) DO UPDATE SET at_unix_s = ?3, species = ?4, condition = ?5, dye = ?6, "
                             "quantity = ?7, checksum = ?8",
                             order_columns)},
      blank_{db, "INSERT INTO blanks (n, id, order_id, seq, witness, checksum) VALUES (?1, ?2, ?3, ?4, ?5, ?6)"},
      entry_{db, fmt::format("INSERT INTO entries ({}) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, "
                             "?13, ?14, ?15)",
                             columns)},
      value_{db, db.dialect().insert_value},
      summary_{db,
               fmt::format("INSERT INTO blank_states ({}, checksum) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, "
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
    const auto* figure = std::get_if<double>(&value);
    const auto* words = std::get_if<std::string>(&value);
    value_.with(number, name, figure ? std::optional{*figure} : std::nullopt,
                words ? std::optional{*words} : std::nullopt);
    value_.run();
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
  const std::string picked = fmt::format(fmt::runtime(db.dialect().picked), where);
  const std::string from = fmt::format(fmt::runtime(db.dialect().from_picked), columns);
  Statement ask{db, fmt::format("{} {}", picked, entry_query(db, from))};
  return EntryReader{db, ask.with(value)}.read_all();
}

std::vector<Entry> entries_written(Database& db, Instant from, Instant before) {
  Statement ask{db,
                entry_query(db, entries_that("written_unix_s >= ?1 AND written_unix_s < ?2 AND kind <> 'issued'"))};
  ask.with(std::int64_t{from.time_since_epoch().count()}, std::int64_t{before.time_since_epoch().count()});
  return EntryReader{db, ask}.read_all();
}

std::map<EntryNumber, Instant> times_written(Database& db) {
  Statement ask{db, "SELECT number, written_unix_s FROM entries WHERE written_unix_s <> 0 ORDER BY number"};
  std::map<EntryNumber, Instant> times;
  while (ask.step()) times.emplace_hint(times.end(), ask.number(0), Instant{std::chrono::seconds{ask.number(1)}});
  return times;
}

std::vector<Entry> entries_between(Database& db, EntryNumber first, EntryNumber last) {
  Statement ask{db, entry_query(db, entries_that("number >= ?1 AND number <= ?2"))};
  return EntryReader{db, ask.with(first, last)}.read_all();
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

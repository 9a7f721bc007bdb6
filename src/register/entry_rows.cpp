#include "register/entry_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// What an entry concerns, in columns of their own.
constexpr std::array in_columns{Field::order, Field::bath, Field::load, Field::board, Field::resin};

constexpr std::string_view columns =
    "number, kind, at_unix_s, offset_min, person, blank_id, replaces, overridden, order_id, bath, load, board, resin";
constexpr int first_field_column = 8;

std::optional<std::string> filled(std::string text) {
  return text.empty() ? std::nullopt : std::optional{std::move(text)};
}

[[noreturn]] void damaged(const Database& db, std::string_view what) {
  throw WorldError{db.path(), fmt::format("the register is damaged: {}", what)};
}

/// Reads entries row by row, each with what it says.
class EntryReader {
 public:
  explicit EntryReader(Database& db)
      : db_{db}, values_{db, "SELECT field, value FROM entry_values WHERE number = ?1"} {}

  Entry read(const Statement& row) {
    Entry entry;
    entry.number = row.number(0);
    const KindFacts* kind = find_kind(row.text(1));
    if (kind == nullptr)
      damaged(db_, fmt::format("entry {} is of the unknown kind \"{}\"", entry.number, row.text(1)));
    entry.kind = kind->kind;
    entry.at = Instant{std::chrono::seconds{row.number(2)}};
    entry.offset = std::chrono::minutes{row.number(3)};
    entry.person = row.text(4);
    if (!row.is_null(5)) entry.blank = stored_id(db_, row.text(5));
    if (!row.is_null(6)) entry.replaces = row.number(6);
    entry.overridden = row.text(7);
    int column = first_field_column;
    for (const Field field : in_columns) {
      if (!row.is_null(column)) entry.set(field, row.text(column));
      ++column;
    }
    add_values(entry);
    return entry;
  }

 private:
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

RowWriter::RowWriter(Database& db, Instant now)
    : db_{db},
      now_{now},
      blank_{db, "INSERT INTO blanks (n, id, order_id, seq, witness) VALUES (?1, ?2, ?3, ?4, ?5)"},
      entry_{
          db,
          "INSERT INTO entries (kind, at_unix_s, offset_min, written_unix_s, person, blank_id, replaces, overridden, "
          "order_id, bath, load, board, resin) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)"},
      value_{db, "INSERT INTO entry_values (number, field, value) VALUES (?1, ?2, ?3)"},
      summary_{
          db,
          "INSERT INTO blank_states (blank_id, promised, stage, bath, load, board, verdict, result, reason, dry_kg, "
          "wet_kg, cured_kg, offset_1_m, offset_2_m, slope_1, slope_2, pulled_n, last_unix_s) VALUES (?1, ?2, ?3, "
          "?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18) ON CONFLICT (blank_id) DO UPDATE "
          "SET promised = ?2, stage = ?3, bath = ?4, load = ?5, board = ?6, verdict = ?7, result = ?8, "
          "reason = ?9, dry_kg = ?10, wet_kg = ?11, cured_kg = ?12, offset_1_m = ?13, offset_2_m = ?14, "
          "slope_1 = ?15, slope_2 = ?16, pulled_n = ?17, last_unix_s = ?18"} {}

void RowWriter::blank(std::int64_t n, const BlankId& id, const std::string& order_id, std::int64_t seq,
                      bool witness) {
  blank_.with(n, id.encoded(), order_id, seq, std::int64_t{witness ? 1 : 0}).run();
}

EntryNumber RowWriter::entry(const Entry& entry) {
  entry_
      .with(name_of(entry.kind), entry.at.time_since_epoch().count(), std::int64_t{entry.offset.count()},
            now_.time_since_epoch().count(), entry.person,
            entry.blank ? std::optional{entry.blank->encoded()} : std::nullopt, entry.replaces, entry.overridden,
            filled(entry.text(Field::order)), filled(entry.text(Field::bath)), filled(entry.text(Field::load)),
            filled(entry.text(Field::board)), filled(entry.text(Field::resin)))
      .run();
  const EntryNumber number = db_.last_row();
  for (const auto& [field, value] : entry.values) {
    if (std::ranges::find(in_columns, field) != in_columns.end()) continue;
    if (std::holds_alternative<double>(value)) {
      value_.with(number, facts_of(field).name, std::get<double>(value)).run();
    } else {
      value_.with(number, facts_of(field).name, std::get<std::string>(value)).run();
    }
  }
  return number;
}

void RowWriter::summary(const BlankSummary& s) {
  const auto kg = [](const std::optional<Mass>& mass) {
    return mass ? std::optional{*mass / kilogram} : std::nullopt;
  };
  const auto axis = [&](auto value) { return s.axis ? std::optional<double>{value(*s.axis)} : std::nullopt; };
  summary_
      .with(s.id->encoded(), s.promised, name_of(s.stage), s.bath, s.load, s.board, s.verdict, s.result, s.reason,
            kg(s.dry), kg(s.wet), kg(s.cured), axis([](const AxisOffset& a) { return a.offset_1 / metre; }),
            axis([](const AxisOffset& a) { return a.offset_2 / metre; }),
            axis([](const AxisOffset& a) { return a.slope_1; }), axis([](const AxisOffset& a) { return a.slope_2; }),
            s.pulled ? std::optional{*s.pulled / newton} : std::nullopt, s.last_at.time_since_epoch().count())
      .run();
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

std::vector<Entry> entries_after(Database& db, EntryNumber after, std::int64_t at_most) {
  Statement ask{db, fmt::format("SELECT {} FROM entries WHERE number > ?1 ORDER BY number LIMIT ?2", columns)};
  EntryReader reader{db};
  std::vector<Entry> entries;
  for (ask.with(after, at_most); ask.step();) entries.push_back(reader.read(ask));
  return entries;
}

std::vector<KnownBlank> summaries_where(Database& db, std::string_view where, std::string_view value) {
  Statement ask{db, fmt::format("SELECT b.id, b.order_id, coalesce(promised, b.order_id), coalesce(stage, 'begun'), "
                                "bath, load, board, verdict, result, reason, dry_kg, wet_kg, cured_kg, offset_1_m, "
                                "offset_2_m, slope_1, slope_2, pulled_n, species, condition, dye, "
                                "coalesce(last_unix_s, (SELECT at_unix_s FROM entries WHERE blank_id = b.id)) "
                                "FROM blanks b LEFT JOIN blank_states s ON s.blank_id = b.id "
                                "JOIN orders o ON o.id = b.order_id WHERE {} ORDER BY b.n",
                                where)};
  std::vector<KnownBlank> known;
  const auto real = [&](int column) { return ask.is_null(column) ? std::nullopt : std::optional{ask.real(column)}; };
  const auto mass = [&](int column) {
    const auto kg = real(column);
    return kg ? std::optional{*kg * kilogram} : std::nullopt;
  };
  for (ask.with(value); ask.step();) {
    const auto stage = stage_named(ask.text(3));
    if (!stage) damaged(db, fmt::format("\"{}\" is no stage", ask.text(3)));
    BlankSummary s{stored_id(db, ask.text(0)),
                   ask.text(1),
                   ask.text(2),
                   *stage,
                   ask.text(4),
                   ask.text(5),
                   ask.text(6),
                   ask.text(7),
                   ask.text(8),
                   ask.text(9),
                   mass(10),
                   mass(11),
                   mass(12),
                   {},
                   {}};
    if (!ask.is_null(13)) {
      s.axis = AxisOffset{ask.real(13) * metre, ask.real(14) * metre, ask.real(15), ask.real(16)};
    }
    if (!ask.is_null(17)) s.pulled = ask.real(17) * newton;
    s.last_at = Instant{std::chrono::seconds{ask.number(21)}};
    known.push_back({std::move(s), ask.text(18), ask.text(19), ask.text(20)});
  }
  return known;
}

}  // namespace blankwright

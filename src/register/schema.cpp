#include "register/schema.h"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string_view>

#include "diagnose/failure.h"
#include "register/format_4.h"
#include "register/format_5.h"
#include "register/format_6.h"

namespace blankwright {
namespace {

constexpr std::int64_t application_id = 0x42577267;  // "BWrg", in the file's header

/// Up to this many bytes (some ten thousand blanks) a register is looked through whole before it is used. In a larger
/// one, where that would take longer than the question, SQLite still refuses each damaged page that it meets.
constexpr std::int64_t looked_through_whole = 16'000'000;

/// Names carry units: `_unix_s` is seconds since 1970-01-01 UTC. What a compile depends on stands with its order.
/// Blanks and entries are facts; the triggers keep anything, other programs included, from changing them unawares.
constexpr const char* format_1 = R"sql(
  CREATE TABLE orders (
    id              TEXT NOT NULL PRIMARY KEY,
    folded_id       TEXT NOT NULL UNIQUE,
    job_text        TEXT NOT NULL,
    shop_text       TEXT NOT NULL,
    template_text   TEXT NOT NULL,
    program_version TEXT NOT NULL,
    at_unix_s       INTEGER NOT NULL
  ) STRICT;
  CREATE TABLE blanks (
    n        INTEGER NOT NULL PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    order_id TEXT NOT NULL REFERENCES orders (id),
    seq      INTEGER NOT NULL CHECK (seq >= 1),
    UNIQUE (order_id, seq)
  ) STRICT;
  CREATE TABLE entries (
    number    INTEGER NOT NULL PRIMARY KEY,
    kind      TEXT NOT NULL,
    at_unix_s INTEGER NOT NULL,
    order_id  TEXT REFERENCES orders (id),
    blank_id  TEXT REFERENCES blanks (id)
  ) STRICT;
  CREATE TRIGGER blanks_stay  BEFORE UPDATE ON blanks  BEGIN SELECT RAISE (ABORT, 'blanks are never changed'); END;
  CREATE TRIGGER blanks_keep  BEFORE DELETE ON blanks  BEGIN SELECT RAISE (ABORT, 'blanks are never removed'); END;
  CREATE TRIGGER entries_stay BEFORE UPDATE ON entries BEGIN SELECT RAISE (ABORT, 'entries are never changed'); END;
  CREATE TRIGGER entries_keep BEFORE DELETE ON entries BEGIN SELECT RAISE (ABORT, 'entries are never removed'); END;
)sql";

void from_0_to_1(Database& db) {
  db.run(fmt::format("PRAGMA application_id = {}", application_id));
  db.run(format_1);
}

/// Entries of all kinds. What an entry concerns has a column, so that it is found; the rest of what it says is a row
/// each. `blank_states` is derived: what follows from a blank's entries, kept beside them for questions about the
/// whole shop, and written in the same transaction. A blank of which nothing was said since it was issued has no row.
constexpr const char* format_2 = R"sql(
  ALTER TABLE orders ADD COLUMN species   TEXT NOT NULL DEFAULT '';
  ALTER TABLE orders ADD COLUMN condition TEXT NOT NULL DEFAULT '';
  ALTER TABLE orders ADD COLUMN dye       TEXT NOT NULL DEFAULT '';
  ALTER TABLE orders ADD COLUMN quantity  INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE blanks ADD COLUMN witness INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE entries ADD COLUMN offset_min     INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE entries ADD COLUMN written_unix_s INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE entries ADD COLUMN person         TEXT NOT NULL DEFAULT '';
  ALTER TABLE entries ADD COLUMN bath           TEXT;
  ALTER TABLE entries ADD COLUMN load           TEXT;
  ALTER TABLE entries ADD COLUMN board          TEXT;
  ALTER TABLE entries ADD COLUMN resin          TEXT;
  ALTER TABLE entries ADD COLUMN replaces       INTEGER REFERENCES entries (number);
  ALTER TABLE entries ADD COLUMN overridden     TEXT NOT NULL DEFAULT '';
  CREATE INDEX entries_of_blank ON entries (blank_id);
  CREATE INDEX entries_of_bath  ON entries (bath)  WHERE bath  IS NOT NULL;
  CREATE INDEX entries_of_load  ON entries (load)  WHERE load  IS NOT NULL;
  CREATE INDEX entries_of_board ON entries (board) WHERE board IS NOT NULL;
  CREATE INDEX entries_of_resin ON entries (resin) WHERE resin IS NOT NULL;
  CREATE UNIQUE INDEX entries_replaced ON entries (replaces) WHERE replaces IS NOT NULL;
  CREATE TABLE entry_values (
    number INTEGER NOT NULL REFERENCES entries (number),
    field  TEXT NOT NULL,
    value  ANY  NOT NULL,
    PRIMARY KEY (number, field)
  ) STRICT, WITHOUT ROWID;
  CREATE TRIGGER values_stay BEFORE UPDATE ON entry_values BEGIN SELECT RAISE (ABORT, 'entries are never changed'); END;
  CREATE TRIGGER values_keep BEFORE DELETE ON entry_values BEGIN SELECT RAISE (ABORT, 'entries are never removed'); END;
  CREATE TABLE blank_states (
    blank_id TEXT NOT NULL PRIMARY KEY REFERENCES blanks (id),
    promised TEXT NOT NULL,
    stage    TEXT NOT NULL,
    last_unix_s INTEGER NOT NULL,
    bath     TEXT NOT NULL DEFAULT '',
    load     TEXT NOT NULL DEFAULT '',
    board    TEXT NOT NULL DEFAULT '',
    verdict  TEXT NOT NULL DEFAULT '',
    result   TEXT NOT NULL DEFAULT '',
    reason   TEXT NOT NULL DEFAULT '',
    dry_kg   REAL, wet_kg REAL, cured_kg REAL,
    offset_1_m REAL, offset_2_m REAL, slope_1 REAL, slope_2 REAL,
    pulled_n REAL
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX blanks_promised ON blank_states (promised);
  CREATE INDEX blanks_of_board ON blank_states (board);
)sql";

void from_1_to_2(Database& db) { db.run(format_2); }

/// Where the register's series of IDs begins: one row. Registers of before all began with BlankId::nth(0), and their
/// tags are out. The series of a register that has given out an ID stays.
constexpr const char* format_3 = R"sql(
  CREATE TABLE series (
    only     INTEGER NOT NULL PRIMARY KEY CHECK (only = 1),
    first_id TEXT NOT NULL
  ) STRICT;
  INSERT INTO series VALUES (1, 'NG732GX');
  CREATE TRIGGER series_stays BEFORE UPDATE ON series WHEN EXISTS (SELECT 1 FROM blanks)
    BEGIN SELECT RAISE (ABORT, 'series that were begun are never changed'); END;
  CREATE TRIGGER series_keep BEFORE DELETE ON series
    BEGIN SELECT RAISE (ABORT, 'series are never removed'); END;
)sql";

void from_2_to_3(Database& db) { db.run(format_3); }

/// The step at place k leads from format k to format k + 1. A step that was once released is never changed.
constexpr std::array steps{&from_0_to_1, &from_1_to_2, &from_2_to_3, &from_3_to_4, &from_4_to_5, &from_5_to_6};
constexpr auto newest_format = static_cast<std::int64_t>(steps.size());

/// Throws WorldError unless these marks of an SQLite file's header are those of a register that this program knows.
void check_marks(const std::string& path, std::int64_t application, std::int64_t format) {
  if (application != application_id) throw WorldError{path, "this is a database of another program, not a register"};
  if (format > newest_format) {
    throw WorldError{path, fmt::format("this register has format {}, and this program knows formats up to {}; "
                                       "use the newer program",
                                       format, newest_format)};
  }
  if (format < 1) throw WorldError{path, fmt::format("the register is damaged: its format is {}", format)};
}

/// A copy of a register of an older format, as it was, beside it: "shop.register.format-1".
void keep_a_copy(Database& db) {
  const std::int64_t format = db.number("PRAGMA user_version");
  if (format == 0) return;
  const std::string copy = fmt::format("{}.format-{}", db.path(), format);
  std::error_code error;
  for (int n = 1; n < 1000; ++n) {
    const std::string path = n == 1 ? copy : fmt::format("{}-{}", copy, n);
    if (std::filesystem::exists(path, error)) continue;
    db.copy_to(path);
    return;
  }
  throw WorldError{copy, "there are too many copies of the register from before its change of format"};
}

/// A big-endian 32-bit number, as the file's header holds them (sqlite.org/fileformat2.html, section 1.3).
std::int64_t number_at(std::string_view header, std::size_t at) {
  std::uint32_t value = 0;
  for (const char c : header.substr(at, 4)) value = value << 8U | static_cast<unsigned char>(c);
  return static_cast<std::int32_t>(value);
}

}  // namespace

Found look_at_register(const std::string& path) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) return Found::nothing;
  if (status.type() == std::filesystem::file_type::directory)
    throw WorldError{path, "this is a folder, not a register"};
  if (error) throw WorldError{path, error.message()};
  if (status.type() != std::filesystem::file_type::regular) throw WorldError{path, "this is not a file"};

  std::ifstream file{path, std::ios::binary};
  if (!file) throw WorldError{path, "the register cannot be opened for reading"};
  std::string header(100, '\0');
  file.read(header.data(), static_cast<std::streamsize>(header.size()));
  if (file.bad()) throw WorldError{path, "the register cannot be read"};
  if (file.gcount() == 0) return Found::nothing;
  if (!header.starts_with(std::string_view{"SQLite format 3\0", 16}) || !file) {
    throw WorldError{path, "this is not a register"};
  }
  const std::int64_t format = number_at(header, 60);
  check_marks(path, number_at(header, 68), format);
  return format < newest_format ? Found::older : Found::register_;
}

void check_soundness(Database& db) {
  if (db.number("PRAGMA page_count") * db.number("PRAGMA page_size") > looked_through_whole) return;
  // Not quick_check, which takes a third of the time and does not hold the indexes against what they stand for: one
  // flipped bit in an index, and entries are missing from an answer.
  Statement check{db, "PRAGMA integrity_check(1)"};
  check.run();
  if (const std::string found = check.text(0); found != "ok") {
    throw WorldError{db.path(), fmt::format("the register is damaged ({}); restore it from a copy", found)};
  }
}

bool bring_up_to_date(Database& db, const std::optional<BlankId>& series_if_new,
                      const std::function<void()>& work_out_states) {
  if (db.number("PRAGMA user_version") == newest_format) return false;
  db.make_private();
  keep_a_copy(db);
  Transaction change{db};
  const bool empty = db.number("SELECT count(*) FROM sqlite_schema") == 0;
  std::int64_t format = empty ? 0 : db.number("PRAGMA user_version");
  if (!empty)
    check_marks(db.path(), db.number("PRAGMA application_id"), format);  // somebody else may have been faster
  if (empty && !series_if_new) throw WorldError{db.path(), "there is no register"};
  for (; format < newest_format; ++format) steps.at(static_cast<std::size_t>(format))(db);
  work_out_states();
  if (empty) Statement{db, "UPDATE series SET first_id = ?1"}.with(series_if_new->encoded()).run();
  db.run(fmt::format("PRAGMA user_version = {}", newest_format));
  change.commit();
  return empty;
}

}  // namespace blankwright

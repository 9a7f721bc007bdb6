#include "register/schema.h"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <cstdint>

#include "diagnose/failure.h"
#include "register/format.h"
#include "register/format_4.h"
#include "register/format_5.h"
#include "register/format_6.h"

namespace blankwright {
namespace {

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

void from_0_to_1(Database& db) { db.run(format_1); }

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

/// What leads from one format to the next, in a file and on a server; none where there was no such format there. A
/// step that was once released is never changed.
struct Step {
  void (*in_file)(Database&);
  void (*on_server)(Database&);
};

/// The one at place k leads from format k to format k + 1. On a server the first one is format 6, made whole.
constexpr std::array steps{Step{from_0_to_1, nullptr}, Step{from_1_to_2, nullptr}, Step{from_2_to_3, nullptr},
                           Step{from_3_to_4, nullptr}, Step{from_4_to_5, nullptr}, Step{from_5_to_6, make_format_6}};
static_assert(steps.size() == newest_format);

}  // namespace

bool bring_up_to_date(Database& db, const std::optional<BlankId>& series_if_new,
                      const std::function<void()>& work_out_states) {
  if (db.format() == newest_format) return false;
  Transaction change{db};
  const std::int64_t from = db.format();  // somebody else may have been faster
  if (from == newest_format) return false;
  const bool is_new = from == 0;
  if (is_new && !series_if_new) throw WorldError{db.name(), "there is no register"};
  if (!is_new) db.keep_old();
  for (auto k = static_cast<std::size_t>(from); k < steps.size(); ++k) {
    const auto step = db.is_on_server() ? steps.at(k).on_server : steps.at(k).in_file;
    if (step != nullptr) step(db);
  }
  work_out_states();
  if (is_new) Statement{db, "UPDATE series SET first_id = ?1"}.with(series_if_new->encoded()).run();
  db.set_format(newest_format);
  change.commit();
  return is_new;
}

}  // namespace blankwright

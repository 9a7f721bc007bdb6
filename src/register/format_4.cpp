#include "register/format_4.h"

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "entries/checksum.h"

namespace blankwright {
namespace {

/// A text is stored once, however many prints it stands in. The checksum of a print covers those of its texts too.
constexpr const char* tables = R"sql(
  CREATE TABLE texts (
    id       INTEGER NOT NULL PRIMARY KEY,
    body     TEXT NOT NULL,
    checksum INTEGER NOT NULL
  ) STRICT;
  CREATE INDEX texts_by_checksum ON texts (checksum);
  CREATE TABLE prints (
    order_id        TEXT NOT NULL REFERENCES orders (id),
    number          INTEGER NOT NULL CHECK (number >= 1),
    at_unix_s       INTEGER NOT NULL,
    made_unix_s     INTEGER NOT NULL,
    last_entry      INTEGER NOT NULL,
    program_version TEXT NOT NULL,
    job             INTEGER NOT NULL REFERENCES texts (id),
    shop            INTEGER NOT NULL REFERENCES texts (id),
    template        INTEGER NOT NULL REFERENCES texts (id),
    checksum        INTEGER NOT NULL,
    PRIMARY KEY (order_id, number)
  ) STRICT, WITHOUT ROWID;
  INSERT INTO texts (body, checksum)
    SELECT body, 0 FROM (SELECT job_text AS body FROM orders UNION SELECT shop_text FROM orders UNION
                         SELECT template_text FROM orders);
  INSERT INTO prints
    SELECT o.id, 1, o.at_unix_s, coalesce(e.at_unix_s, o.at_unix_s), coalesce(e.number, 0), o.program_version,
           j.id, s.id, t.id, 0
      FROM orders o JOIN texts j ON j.body = job_text JOIN texts s ON s.body = shop_text
      JOIN texts t ON t.body = template_text
      LEFT JOIN entries e ON e.number = (SELECT max(number) FROM entries WHERE kind = 'issued' AND order_id = o.id);
  ALTER TABLE orders DROP COLUMN job_text;
  ALTER TABLE orders DROP COLUMN shop_text;
  ALTER TABLE orders DROP COLUMN template_text;
  ALTER TABLE orders DROP COLUMN program_version;
  ALTER TABLE orders       ADD COLUMN checksum INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE blanks       ADD COLUMN checksum INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE entries      ADD COLUMN checksum INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE blank_states ADD COLUMN checksum INTEGER NOT NULL DEFAULT 0;
  DROP TRIGGER blanks_stay;
  DROP TRIGGER entries_stay;
)sql";

constexpr const char* triggers = R"sql(
  CREATE TRIGGER blanks_stay  BEFORE UPDATE ON blanks  BEGIN SELECT RAISE (ABORT, 'blanks are never changed'); END;
  CREATE TRIGGER entries_stay BEFORE UPDATE ON entries BEGIN SELECT RAISE (ABORT, 'entries are never changed'); END;
  CREATE TRIGGER texts_stay   BEFORE UPDATE ON texts   BEGIN SELECT RAISE (ABORT, 'texts are never changed'); END;
  CREATE TRIGGER texts_keep   BEFORE DELETE ON texts   BEGIN SELECT RAISE (ABORT, 'texts are never removed'); END;
  CREATE TRIGGER prints_stay  BEFORE UPDATE ON prints  BEGIN SELECT RAISE (ABORT, 'prints are never changed'); END;
  CREATE TRIGGER prints_keep  BEFORE DELETE ON prints  BEGIN SELECT RAISE (ABORT, 'prints are never removed'); END;
)sql";

/// Rows to give a checksum: the text by which each is found again, and what it covers.
struct Sums {
  const char* select;  ///< the row's key, then the columns that are covered
  int covered;
  const char* update;  ///< sets the checksum ?2 of the row with the key ?1
};

constexpr std::array all_sums{
    Sums{"SELECT id, body FROM texts", 1, "UPDATE texts SET checksum = ?2 WHERE id = CAST(?1 AS INTEGER)"},
    Sums{"SELECT order_id, order_id, number, at_unix_s, made_unix_s, last_entry, program_version, job, shop, "
         "template, "
         "j.checksum, s.checksum, t.checksum FROM prints JOIN texts j ON j.id = job JOIN texts s ON s.id = shop JOIN "
         "texts t ON t.id = template",
         12, "UPDATE prints SET checksum = ?2 WHERE order_id = ?1"},
    Sums{"SELECT id, id, folded_id, at_unix_s, species, condition, dye, quantity FROM orders", 7,
         "UPDATE orders SET checksum = ?2 WHERE id = ?1"},
    Sums{"SELECT id, n, id, order_id, seq, witness FROM blanks", 5, "UPDATE blanks SET checksum = ?2 WHERE id = ?1"},
    Sums{"SELECT blank_id, blank_id, promised, stage, bath, load, board, verdict, result, reason, dry_kg, wet_kg, "
         "cured_kg, offset_1_m, offset_2_m, slope_1, slope_2, pulled_n, last_unix_s FROM blank_states",
         18, "UPDATE blank_states SET checksum = ?2 WHERE blank_id = ?1"}};

void add_sums(Database& db, const Sums& sums) {
  std::vector<std::pair<std::string, std::int64_t>> found;
  Statement rows{db, sums.select};
  while (rows.step()) {
    Checksum sum;
    rows.add_to(sum, 1, sums.covered);
    found.emplace_back(rows.text(0), sum.value());
  }
  Statement update{db, sums.update};
  for (const auto& [key, sum] : found) update.with(key, sum).run();
}

/// The checksum of an entry covers its values too.
void add_sums_of_entries(Database& db) {
  std::vector<std::pair<std::int64_t, std::int64_t>> found;
  Statement rows{
      db,
      "SELECT number, kind, at_unix_s, offset_min, written_unix_s, person, blank_id, replaces, overridden, "
      "order_id, bath, load, board, resin FROM entries"};
  Statement values{db, "SELECT field, value FROM entry_values WHERE number = ?1 ORDER BY field"};
  while (rows.step()) {
    Checksum sum;
    rows.add_to(sum, 0, 14);
    for (values.with(rows.number(0)); values.step();) values.add_to(sum, 0, 2);
    found.emplace_back(rows.number(0), sum.value());
  }
  Statement update{db, "UPDATE entries SET checksum = ?2 WHERE number = ?1"};
  for (const auto& [number, sum] : found) update.with(number, sum).run();
}

}  // namespace

void from_3_to_4(Database& db) {
  db.run(tables);
  for (const Sums& sums : all_sums) add_sums(db, sums);
  add_sums_of_entries(db);
  db.run(triggers);
}

}  // namespace blankwright

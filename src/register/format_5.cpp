#include "register/format_5.h"

#include "register/row_sums.h"

namespace blankwright {
namespace {

constexpr const char* columns = R"sql(
  ALTER TABLE blank_states ADD COLUMN begun  INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE blank_states ADD COLUMN drying TEXT NOT NULL DEFAULT '';
  CREATE TEMP TABLE holding AS
    WITH RECURSIVE chain (number, place) AS (
      SELECT number, number FROM entries WHERE replaces IS NULL UNION ALL
      SELECT e.number, c.place FROM entries e JOIN chain c ON e.replaces = c.number)
    SELECT place, blank_id, kind, at_unix_s, load FROM entries e JOIN chain c ON c.number = e.number
     WHERE blank_id IN (SELECT blank_id FROM blank_states) AND kind NOT IN ('issued', 'corrected')
       AND e.number NOT IN (SELECT replaces FROM entries WHERE replaces IS NOT NULL);
  CREATE INDEX temp.holding_of_blank ON holding (blank_id);
  UPDATE blank_states SET
    begun = stage <> 'begun' OR EXISTS (
      SELECT 1 FROM holding h WHERE h.blank_id = blank_states.blank_id AND kind NOT IN ('promised', 'withdrawn')),
    last_unix_s = coalesce((SELECT max(at_unix_s) FROM holding h WHERE h.blank_id = blank_states.blank_id), last_unix_s);
  UPDATE blank_states SET drying = coalesce((
      SELECT i.load FROM holding i WHERE i.blank_id = blank_states.blank_id AND i.kind = 'into-drying'
         AND NOT EXISTS (SELECT 1 FROM holding o WHERE o.blank_id = i.blank_id AND o.kind = 'out-of-drying'
                            AND o.place > i.place)
       ORDER BY i.place DESC LIMIT 1), '') WHERE stage = 'begun';
  DROP TABLE temp.holding;
)sql";

constexpr Sums sums{
    "SELECT blank_id, blank_id, promised, stage, bath, load, board, verdict, result, reason, begun, drying, dry_kg, "
    "wet_kg, cured_kg, offset_1_m, offset_2_m, slope_1, slope_2, pulled_n, last_unix_s FROM blank_states",
    20, "UPDATE blank_states SET checksum = ?2 WHERE blank_id = ?1"};

}  // namespace

void from_4_to_5(Database& db) {
  db.run(columns);
  add_sums(db, sums);
}

}  // namespace blankwright

#include "register/format_6.h"

namespace blankwright {

void from_5_to_6(Database& db) {
  db.run(R"sql(
  CREATE TABLE plans (
    order_id TEXT NOT NULL,
    number   INTEGER NOT NULL,
    body     TEXT NOT NULL,
    checksum INTEGER NOT NULL,
    PRIMARY KEY (order_id, number),
    FOREIGN KEY (order_id, number) REFERENCES prints (order_id, number)
  ) STRICT, WITHOUT ROWID;
  CREATE TRIGGER plans_stay BEFORE UPDATE ON plans BEGIN SELECT RAISE (ABORT, 'plans are never changed'); END;
  CREATE TRIGGER plans_keep BEFORE DELETE ON plans BEGIN SELECT RAISE (ABORT, 'plans are never removed'); END;
)sql");
}

/// As in a file, but that a value of an entry has a column for figures and one for texts, and that texts are compared
/// byte by byte, as SQLite does. A sending is what a bench entered at once, under a key that it drew: after a broken
/// connection it tells whether the entries came to be.
void make_format_6(Database& db) {
  db.run(R"sql(
  CREATE TABLE register_format (
    single BIGINT NOT NULL PRIMARY KEY CHECK (single = 1),
    format BIGINT NOT NULL
  );
  INSERT INTO register_format VALUES (1, 0);
  CREATE TABLE series (
    single   BIGINT NOT NULL PRIMARY KEY CHECK (single = 1),
    first_id TEXT COLLATE "C" NOT NULL
  );
  INSERT INTO series VALUES (1, 'NG732GX');
  CREATE TABLE orders (
    id        TEXT COLLATE "C" NOT NULL PRIMARY KEY,
    folded_id TEXT COLLATE "C" NOT NULL UNIQUE,
    at_unix_s BIGINT NOT NULL,
    species   TEXT COLLATE "C" NOT NULL,
    condition TEXT COLLATE "C" NOT NULL,
    dye       TEXT COLLATE "C" NOT NULL,
    quantity  BIGINT NOT NULL,
    checksum  BIGINT NOT NULL
  );
  CREATE TABLE blanks (
    n        BIGINT NOT NULL PRIMARY KEY,
    id       TEXT COLLATE "C" NOT NULL UNIQUE,
    order_id TEXT COLLATE "C" NOT NULL REFERENCES orders (id),
    seq      BIGINT NOT NULL CHECK (seq >= 1),
    witness  BIGINT NOT NULL,
    checksum BIGINT NOT NULL,
    UNIQUE (order_id, seq)
  );
  CREATE TABLE entries (
    number         BIGINT NOT NULL PRIMARY KEY,
    kind           TEXT COLLATE "C" NOT NULL,
    at_unix_s      BIGINT NOT NULL,
    offset_min     BIGINT NOT NULL,
    written_unix_s BIGINT NOT NULL,
    person         TEXT COLLATE "C" NOT NULL,
    blank_id       TEXT COLLATE "C" REFERENCES blanks (id),
    replaces       BIGINT REFERENCES entries (number),
    overridden     TEXT COLLATE "C" NOT NULL,
    order_id       TEXT COLLATE "C" REFERENCES orders (id),
    bath           TEXT COLLATE "C",
    load           TEXT COLLATE "C",
    board          TEXT COLLATE "C",
    resin          TEXT COLLATE "C",
    checksum       BIGINT NOT NULL
  );
  CREATE INDEX entries_of_blank ON entries (blank_id);
  CREATE INDEX entries_of_bath  ON entries (bath)  WHERE bath  IS NOT NULL;
  CREATE INDEX entries_of_load  ON entries (load)  WHERE load  IS NOT NULL;
  CREATE INDEX entries_of_board ON entries (board) WHERE board IS NOT NULL;
  CREATE INDEX entries_of_resin ON entries (resin) WHERE resin IS NOT NULL;
  CREATE UNIQUE INDEX entries_replaced ON entries (replaces) WHERE replaces IS NOT NULL;
  CREATE TABLE entry_values (
    number BIGINT NOT NULL REFERENCES entries (number),
    field  TEXT COLLATE "C" NOT NULL,
    figure DOUBLE PRECISION,
    words  TEXT COLLATE "C",
    PRIMARY KEY (number, field),
    CHECK ((figure IS NULL) <> (words IS NULL))
  );
  CREATE TABLE sendings (
    key         TEXT COLLATE "C" NOT NULL PRIMARY KEY,
    first_entry BIGINT NOT NULL UNIQUE REFERENCES entries (number),
    last_entry  BIGINT NOT NULL UNIQUE REFERENCES entries (number)
  );
  CREATE TABLE blank_states (
    blank_id TEXT COLLATE "C" NOT NULL PRIMARY KEY REFERENCES blanks (id),
    promised TEXT COLLATE "C" NOT NULL,
    stage    TEXT COLLATE "C" NOT NULL,
    bath     TEXT COLLATE "C" NOT NULL,
    load     TEXT COLLATE "C" NOT NULL,
    board    TEXT COLLATE "C" NOT NULL,
    verdict  TEXT COLLATE "C" NOT NULL,
    result   TEXT COLLATE "C" NOT NULL,
    reason   TEXT COLLATE "C" NOT NULL,
    begun    BIGINT NOT NULL,
    drying   TEXT COLLATE "C" NOT NULL,
    dry_kg DOUBLE PRECISION, wet_kg DOUBLE PRECISION, cured_kg DOUBLE PRECISION,
    offset_1_m DOUBLE PRECISION, offset_2_m DOUBLE PRECISION, slope_1 DOUBLE PRECISION, slope_2 DOUBLE PRECISION,
    pulled_n DOUBLE PRECISION,
    last_unix_s BIGINT NOT NULL,
    checksum BIGINT NOT NULL
  );
  CREATE INDEX blanks_promised ON blank_states (promised);
  CREATE INDEX blanks_of_board ON blank_states (board);
  CREATE TABLE texts (
    id       BIGINT NOT NULL PRIMARY KEY,
    body     TEXT COLLATE "C" NOT NULL,
    checksum BIGINT NOT NULL
  );
  CREATE INDEX texts_by_checksum ON texts (checksum);
  CREATE TABLE prints (
    order_id        TEXT COLLATE "C" NOT NULL REFERENCES orders (id),
    number          BIGINT NOT NULL CHECK (number >= 1),
    at_unix_s       BIGINT NOT NULL,
    made_unix_s     BIGINT NOT NULL,
    last_entry      BIGINT NOT NULL,
    program_version TEXT COLLATE "C" NOT NULL,
    job             BIGINT NOT NULL REFERENCES texts (id),
    shop            BIGINT NOT NULL REFERENCES texts (id),
    template        BIGINT NOT NULL REFERENCES texts (id),
    checksum        BIGINT NOT NULL,
    PRIMARY KEY (order_id, number)
  );
  CREATE TABLE plans (
    order_id TEXT COLLATE "C" NOT NULL,
    number   BIGINT NOT NULL,
    body     TEXT COLLATE "C" NOT NULL,
    checksum BIGINT NOT NULL,
    PRIMARY KEY (order_id, number),
    FOREIGN KEY (order_id, number) REFERENCES prints (order_id, number)
  );

  CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN RAISE EXCEPTION '% are never changed or removed', TG_TABLE_NAME; END $$;
  CREATE FUNCTION keep_series() RETURNS trigger LANGUAGE plpgsql AS $$
    BEGIN
      IF TG_OP = 'UPDATE' AND NOT EXISTS (SELECT 1 FROM blanks) THEN RETURN NULL; END IF;
      RAISE EXCEPTION 'series that were begun are never changed or removed';
    END $$;
  CREATE TRIGGER stay BEFORE UPDATE OR DELETE OR TRUNCATE ON blanks       EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER stay BEFORE UPDATE OR DELETE OR TRUNCATE ON entries      EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER stay BEFORE UPDATE OR DELETE OR TRUNCATE ON entry_values EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER stay BEFORE UPDATE OR DELETE OR TRUNCATE ON sendings     EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER stay BEFORE UPDATE OR DELETE OR TRUNCATE ON texts        EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER stay BEFORE UPDATE OR DELETE OR TRUNCATE ON prints       EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER stay BEFORE UPDATE OR DELETE OR TRUNCATE ON plans        EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER stay BEFORE UPDATE OR DELETE OR TRUNCATE ON series       EXECUTE FUNCTION keep_series();
)sql");
}

}  // namespace blankwright

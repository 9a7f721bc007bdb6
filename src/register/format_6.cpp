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

}  // namespace blankwright

#include "register/format_5.h"

namespace blankwright {

void from_4_to_5(Database& db) {
  db.run("ALTER TABLE blank_states ADD COLUMN begun INTEGER NOT NULL DEFAULT 0");
  db.run("ALTER TABLE blank_states ADD COLUMN drying TEXT NOT NULL DEFAULT ''");
}

}  // namespace blankwright

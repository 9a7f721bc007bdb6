#include "register/database.h"

#include <utility>

#include "diagnose/failure.h"
#include "measure/utf8.h"
#include "register/postgres.h"
#include "register/sqlite.h"

namespace blankwright {

Database::Database(const RegisterPlace& place, Mode mode, std::chrono::milliseconds wait)
    : place_{place},
      engine_{place.is_on_server ? open_postgres(place.name, mode, wait) : open_sqlite(place.name, mode, wait)} {}

std::int64_t Database::number(std::string_view sql) {
  Statement statement{*this, sql};
  BW_EXPECT(statement.step());
  return statement.number(0);
}

Statement::Statement(Database& db, std::string_view sql) : db_{db}, sql_{sql} {
  if (const auto idle = db.idle_.find(sql); idle != db.idle_.end()) {
    prepared_ = std::move(idle->second);
    db.idle_.erase(idle);
    return;
  }
  prepared_ = db.engine_->prepare(sql);
}

Statement::~Statement() {
  prepared_->reset();
  prepared_->clear();
  db_.idle_.try_emplace(std::move(sql_), std::move(prepared_));
}

void Statement::add_to(Checksum& sum, int first, int count) const {
  for (int column = first; column < first + count; ++column) {
    switch (prepared_->held(column)) {
      case CellKind::nothing:
        sum.add_none();
        break;
      case CellKind::integer:
        sum.add(number(column));
        break;
      case CellKind::real:
        sum.add(real(column));
        break;
      case CellKind::text:
        sum.add(prepared_->bytes(column));
    }
  }
}

bool Statement::is_utf8(int first, int count) const {
  for (int column = first; column < first + count; ++column) {
    if (is_text(column) && invalid_utf8_at(prepared_->bytes(column))) return false;
  }
  return true;
}

Transaction::Transaction(Database& db, TransactionKind kind)
    : db_{db}, is_own_{kind == TransactionKind::write || !db.engine_->is_in_transaction()} {
  if (is_own_) db.engine_->begin(kind);
}

Transaction::~Transaction() {
  if (is_own_ && db_.engine_->is_in_transaction()) db_.engine_->roll_back();
}

}  // namespace blankwright

#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "entries/checksum.h"
#include "register/engine.h"
#include "register/register_place.h"

namespace blankwright {

/// One open database: an SQLite file or one of a PostgreSQL server. Everything here throws WorldError, with the
/// place's name and what engine and system said.
class Database {
 public:
  using Mode = OpenMode;

  /// `wait`: how long to wait for another process that is writing before giving up.
  Database(const RegisterPlace& place, Mode mode, std::chrono::milliseconds wait);

  /// Runs statements that take and give nothing, separated by semicolons.
  void run(const std::string& sql) { engine_->run(sql); }
  /// The one whole number that `sql` gives. Precondition: it gives at least one row.
  std::int64_t number(std::string_view sql);

  const std::string& name() const { return place_.name; }
  bool is_on_server() const { return place_.is_on_server; }
  const Dialect& dialect() const { return engine_->dialect(); }

  void check_soundness() { engine_->check_soundness(); }
  std::int64_t format() { return engine_->format(); }
  void set_format(std::int64_t format) { engine_->set_format(format); }
  void keep_old() { engine_->keep_old(); }
  Instant now(Instant machine) { return engine_->now(machine); }

 private:
  friend class Statement;
  friend class Transaction;
  RegisterPlace place_;
  std::unique_ptr<Engine> engine_;
  std::map<std::string, std::unique_ptr<PreparedStatement>, std::less<>> idle_;  ///< by their SQL, to be used again
};

/// A prepared statement, kept by the database when it is no longer used: preparing it takes longer than most runs of
/// it. The database must not be moved while there is one. Values are bound and never pasted into the SQL, so no text
/// can be taken for SQL, whatever it holds.
class Statement {
 public:
  Statement(Database& db, std::string_view sql);
  ~Statement();
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  /// Starts afresh with these values for ?1, ?2, …: whole numbers, numbers, texts (which may hold any byte), or
  /// optional ones of these, of which an absent one is NULL.
  template <class... Values>
  Statement& with(const Values&... values) {
    prepared_->reset();
    int place = 0;
    (bind(++place, values), ...);
    return *this;
  }
  /// Goes to the next row; false when there is none.
  bool step() { return prepared_->step(); }
  /// Runs a statement that gives no rows.
  void run() { static_cast<void>(step()); }
  // Of the present row; columns count from 0. NULL reads as 0 or as an empty text.
  std::int64_t number(int column) const { return prepared_->number(column); }
  double real(int column) const { return prepared_->real(column); }
  std::string text(int column) const { return std::string{prepared_->bytes(column)}; }
  bool is_null(int column) const { return prepared_->held(column) == CellKind::nothing; }
  bool is_text(int column) const { return prepared_->held(column) == CellKind::text; }
  /// Counts `count` columns from `first` on into a checksum, each as what it is.
  void add_to(Checksum& sum, int first, int count) const;
  /// Is every text in those columns UTF-8?
  bool is_utf8(int first, int count) const;

 private:
  void bind(int place, std::int64_t value) { prepared_->bind(place, value); }
  void bind(int place, double value) { prepared_->bind(place, value); }
  void bind(int place, std::string_view value) { prepared_->bind(place, value); }
  template <class Value>
  void bind(int place, const std::optional<Value>& value) {
    if (value) {
      bind(place, *value);
    } else {
      prepared_->bind_null(place);
    }
  }
  Database& db_;
  std::string sql_;
  std::unique_ptr<PreparedStatement> prepared_;
};

/// A change that happens whole or not at all. It waits for other writers when it begins, so that what is read inside
/// it still holds when it is written, and rolls back in its destructor unless committed.
class Transaction {
 public:
  /// One that only reads is part of another one where it is inside it.
  explicit Transaction(Database& db, TransactionKind kind = TransactionKind::write);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  /// On return the change is on disk; if this throws, nothing was changed.
  void commit() { db_.engine_->commit(); }

 private:
  Database& db_;
  bool is_own_ = true;
};

}  // namespace blankwright

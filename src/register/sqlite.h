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

struct sqlite3;
struct sqlite3_stmt;

namespace blankwright {

/// One open SQLite file. Everything here throws WorldError, with the file's path and what SQLite and the system said.
class Database {
 public:
  enum class Mode { read, write };  ///< `read` neither makes nor changes a file; `write` makes it where it is absent

  /// `wait`: how long to wait for another process that is writing before giving up.
  Database(const std::string& path, Mode mode, std::chrono::milliseconds wait);

  /// Runs statements that take and give nothing, separated by semicolons.
  void run(const std::string& sql);
  /// The one whole number that `sql` gives. Precondition: it gives at least one row.
  std::int64_t number(std::string_view sql);

  /// The number of the row that was added last.
  std::int64_t last_row() const;

  /// Makes the file its owner's alone, as each new one is and the journals beside it: it names clients and prices.
  /// Who shares a register by a group gives it that group's permission once, and it stays.
  void make_private() const;

  /// Writes the whole database, as it is now, into a new file, and syncs it. Throws where a file is at `path`.
  void copy_to(const std::string& path);

  const std::string& path() const { return path_; }

 private:
  friend class Statement;
  friend class Transaction;
  [[noreturn]] void fail() const;
  struct Close {
    void operator()(sqlite3* db) const;
  };
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  using Prepared = std::unique_ptr<sqlite3_stmt, Finalize>;
  std::string path_;
  std::unique_ptr<sqlite3, Close> db_;
  std::map<std::string, Prepared, std::less<>> idle_;  ///< by their SQL, to be used again
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
    reset();
    int place = 0;
    (bind(++place, values), ...);
    return *this;
  }
  /// Goes to the next row; false when there is none.
  bool step();
  /// Runs a statement that gives no rows.
  void run() { static_cast<void>(step()); }
  // Of the present row; columns count from 0. NULL reads as 0 or as an empty text.
  std::int64_t number(int column) const;
  double real(int column) const;
  std::string text(int column) const;
  bool is_null(int column) const;
  bool is_text(int column) const;
  /// Counts `count` columns from `first` on into a checksum, each as what it is.
  void add_to(Checksum& sum, int first, int count) const;
  /// Is every text in those columns UTF-8?
  bool is_utf8(int first, int count) const;

 private:
  void reset();
  std::string_view bytes(int column) const;  // until the next step
  void bind(int place, std::int64_t value);
  void bind(int place, double value);
  void bind(int place, std::string_view value);
  void bind_null(int place);
  template <class Value>
  void bind(int place, const std::optional<Value>& value) {
    if (value) {
      bind(place, *value);
    } else {
      bind_null(place);
    }
  }
  Database& db_;
  Database::Prepared statement_;
};

/// A change that happens whole or not at all. It waits for other writers when it begins, so that what is read inside
/// it still holds when it is written, and rolls back in its destructor unless committed.
class Transaction {
 public:
  /// `read` waits for nobody, and what it reads is of one moment; inside another one it is part of that.
  enum class Kind { read, write };
  explicit Transaction(Database& db, Kind kind = Kind::write);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  /// On return the change is on disk; if this throws, nothing was changed.
  void commit();

 private:
  Database& db_;
  bool is_own_ = true;
};

}  // namespace blankwright

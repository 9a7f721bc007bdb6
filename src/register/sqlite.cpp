#include "register/sqlite.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <filesystem>
#include <system_error>
#include <utility>

#include "diagnose/failure.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

std::string cause_of(sqlite3* db) {
  if (db == nullptr) return "out of memory";
  const int code = sqlite3_extended_errcode(db);
  if (code == SQLITE_READONLY_ROLLBACK) {
    return "a write to it was cut short, and reading alone cannot undo that; any command that writes to the register "
           "will";
  }
  if (code == SQLITE_READONLY_DIRECTORY)
    return "permission denied to write in its folder, where a journal has to stand";
  switch (code & 0xFF) {
    case SQLITE_BUSY:
      return "it is being written to by another run, which does not end";
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return fmt::format("the register is damaged ({}); restore it from a copy", sqlite3_errmsg(db));
    case SQLITE_FULL:
      return "the disk is full";
    default:
      break;
  }
  const int system = sqlite3_system_errno(db);
  if (system == 0) return sqlite3_errmsg(db);
  return fmt::format("{} ({})", sqlite3_errmsg(db), std::generic_category().message(system));
}

}  // namespace

void Database::Close::operator()(sqlite3* db) const { sqlite3_close_v2(db); }
void Database::Finalize::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Database::Database(const std::string& path, Mode mode, std::chrono::milliseconds wait) : path_{path} {
  // SQLite takes ":memory:" and the like for something else than a file; with a folder in front it does not.
  const std::filesystem::path given{path};
  const std::string file = given.is_relative() ? (std::filesystem::path{"."} / given).string() : path;
  const int flags = mode == Mode::read ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  sqlite3* opened = nullptr;
  const int result = sqlite3_open_v2(file.c_str(), &opened, flags, nullptr);
  db_.reset(opened);
  if (result != SQLITE_OK) fail();
  // Without permission to write SQLite opens the file for reading, and would speak up only at the first change.
  if (mode == Mode::write && sqlite3_db_readonly(opened, "main") == 1)
    throw WorldError{path, "permission to write denied"};
  std::error_code unseen;
  if (mode == Mode::write && std::filesystem::file_size(path, unseen) == 0) make_private();
  sqlite3_extended_result_codes(opened, 1);
  sqlite3_busy_timeout(opened, static_cast<int>(wait.count()));
}

void Database::make_private() const {
  using std::filesystem::perms;
  std::error_code not_ours;  // its owner's business then
  std::filesystem::permissions(path_, perms::owner_read | perms::owner_write, not_ours);
}

void Database::fail() const { throw WorldError{path_, cause_of(db_.get())}; }

void Database::run(const std::string& sql) {
  if (sqlite3_exec(db_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail();
}

std::int64_t Database::number(std::string_view sql) {
  Statement statement{*this, sql};
  BW_EXPECT(statement.step());
  return statement.number(0);
}

std::int64_t Database::last_row() const { return sqlite3_last_insert_rowid(db_.get()); }

void Database::copy_to(const std::string& path) {
  if (std::filesystem::exists(path)) throw WorldError{path, "there is a file already"};
  Database copy{path, Mode::write, std::chrono::milliseconds{0}};
  copy.run("PRAGMA synchronous = EXTRA");
  sqlite3_backup* backup = sqlite3_backup_init(copy.db_.get(), "main", db_.get(), "main");
  if (backup == nullptr) copy.fail();
  const int result = sqlite3_backup_step(backup, -1);
  sqlite3_backup_finish(backup);
  if (result != SQLITE_DONE) copy.fail();
}

Statement::Statement(Database& db, std::string_view sql) : db_{db} {
  if (const auto idle = db.idle_.find(sql); idle != db.idle_.end()) {
    statement_ = std::move(idle->second);
    db.idle_.erase(idle);
    return;
  }
  sqlite3_stmt* prepared = nullptr;
  const int size = static_cast<int>(sql.size());
  const int result = sqlite3_prepare_v2(db.db_.get(), sql.data(), size, &prepared, nullptr);
  statement_.reset(prepared);
  if (result != SQLITE_OK) db.fail();
}

Statement::~Statement() {
  reset();
  sqlite3_clear_bindings(statement_.get());
  std::string sql{sqlite3_sql(statement_.get())};
  db_.idle_.try_emplace(std::move(sql), std::move(statement_));
}

void Statement::reset() { sqlite3_reset(statement_.get()); }  // repeats the last step's result, which step() has told

void Statement::bind(int place, std::int64_t value) {
  if (sqlite3_bind_int64(statement_.get(), place, value) != SQLITE_OK) db_.fail();
}

void Statement::bind(int place, double value) {
  if (sqlite3_bind_double(statement_.get(), place, value) != SQLITE_OK) db_.fail();
}

void Statement::bind_null(int place) {
  if (sqlite3_bind_null(statement_.get(), place) != SQLITE_OK) db_.fail();
}

void Statement::bind(int place, std::string_view value) {
  // A copy, since the value may be gone before the statement runs; and never a null pointer, which would be NULL.
  const char* data = value.empty() ? "" : value.data();
  const int result = sqlite3_bind_text64(statement_.get(), place, data, value.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
  if (result != SQLITE_OK) db_.fail();
}

bool Statement::step() {
  const int result = sqlite3_step(statement_.get());
  if (result != SQLITE_ROW && result != SQLITE_DONE) db_.fail();
  return result == SQLITE_ROW;
}

std::int64_t Statement::number(int column) const { return sqlite3_column_int64(statement_.get(), column); }

double Statement::real(int column) const { return sqlite3_column_double(statement_.get(), column); }

bool Statement::is_null(int column) const { return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL; }

bool Statement::is_text(int column) const { return sqlite3_column_type(statement_.get(), column) == SQLITE_TEXT; }

void Statement::add_to(Checksum& sum, int first, int count) const {
  for (int column = first; column < first + count; ++column) {
    switch (sqlite3_column_type(statement_.get(), column)) {
      case SQLITE_NULL:
        sum.add_none();
        break;
      case SQLITE_INTEGER:
        sum.add(number(column));
        break;
      case SQLITE_FLOAT:
        sum.add(real(column));
        break;
      default:
        sum.add(bytes(column));
    }
  }
}

bool Statement::is_utf8(int first, int count) const {
  for (int column = first; column < first + count; ++column) {
    if (is_text(column) && invalid_utf8_at(bytes(column))) return false;
  }
  return true;
}

std::string_view Statement::bytes(int column) const {
  const void* data = sqlite3_column_blob(statement_.get(), column);  // the text's bytes, with any zeros among them
  const int size = sqlite3_column_bytes(statement_.get(), column);
  return data == nullptr ? std::string_view{}
                         : std::string_view{static_cast<const char*>(data), static_cast<std::size_t>(size)};
}

std::string Statement::text(int column) const { return std::string{bytes(column)}; }

Transaction::Transaction(Database& db, Kind kind)
    : db_{db}, is_own_{kind == Kind::write || sqlite3_get_autocommit(db.db_.get()) != 0} {
  if (is_own_) db_.run(kind == Kind::write ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
  // After some errors SQLite has rolled back by itself. Where it cannot, the next run that opens the file does.
  if (is_own_ && sqlite3_get_autocommit(db_.db_.get()) == 0) {
    sqlite3_exec(db_.db_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
  }
}

void Transaction::commit() { db_.run("COMMIT"); }

}  // namespace blankwright

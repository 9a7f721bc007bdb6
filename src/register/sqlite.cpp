#include "register/sqlite.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <filesystem>
#include <fstream>
#include <system_error>
#include <utility>

#include "diagnose/failure.h"
#include "register/format.h"

namespace blankwright {
namespace {

constexpr std::int64_t application_id = 0x42577267;  // "BWrg", in the file's header

/// Up to this many bytes (some ten thousand blanks) a register is looked through whole before it is used. In a larger
/// one, where that would take longer than the question, SQLite still refuses each damaged page that it meets.
constexpr std::int64_t looked_through_whole = 16'000'000;

/// EXTRA is FULL and more: the folder is synced too once the journal is gone, without which a power cut right after a
/// commit could bring the journal back and undo what was answered; the same IDs would then be issued twice. The
/// journal is SQLite's usual one, which is rolled back: after a run the register is one file that can be copied, and
/// reading it needs no permission to write beside it. A write-ahead log gives neither, and its speed is not needed
/// here. The page cache (in kibibytes) is small, so that many orders at once take no more memory than one.
constexpr const char* settings =
    "PRAGMA synchronous = EXTRA; PRAGMA foreign_keys = ON; PRAGMA temp_store = MEMORY; PRAGMA cache_size = -512;";

constexpr Dialect of_sqlite{
    "WITH RECURSIVE picked (number) AS (SELECT number FROM entries WHERE {} UNION SELECT e.number FROM entries e "
    "JOIN "
    "picked p ON e.replaces = p.number UNION SELECT e.replaces FROM entries e JOIN picked p ON e.number = p.number "
    "WHERE e.replaces IS NOT NULL)",
    "(SELECT {} FROM entries WHERE number IN (SELECT number FROM picked)) e LEFT JOIN entry_values v ON v.number = "
    "e.number",
    "INSERT INTO entry_values (number, field, value) VALUES (?1, ?2, coalesce(?3, ?4))",
    "CASE WHEN typeof(v.value) = 'real' THEN v.value END, CASE WHEN typeof(v.value) <> 'real' THEN v.value END"};

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

/// Throws WorldError unless these marks of an SQLite file's header are those of a register that this program knows.
void check_marks(const std::string& path, std::int64_t application, std::int64_t format) {
  if (application != application_id) throw WorldError{path, "this is a database of another program, not a register"};
  check_format(path, format);
}

/// A big-endian 32-bit number, as the file's header holds them (sqlite.org/fileformat2.html, section 1.3).
std::int64_t number_at(std::string_view header, std::size_t at) {
  std::uint32_t value = 0;
  for (const char c : header.substr(at, 4)) value = value << 8U | static_cast<unsigned char>(c);
  return static_cast<std::int32_t>(value);
}

/// An open file.
class File final : public Engine {
 public:
  File(const std::string& path, OpenMode mode, std::chrono::milliseconds wait);

  const Dialect& dialect() const override { return of_sqlite; }
  std::unique_ptr<PreparedStatement> prepare(std::string_view sql) override;
  void run(const std::string& sql) override {
    if (sqlite3_exec(db_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail();
  }
  bool is_in_transaction() const override { return sqlite3_get_autocommit(db_.get()) == 0; }
  void begin(TransactionKind kind) override { run(kind == TransactionKind::write ? "BEGIN IMMEDIATE" : "BEGIN"); }
  void commit() override { run("COMMIT"); }
  // After some errors SQLite has rolled back by itself. Where it cannot, the next run that opens the file does.
  void roll_back() noexcept override { sqlite3_exec(db_.get(), "ROLLBACK", nullptr, nullptr, nullptr); }
  void check_soundness() override;
  std::int64_t format() override;
  void set_format(std::int64_t format) override {
    run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", application_id, format));
  }
  void keep_old() override;
  Instant now(Instant machine) override { return machine; }

  [[noreturn]] void fail() const { throw WorldError{path_, cause_of(db_.get())}; }

 private:
  /// Makes the file its owner's alone, as each new one is and the journals beside it: it names clients and prices.
  /// Who shares a register by a group gives it that group's permission once, and it stays.
  void make_private() const;
  /// Writes the whole database, as it is now, into a new file, and syncs it. Throws where a file is at `path`.
  void copy_to(const std::string& path);
  struct Close {
    void operator()(sqlite3* db) const { sqlite3_close_v2(db); }
  };
  std::string path_;
  std::unique_ptr<sqlite3, Close> db_;
};

class FileStatement final : public PreparedStatement {
 public:
  FileStatement(const File& file, sqlite3_stmt* statement) : file_{file}, statement_{statement} {}
  // It repeats the last step's result, which step() has told.
  void reset() override { sqlite3_reset(statement_.get()); }
  void clear() override { sqlite3_clear_bindings(statement_.get()); }
  void bind(int place, std::int64_t value) override { check(sqlite3_bind_int64(statement_.get(), place, value)); }
  void bind(int place, double value) override { check(sqlite3_bind_double(statement_.get(), place, value)); }
  void bind_null(int place) override { check(sqlite3_bind_null(statement_.get(), place)); }
  void bind(int place, std::string_view value) override {
    // A copy, since the value may be gone before the statement runs; and never a null pointer, which would be NULL.
    const char* data = value.empty() ? "" : value.data();
    check(sqlite3_bind_text64(statement_.get(), place, data, value.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
  }
  bool step() override {
    const int result = sqlite3_step(statement_.get());
    if (result != SQLITE_ROW && result != SQLITE_DONE) file_.fail();
    return result == SQLITE_ROW;
  }
  CellKind held(int column) const override {
    switch (sqlite3_column_type(statement_.get(), column)) {
      case SQLITE_NULL:
        return CellKind::nothing;
      case SQLITE_INTEGER:
        return CellKind::integer;
      case SQLITE_FLOAT:
        return CellKind::real;
      default:
        return CellKind::text;
    }
  }
  std::int64_t number(int column) const override { return sqlite3_column_int64(statement_.get(), column); }
  double real(int column) const override { return sqlite3_column_double(statement_.get(), column); }
  std::string_view bytes(int column) const override {
    const void* data = sqlite3_column_blob(statement_.get(), column);  // the text's bytes, with any zeros among them
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return data == nullptr ? std::string_view{}
                           : std::string_view{static_cast<const char*>(data), static_cast<std::size_t>(size)};
  }

 private:
  void check(int result) const {
    if (result != SQLITE_OK) file_.fail();
  }
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  const File& file_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

File::File(const std::string& path, OpenMode mode, std::chrono::milliseconds wait) : path_{path} {
  // SQLite takes ":memory:" and the like for something else than a file; with a folder in front it does not.
  const std::filesystem::path given{path};
  const std::string file = given.is_relative() ? (std::filesystem::path{"."} / given).string() : path;
  const int flags = mode == OpenMode::read ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  sqlite3* opened = nullptr;
  const int result = sqlite3_open_v2(file.c_str(), &opened, flags, nullptr);
  db_.reset(opened);
  if (result != SQLITE_OK) fail();
  // Without permission to write SQLite opens the file for reading, and would speak up only at the first change.
  if (mode == OpenMode::write && sqlite3_db_readonly(opened, "main") == 1)
    throw WorldError{path, "permission to write denied"};
  std::error_code unseen;
  if (mode == OpenMode::write && std::filesystem::file_size(path, unseen) == 0) make_private();
  sqlite3_extended_result_codes(opened, 1);
  sqlite3_busy_timeout(opened, static_cast<int>(wait.count()));
  if (mode == OpenMode::write) run(settings);
}

void File::make_private() const {
  using std::filesystem::perms;
  std::error_code not_ours;  // its owner's business then
  std::filesystem::permissions(path_, perms::owner_read | perms::owner_write, not_ours);
}

std::unique_ptr<PreparedStatement> File::prepare(std::string_view sql) {
  sqlite3_stmt* prepared = nullptr;
  const int size = static_cast<int>(sql.size());
  const int result = sqlite3_prepare_v2(db_.get(), sql.data(), size, &prepared, nullptr);
  auto statement = std::make_unique<FileStatement>(*this, prepared);
  if (result != SQLITE_OK) fail();
  return statement;
}

void File::check_soundness() {
  if (number("PRAGMA page_count") * number("PRAGMA page_size") > looked_through_whole) return;
  // Not quick_check, which takes a third of the time and does not hold the indexes against what they stand for: one
  // flipped bit in an index, and entries are missing from an answer.
  const auto check = prepare("PRAGMA integrity_check(1)");
  check->step();
  if (const std::string_view found = check->bytes(0); found != "ok") {
    throw WorldError{path_, fmt::format("the register is damaged ({}); restore it from a copy", found)};
  }
}

std::int64_t File::format() {
  const std::int64_t format = number("PRAGMA user_version");
  if (format != newest_format) {
    if (number("SELECT count(*) FROM sqlite_schema") == 0) return 0;
    check_marks(path_, number("PRAGMA application_id"), format);
  }
  return format;
}

void File::copy_to(const std::string& path) {
  if (std::filesystem::exists(path)) throw WorldError{path, "there is a file already"};
  const File copy{path, OpenMode::write, std::chrono::milliseconds{0}};
  sqlite3_backup* backup = sqlite3_backup_init(copy.db_.get(), "main", db_.get(), "main");
  if (backup == nullptr) copy.fail();
  const int result = sqlite3_backup_step(backup, -1);
  sqlite3_backup_finish(backup);
  if (result != SQLITE_DONE) copy.fail();
}

/// A copy beside it, "shop.register.format-1".
void File::keep_old() {
  make_private();
  const std::string copy = fmt::format("{}.format-{}", path_, number("PRAGMA user_version"));
  std::error_code error;
  for (int n = 1; n < 1000; ++n) {
    const std::string path = n == 1 ? copy : fmt::format("{}-{}", copy, n);
    if (std::filesystem::exists(path, error)) continue;
    // Read by another connection: SQLite copies nothing by one that is about to write.
    File{path_, OpenMode::read, std::chrono::milliseconds{0}}.copy_to(path);
    return;
  }
  throw WorldError{copy, "there are too many copies of the register from before its change of format"};
}

}  // namespace

std::unique_ptr<Engine> open_sqlite(const std::string& path, OpenMode mode, std::chrono::milliseconds wait) {
  return std::make_unique<File>(path, mode, wait);
}

Found look_at_file(const std::string& path) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) return Found::nothing;
  if (status.type() == std::filesystem::file_type::directory)
    throw WorldError{path, "this is a folder, not a register"};
  if (error) throw WorldError{path, error.message()};
  if (status.type() != std::filesystem::file_type::regular) throw WorldError{path, "this is not a file"};

  std::ifstream file{path, std::ios::binary};
  if (!file) throw WorldError{path, "the register cannot be opened for reading"};
  std::string header(100, '\0');
  file.read(header.data(), static_cast<std::streamsize>(header.size()));
  if (file.bad()) throw WorldError{path, "the register cannot be read"};
  if (file.gcount() == 0) return Found::nothing;
  if (!header.starts_with(std::string_view{"SQLite format 3\0", 16}) || !file) {
    throw WorldError{path, "this is not a register"};
  }
  check_marks(path, number_at(header, 68), number_at(header, 60));
  return Found::register_;
}

}  // namespace blankwright

#include "register/schema.h"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string_view>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

constexpr std::int64_t application_id = 0x42577267;  // "BWrg", in the file's header

/// Names carry units: `_unix_s` is seconds since 1970-01-01 UTC. What a compile depends on stands with its order.
/// Blanks and entries are facts; the triggers keep anything, other programs included, from changing them unawares.
constexpr const char* format_1 = R"sql(
  CREATE TABLE orders (
    id              TEXT NOT NULL PRIMARY KEY,
    folded_id       TEXT NOT NULL UNIQUE,
    job_text        TEXT NOT NULL,
    shop_text       TEXT NOT NULL,
    template_text   TEXT NOT NULL,
    program_version TEXT NOT NULL,
    at_unix_s       INTEGER NOT NULL
  ) STRICT;
  CREATE TABLE blanks (
    n        INTEGER NOT NULL PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    order_id TEXT NOT NULL REFERENCES orders (id),
    seq      INTEGER NOT NULL CHECK (seq >= 1),
    UNIQUE (order_id, seq)
  ) STRICT;
  CREATE TABLE entries (
    number    INTEGER NOT NULL PRIMARY KEY,
    kind      TEXT NOT NULL,
    at_unix_s INTEGER NOT NULL,
    order_id  TEXT REFERENCES orders (id),
    blank_id  TEXT REFERENCES blanks (id)
  ) STRICT;
  CREATE TRIGGER blanks_stay  BEFORE UPDATE ON blanks  BEGIN SELECT RAISE (ABORT, 'blanks are never changed'); END;
  CREATE TRIGGER blanks_keep  BEFORE DELETE ON blanks  BEGIN SELECT RAISE (ABORT, 'blanks are never removed'); END;
  CREATE TRIGGER entries_stay BEFORE UPDATE ON entries BEGIN SELECT RAISE (ABORT, 'entries are never changed'); END;
  CREATE TRIGGER entries_keep BEFORE DELETE ON entries BEGIN SELECT RAISE (ABORT, 'entries are never removed'); END;
)sql";

void from_0_to_1(Database& db) {
  db.run(fmt::format("PRAGMA application_id = {}", application_id));
  db.run(format_1);
}

/// The step at place k leads from format k to format k + 1. A step that was once released is never changed.
constexpr std::array steps{&from_0_to_1};
constexpr auto newest_format = static_cast<std::int64_t>(steps.size());

/// Throws WorldError unless these marks of an SQLite file's header are those of a register that this program knows.
void check_marks(const std::string& path, std::int64_t application, std::int64_t format) {
  if (application != application_id) throw WorldError{path, "this is a database of another program, not a register"};
  if (format > newest_format) {
    throw WorldError{path, fmt::format("this register has format {}, and this program knows formats up to {}; "
                                       "use the newer program",
                                       format, newest_format)};
  }
  if (format < 1) throw WorldError{path, fmt::format("the register is damaged: its format is {}", format)};
}

/// A big-endian 32-bit number, as the file's header holds them (sqlite.org/fileformat2.html, section 1.3).
std::int64_t number_at(std::string_view header, std::size_t at) {
  std::uint32_t value = 0;
  for (const char c : header.substr(at, 4)) value = value << 8U | static_cast<unsigned char>(c);
  return static_cast<std::int32_t>(value);
}

}  // namespace

Found look_at_register(const std::string& path) {
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

void check_soundness(Database& db) {
  Statement check{db, "PRAGMA quick_check(1)"};
  check.run();
  if (const std::string found = check.text(0); found != "ok") {
    throw WorldError{db.path(), fmt::format("the register is damaged ({}); restore it from a copy", found)};
  }
}

void bring_up_to_date(Database& db) {
  if (db.number("PRAGMA user_version") == newest_format) return;
  Transaction change{db};
  const bool empty = db.number("SELECT count(*) FROM sqlite_schema") == 0;
  std::int64_t format = empty ? 0 : db.number("PRAGMA user_version");
  if (!empty)
    check_marks(db.path(), db.number("PRAGMA application_id"), format);  // somebody else may have been faster
  for (; format < newest_format; ++format) steps.at(static_cast<std::size_t>(format))(db);
  db.run(fmt::format("PRAGMA user_version = {}", newest_format));
  change.commit();
}

}  // namespace blankwright

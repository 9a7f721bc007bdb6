#include <doctest/doctest.h>

#include <chrono>
#include <filesystem>
#include <string>

#include "../temporary_folder.h"
#include "register/register.h"
#include "register/sqlite.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

/// A register as an earlier version of the program left it; its files are never changed.
std::string stored(const TemporaryFolder& folder, const std::string& name) {
  const std::string path = folder / "shop.register";
  std::filesystem::copy_file(std::string{BLANKWRIGHT_SOURCE_DIR} + "/tests/register/formats/" + name, path);
  std::filesystem::permissions(path, std::filesystem::perms::owner_write, std::filesystem::perm_options::add);
  return path;
}

}  // namespace

TEST_CASE("a register of format 1 is brought up to date with all that it held, and kept as it was beside it") {
  const TemporaryFolder folder;
  const std::string path = stored(folder, "format-1.register");
  // Written by version 0.1.0: order TA-0147 with ten blanks.
  SUBCASE("by a question") { CHECK(Register::open_to_read(path)->last_entry() == 10); }
  SUBCASE("by a compile") { CHECK(Register{path}.last_entry() == 10); }
  Register reg{path};
  const auto blanks = reg.issued_to("TA-0147");
  REQUIRE(blanks.size() == 10);
  CHECK(blanks.front().shown() == "NG7-32GX");
  const auto entries = reg.all_entries();
  REQUIRE(entries.size() == 10);
  CHECK(entries.front().kind == EntryKind::issued);
  CHECK(entries.front().at == Instant{1'809'324'000s});  // date -u -d 2027-05-03T06:00:00Z +%s
  CHECK(entries.front().text(Field::order) == "TA-0147");
  CHECK(entries.at(9).blank == blanks.at(9));
  const auto known = reg.known_blanks();
  REQUIRE(known.size() == 10);
  for (const KnownBlank& blank : known) CHECK(blank.blank == summary_of(*reg.blank(*blank.blank.id)));
  CHECK(reg.stored_job("TA-0147").has_value());

  CHECK(std::filesystem::exists(path + ".format-1"));
  Database copy{path + ".format-1", Database::Mode::read, 1s};
  CHECK(copy.number("PRAGMA user_version") == 1);
  CHECK(copy.number("SELECT count(*) FROM entries") == 10);
}

TEST_CASE("where a copy is kept already a second one does not replace it") {
  const TemporaryFolder folder;
  const std::string path = stored(folder, "format-1.register");
  std::filesystem::copy_file(path, path + ".format-1");
  Register{path};
  CHECK(std::filesystem::exists(path + ".format-1-2"));
}

TEST_CASE("a register of format 2 goes on with the series that its tags are of") {
  const TemporaryFolder folder;
  const std::string path = stored(folder, "format-2.register");
  // Written by version 0.1.0: order TA-0147 with ten blanks, the first weighed by Ada, two put into a bath.
  SUBCASE("by a question") { CHECK(Register::open_to_read(path)->series().shown() == "NG7-32GX"); }
  SUBCASE("by a compile, whatever it drew") {
    const Register reg{path, BlankId::nth(5)};
    CHECK_FALSE(reg.is_new());
  }
  Register reg{path};
  CHECK(reg.series().shown() == "NG7-32GX");
  CHECK(reg.last_entry() == 13);
  CHECK(reg.entry(11)->person == "Ada");
  CHECK(reg.entry(13)->text(Field::bath) == "B-1");
  const auto known = reg.known_blanks();
  REQUIRE(known.size() == 10);
  for (const KnownBlank& blank : known) CHECK(blank.blank == summary_of(*reg.blank(*blank.blank.id)));
  const std::vector more{OrderToIssue{"TA-0148", 1, {"job", "shop", "", "0.1.0"}, {}}};
  CHECK(reg.issue(more, 0, Instant{2'000'000'000s}).value().front() == std::vector{BlankId::nth(10)});
  Database copy{path + ".format-2", Database::Mode::read, 1s};
  CHECK(copy.number("PRAGMA user_version") == 2);
  CHECK(copy.number("SELECT count(*) FROM entries") == 13);
}

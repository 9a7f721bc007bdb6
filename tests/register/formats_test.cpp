#include <doctest/doctest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "../temporary_folder.h"
#include "diagnose/failure.h"
#include "register/database.h"
#include "register/register.h"
#include "write/register_lines.h"

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

TEST_CASE("a register of format 3 has a first print of each order, and a checksum at each row") {
  const TemporaryFolder folder;
  const std::string path = stored(folder, "format-3.register");
  // Written by version 0.1.0: orders TA-0147 and TA-0148 of one shop, ten blanks each; then ten entries, of which the
  // 26th replaces the 25th and the 30th was overridden.
  Register reg{path, BlankId::nth(5)};
  REQUIRE(reg.last_entry() == 30);
  CHECK(reg.entry(22)->person == "Zoë Łuk");
  CHECK(reg.entry(26)->replaces == 25);
  CHECK(reg.entry(26)->number_of(Field::mass) == 0.1335);
  CHECK(reg.entry(30)->overridden == "weighed for the stove");
  CHECK(reg.stored_job("TA-0147")->starts_with("# Six handles for hand burnishers"));
  for (const KnownBlank& blank : reg.known_blanks()) CHECK(blank.blank == summary_of(*reg.blank(*blank.blank.id)));
  const RegisterContents all = reg.contents();
  CHECK(all.texts.size() == 4);  // two jobs, one shop, one template
  REQUIRE(all.prints.size() == 2);
  const Print& first = all.prints.front();
  CHECK(first.number == 1);
  CHECK(first.at == Instant{1'793'602'800s});  // date -u -d 2026-11-02T07:00:00Z +%s
  CHECK(first.made == reg.entry(10)->at);
  CHECK(first.last_entry == 10);
  CHECK(first.program_version == "Blankwright 0.1.0");
  CHECK(all.prints.back().last_entry == 20);
  CHECK(all.prints.back().shop == first.shop);
  CHECK(reg.texts_in_force("TA-0147", Instant{}).value().job == all.texts.at(first.job));

  SUBCASE("as has one that takes over what was exported from it then") {
    std::ifstream file{std::string{BLANKWRIGHT_SOURCE_DIR} + "/tests/register/formats/export-1.jsonl"};
    const std::string text{std::istreambuf_iterator<char>{file}, {}};
    const auto read = register_from_lines(text);
    REQUIRE_MESSAGE(read.has_value(), (read ? "" : read.error()));
    CHECK_FALSE(read->is_whole);
    Register other{folder / "other.register", BlankId::nth(0)};
    other.fill(read->contents, Instant{2'000'000'000s});
    CHECK(other.contents().entries == all.entries);
    CHECK(other.contents().orders == all.orders);
    for (const Print& print : all.prints) {
      const TextsInForce now = reg.texts_in_force(print.order_id, print.made).value();
      const TextsInForce then = other.texts_in_force(print.order_id, print.made).value();
      CHECK(now.job == then.job);
      CHECK(now.shop == then.shop);
    }
    CHECK(register_from_lines(register_as_lines(other.contents()))->contents == other.contents());
  }
}

TEST_CASE("a register of format 4 is read as it was written") {
  const TemporaryFolder folder;
  const std::string path = stored(folder, "format-4.register");
  // Written by version 0.2.0: order TA-0147 with ten blanks; the first sawn, put into drying load D1 and weighed, and
  // entry 13 replaced by the 14th.
  Register reg{path, BlankId::nth(5)};
  REQUIRE(reg.last_entry() == 14);
  CHECK(reg.entry(12)->person == "Ada");
  CHECK(reg.load("D1").dried == std::vector{BlankId::nth(0)});
  CHECK(reg.blank(BlankId::nth(0))->dry.back().net / gram == doctest::Approx(151));
  for (const KnownBlank& blank : reg.known_blanks()) CHECK(blank.blank == summary_of(*reg.blank(*blank.blank.id)));
  CHECK(reg.texts_in_force("TA-0147", Instant{}).value().print == 1);
  CHECK(std::filesystem::exists(path + ".format-4"));
  // What is kept of a blank tells of it as its entries do, and when something was done with it last.
  const auto known = reg.known_blanks();
  CHECK(known.front().blank.begun);
  CHECK(known.front().blank.drying == "D1");
  CHECK_FALSE(known.back().blank.begun);
}

TEST_CASE("brought to format 5, what is kept of a blank is what follows from its entries, corrected ones too") {
  const TemporaryFolder folder;
  const std::string path = folder / "shop.register";
  const Instant now{2'000'000'000s};
  {
    Register reg{path, BlankId::nth(0)};
    const std::vector order{OrderToIssue{"T-1", 6, {"job", "shop", "", "0.2.0"}, {}}};
    REQUIRE(reg.issue(order, 0, now - 100h).has_value());
    const auto blank = [&](int n) { return reg.issued_to("T-1").at(static_cast<std::size_t>(n)); };
    const auto tell = [&](EntryKind kind, const BlankId& id, int hour, std::string_view load = {},
                          std::optional<EntryNumber> replaces = {}) {
      Entry entry;
      entry.kind = kind;
      entry.blank = id;
      entry.at = now - 90h + std::chrono::hours{hour};
      if (!load.empty()) entry.set(Field::load, std::string{load});
      if (kind == EntryKind::promised) entry.set(Field::order, std::string{"T-1"});
      entry.replaces = replaces;
      const auto added = reg.add(std::array{entry}, now);
      REQUIRE(added.has_value());
      return added->front().number;
    };
    using K = EntryKind;
    const auto in = tell(K::into_drying, blank(0), 1, "D1");
    tell(K::out_of_drying, blank(0), 20);
    tell(K::into_drying, blank(0), 1, "D7", in);  // replaced after it came out: it is out
    tell(K::into_drying, blank(1), 1, "D1");
    const auto out = tell(K::out_of_drying, blank(1), 20);
    tell(K::into_drying, blank(1), 22, "D2");
    tell(K::out_of_drying, blank(1), 21, {}, out);  // replaced after it went in again: it is in
    tell(K::promised, blank(2), 3);
    tell(K::sealed, blank(3), 4);
  }
  {
    Database db{path, Database::Mode::write, 1s};
    db.run(
        "DROP TABLE plans; ALTER TABLE blank_states DROP COLUMN begun; ALTER TABLE blank_states DROP COLUMN drying; "
        "PRAGMA user_version = 4");
  }
  Register reg{path, BlankId::nth(5)};
  const auto known = reg.known_blanks();
  REQUIRE(known.size() == 6);
  for (const KnownBlank& blank : known) CHECK(blank.blank == summary_of(*reg.blank(*blank.blank.id)));
  CHECK(known.at(0).blank.drying.empty());
  CHECK(known.at(1).blank.drying == "D2");
  CHECK_FALSE(known.at(2).blank.begun);
  CHECK(known.at(3).blank.begun);
}

TEST_CASE("a register of format 5 is read as it was written") {
  const TemporaryFolder folder;
  const std::string path = stored(folder, "format-5.register");
  // Written by version 0.2.0: order TA-0147 with ten blanks; the first sawn, the first two put into drying load D1,
  // the second one taken out of it, and entry 14 replaced by the 15th.
  Register reg{path, BlankId::nth(5)};
  REQUIRE(reg.last_entry() == 16);
  CHECK(reg.entry(12)->person == "Ada");
  CHECK(reg.blank(BlankId::nth(0))->dry.back().net / gram == doctest::Approx(151));
  const auto known = reg.known_blanks();
  for (const KnownBlank& blank : known) CHECK(blank.blank == summary_of(*reg.blank(*blank.blank.id)));
  CHECK(known.at(0).blank.drying == "D1");
  CHECK(known.at(1).blank.begun);
  CHECK(known.at(1).blank.drying.empty());
  CHECK_FALSE(known.at(2).blank.begun);
  CHECK(std::filesystem::exists(path + ".format-5"));
  CHECK(reg.print_of_order("TA-0147")->plan.empty());
}

TEST_CASE("a register of format 6 is read as it was written") {
  const TemporaryFolder folder;
  const std::string path = stored(folder, "format-6.register");
  // Written by version 0.2.0: order TA-0147 with ten blanks; a board by Ada, the first two sawn from it, the first
  // put into drying load D1 in the bench oven, and the order compiled a second time.
  Register reg{path, BlankId::nth(5)};
  REQUIRE(reg.last_entry() == 14);
  CHECK(reg.entry(11)->person == "Ada");
  CHECK(reg.load("D1").oven == "bench oven");
  REQUIRE(reg.print_of_order("TA-0147").has_value());
  CHECK(reg.print_of_order("TA-0147")->print.number == 2);
  // What was to come then: sawing from eight in the morning, by the shop's clock, of ten blanks.
  CHECK(reg.print_of_order("TA-0147", 1)->plan.starts_with("1809324000 1809327600 10 Saw the blanks\n"));
  CHECK_FALSE(std::filesystem::exists(path + ".format-6"));
}

TEST_CASE("a text that was damaged before there were checksums is named, and no export is made of it") {
  const TemporaryFolder folder;
  const std::string path = stored(folder, "format-3.register");
  {
    Database db{path, Database::Mode::write, 1s};
    db.run("DROP TRIGGER entries_stay");
    db.run("UPDATE entries SET person = CAST(x'41ff61' AS TEXT) WHERE number = 26");
    db.run("CREATE TRIGGER entries_stay BEFORE UPDATE ON entries BEGIN SELECT 1; END");
  }
  Register reg{path};
  CHECK(reg.entry(25)->person == "Ada");
  std::string said;
  try {
    static_cast<void>(reg.contents());
  } catch (const WorldError& error) {
    said = error.what();
  }
  CHECK(said == path + ": the register is damaged: entry 26 holds a text that is not UTF-8; restore it from a copy");
}

#include <doctest/doctest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <map>
#include <string>
#include <vector>

#include "../entries/entries_for_test.h"
#include "../plan/random_numbers.h"
#include "../temporary_folder.h"
#include "diagnose/failure.h"
#include "register/database.h"
#include "register/register.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

constexpr Instant start = EntriesForTest::start;

/// A register with two orders, prints, and the whole life of a blank.
void make(const std::string& path) {
  Register reg{path, BlankId::nth(0)};
  const std::vector first{
      OrderToIssue{"T-1", 2, {"job of T-1", "shop", "", "0.1.0"}, {"beech", "spalted", "blue", 2}},
      OrderToIssue{"T-2", 3, {"job of T-2", "shop", "", "0.1.0"}, {"oak", "sound", "", 3}, 1}};
  REQUIRE(reg.issue(first, start.time_since_epoch().count(), start).has_value());
  std::vector again{OrderToIssue{"T-1", 2, {"job of T-1, changed", "shop", "", "0.1.0"}, {"beech", "", "", 2}}};
  again.front().plan = "1 2 3 Saw\n";
  REQUIRE(reg.issue(again, start.time_since_epoch().count(), start).has_value());
  EntriesForTest made;
  std::vector<Entry> life = life_of(made, BlankId::nth(0), "T-1");
  life.erase(life.begin());
  REQUIRE(reg.add(life, made.now()).has_value());
}

/// All that can be asked of it.
struct Answers {
  RegisterContents contents;
  std::vector<BlankSummary> blanks;
  std::vector<BlankId> issued;
  std::map<std::string, int> quantities;
  std::string job, shop;
  std::string plan;
  bool operator==(const Answers&) const = default;
};

Answers answers(const std::string& path) {
  auto reg = Register::open_to_read(path);
  if (!reg) throw WorldError{path, "gone"};
  Answers out{reg->contents(), {}, reg->issued_to("T-2"), reg->quantities(), {}, {}, {}};
  for (const KnownBlank& known : reg->known_blanks()) out.blanks.push_back(known.blank);
  const auto texts = reg->texts_in_force("T-1", Instant::max());
  if (!texts) throw WorldError{path, "gone"};
  out.job = texts->job;
  out.shop = texts->shop;
  out.plan = reg->print_of_order("T-1")->plan;
  return out;
}

}  // namespace

TEST_CASE("a row that is not as it was written is named, and nothing is answered from it") {
  const TemporaryFolder folder;
  const std::string path = folder / "shop.register";
  make(path);
  struct Damage {
    const char *trigger, *change, *named;
    std::function<void(Register&)> ask;
  };
  const auto entry_7 = [](Register& r) { static_cast<void>(r.entries_of(BlankId::nth(0))); };
  const auto blanks = [](Register& r) { static_cast<void>(r.known_blanks()); };
  const auto job = [](Register& r) { static_cast<void>(r.stored_job("T-1")); };
  const Damage all[] = {
      {"entries_stay", "UPDATE entries SET kind = 'turned' WHERE number = 7", "entry 7", entry_7},
      {"entries_stay", "UPDATE entries SET at_unix_s = at_unix_s + 1 WHERE number = 7", "entry 7", entry_7},
      {"entries_stay", "UPDATE entries SET offset_min = 61 WHERE number = 7", "entry 7", entry_7},
      {"entries_stay", "UPDATE entries SET written_unix_s = 1 WHERE number = 7", "entry 7", entry_7},
      {"entries_stay", "UPDATE entries SET person = 'Bda' WHERE number = 7", "entry 7", entry_7},
      {"entries_stay", "UPDATE entries SET replaces = 8 WHERE number = 9", "entry 9", entry_7},
      {"entries_stay", "UPDATE entries SET overridden = 'so' WHERE number = 7", "entry 7", entry_7},
      {"entries_stay", "UPDATE entries SET board = 'B2' WHERE board = 'B1'", "entry 7", entry_7},
      {"values_stay", "UPDATE entry_values SET value = value + 0.001 WHERE number = 9 AND field = 'mass'", "entry 9",
       entry_7},
      {"values_stay", "UPDATE entry_values SET field = 'remark' WHERE number = 9 AND field = 'mass'", "entry 9",
       entry_7},
      {"values_keep", "DELETE FROM entry_values WHERE number = 9 AND field = 'mass'", "entry 9", entry_7},
      {"blanks_stay", "UPDATE blanks SET witness = 1 WHERE n = 0", "blank \"NG732GX\"", blanks},
      {"blanks_stay", "UPDATE blanks SET order_id = 'T-1', seq = 9 WHERE n = 2", "blank \"SG8CRCT\"", blanks},
      {"", "UPDATE blank_states SET dry_kg = 0.9", "what is kept of blank NG7-32GX", blanks},
      {"", "UPDATE orders SET quantity = 8 WHERE id = 'T-1'", "order \"T-1\"",
       [](Register& r) { static_cast<void>(r.quantities()); }},
      {"texts_stay", "UPDATE texts SET body = 'jab of T-1, changed' WHERE body = 'job of T-1, changed'",
       "the job's text in print 2 of order \"T-1\"", job},
      {"texts_stay", "UPDATE texts SET body = 'shap' WHERE body = 'shop'",
       "the shop's text in print 2 of order \"T-1\"", job},
      {"prints_stay", "UPDATE prints SET job = 1 WHERE order_id = 'T-1' AND number = 2", "print 2 of order \"T-1\"",
       job},
      {"plans_stay", "UPDATE plans SET body = '1 2 4 Saw'", "the plan of print 2 of order \"T-1\"",
       [](Register& r) { static_cast<void>(r.print_of_order("T-1")); }},
      {"prints_stay", "UPDATE prints SET made_unix_s = 1 WHERE order_id = 'T-1'", "print 2 of order \"T-1\"", job},
  };
  for (const Damage& damage : all) {
    CAPTURE(damage.change);
    const std::string copy = folder / "copy.register";
    std::filesystem::copy_file(path, copy, std::filesystem::copy_options::overwrite_existing);
    {
      Database db{copy, Database::Mode::write, 1s};
      if (*damage.trigger != '\0') db.run(std::string{"DROP TRIGGER "} + damage.trigger);
      db.run(damage.change);
    }
    auto reg = Register::open_to_read(copy);
    std::string said;
    try {
      damage.ask(*reg);
    } catch (const WorldError& error) {
      said = error.what();
    }
    CHECK(said ==
          copy + ": the register is damaged: " + damage.named + " is not as it was written; restore it from a copy");
    CHECK_THROWS_AS(static_cast<void>(reg->contents().entries.size() + reg->known_blanks().size()), WorldError);
  }
}

TEST_CASE("of a register with any one bit turned nothing false is answered") {
  const TemporaryFolder folder;
  const std::string path = folder / "shop.register";
  make(path);
  const Answers before = answers(path);
  std::ifstream file{path, std::ios::binary};
  std::string bytes{std::istreambuf_iterator<char>{file}, {}};
  RandomNumbers numbers{17};
  int refused = 0;
  for (int k = 0; k < 1'500; ++k) {
    char& byte = bytes.at(static_cast<std::size_t>(numbers.whole(0, static_cast<int>(bytes.size()) - 1)));
    const char bit = static_cast<char>(1 << numbers.whole(0, 7));
    CAPTURE(&byte - bytes.data());
    CAPTURE(int{bit});
    byte = static_cast<char>(byte ^ bit);
    std::ofstream{path, std::ios::binary} << bytes;
    try {
      const Answers now = answers(path);
      CHECK((now == before));
    } catch (const WorldError&) {
      ++refused;
    }
    byte = static_cast<char>(byte ^ bit);
  }
  CHECK(refused > 100);  // most of the file is free space
}

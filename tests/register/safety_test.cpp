#include <doctest/doctest.h>

#include <sys/mman.h>

#include <array>
#include <atomic>
#include <chrono>
#include <ctime>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include "../child_process.h"
#include "../entries/entries_for_test.h"
#include "../plan/random_numbers.h"
#include "../temporary_folder.h"
#include "../test_server.h"
#include "diagnose/failure.h"
#include "failing_disk.h"
#include "register/register.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

/// A register with blanks of one order.
std::vector<BlankId> begin(const RegisterPlace& place, int pieces) {
  const std::vector orders{OrderToIssue{"T-1", pieces, {"job", "shop", "template", "0.1.0"}, {}}};
  return Register{place, BlankId::nth(0)}.issue(orders, 0, EntriesForTest::start).value().front();
}

Entry weighed(const BlankId& blank, int n) {
  Entry entry;
  entry.kind = EntryKind::weighed;
  entry.at = EntriesForTest::start + std::chrono::seconds{n};
  entry.blank = blank;
  entry.set(Field::mass, 0.1 + 0.001 * n);
  return entry;
}

/// Adds the n-th entry of a run of entries; false where the register refuses it, which it never has a reason to.
bool add(Register& reg, const BlankId& blank, int n) {
  const Entry entry = weighed(blank, n);
  return reg.add(std::array{entry}, entry.at).has_value();
}

/// A number that a child process and its parent both see.
struct Shared {
  Shared() {
    void* place =
        ::mmap(nullptr, sizeof(std::atomic<int>), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    value = new (place) std::atomic<int>{0};
  }
  ~Shared() { ::munmap(value, sizeof(std::atomic<int>)); }
  Shared(const Shared&) = delete;
  Shared& operator=(const Shared&) = delete;
  std::atomic<int>* value;
};

/// Both the entries and what is kept beside them, and the file is sound.
void check_whole(const std::string& path, const BlankId& blank, EntryNumber at_least, EntryNumber at_most) {
  Register reg{path};
  const auto entries = reg.all_entries();
  CHECK(static_cast<EntryNumber>(entries.size()) == reg.last_entry());
  CHECK(reg.last_entry() >= at_least);
  CHECK(reg.last_entry() <= at_most);
  CHECK(reg.known_blanks().front().blank == summary_of(*reg.blank(blank)));
}

}  // namespace

TEST_CASE("of 500 writers killed at any moment none loses an entry that it had answered") {
  const TemporaryFolder folder;
  const std::string path = folder / "shop.register";
  const BlankId blank = begin(path, 1).front();
  const std::string journal = path + "-journal";
  RandomNumbers numbers{500};
  const Shared answered;
  int in_transaction = 0;
  int n = 0;
  for (int round = 0; round < 500; ++round) {
    *answered.value = n;
    const pid_t child = start_child([&] {
      Register reg{path};
      for (int k = n + 1;; ++k) {
        if (!add(reg, blank, k)) return 1;
        *answered.value = k;
      }
    });
    while (*answered.value == n && numbers.share() < 0.9999) std::this_thread::sleep_for(50us);
    // At any moment; in every other round at one when a transaction was just seen.
    std::this_thread::sleep_for(std::chrono::microseconds{numbers.whole(0, 3000)});
    const auto stop = std::chrono::steady_clock::now() + 1s;
    while (round % 2 == 0 && !std::filesystem::exists(journal) && std::chrono::steady_clock::now() < stop) {
    }
    ::kill(child, SIGKILL);
    CHECK(end_of(child) == -1);
    in_transaction += std::filesystem::exists(journal) ? 1 : 0;
    Register reg{path};
    const int has = static_cast<int>(reg.last_entry()) - 1;  // without the issued one
    REQUIRE(has >= *answered.value);                         // one more may be on disk that was not answered any more
    REQUIRE(has <= *answered.value + 1);
    n = has;
  }
  CHECK(in_transaction >= 100);
  MESSAGE(in_transaction << " of 500 kills fell into a transaction, after " << n << " entries");
  check_whole(path, blank, n + 1, n + 1);
}

TEST_CASE("an answered entry survives the loss of everything that was not synced") {
  const TemporaryFolder folder;
  const std::string path = folder / "shop.register";
  const BlankId blank = begin(path, 1).front();
  const int result = in_child([&] {
    FailingDisk::install();
    Register reg{path};
    for (int n = 1; n <= 20; ++n) {
      if (!add(reg, blank, n)) return 1;
    }
    return 0;  // and the power goes
  });
  REQUIRE(result == 0);
  check_whole(path, blank, 21, 21);
}

TEST_CASE("the disk of these tests does forget: what is answered before it is synced is lost") {
  const TemporaryFolder folder;
  const std::string path = folder / "shop.register";
  begin(path, 1);
  const auto survives = [&](const char* synchronous) {
    const int result = in_child([&] {
      FailingDisk::install();
      Database db{path, Database::Mode::write, 1s};
      db.run(synchronous);
      db.run("UPDATE orders SET dye = 'changed'");
      return 0;
    });
    REQUIRE(result == 0);
    Register{path};  // undoes what was cut short
    return Database{path, Database::Mode::read, 1s}.number("SELECT count(*) FROM orders WHERE dye = 'changed'") == 1;
  };
  CHECK_FALSE(survives("PRAGMA synchronous = OFF"));
  // FULL does not sync the folder once the journal is deleted: the journal comes back and undoes what was answered.
  CHECK_FALSE(survives("PRAGMA synchronous = FULL"));
  CHECK(survives("PRAGMA synchronous = EXTRA"));
}

TEST_CASE("whichever write fails, or the disk is full, nothing answered is lost and nothing is half there") {
  for (const bool full : {false, true}) {
    CAPTURE(full);
    const TemporaryFolder folder;
    const std::string path = folder / "shop.register";
    const BlankId blank = begin(path, 1).front();
    int failed = 0;
    for (int at = 1; at < 100; ++at) {
      CAPTURE(at);
      const EntryNumber before = Register{path}.last_entry();
      const int result = in_child([&] {
        FailingDisk::install();
        Register reg{path};
        FailingDisk::fail_from(at, full);
        try {
          if (!add(reg, blank, static_cast<int>(before))) return 2;
        } catch (const WorldError&) {
          return 1;
        }
        return 0;
      });
      REQUIRE((result == 0 || result == 1));
      // An entry that was not answered may all the same have come to disk when its last sync failed.
      check_whole(path, blank, before + (result == 0 ? 1 : 0), before + 1);
      failed += result;
      if (result == 0) break;  // more calls than an entry takes
    }
    CHECK(failed >= 8);
  }
}

TEST_CASE_TEMPLATE("two writers of entries wait for each other and lose none", At, InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "shop.register");
  const auto blanks = begin(place, 2);
  const auto work = [&](const BlankId& blank) {
    return start_child([&place, blank] {
      for (int n = 1; n <= 60; ++n) {
        Register reg{place};
        if (!add(reg, blank, n)) return 1;
      }
      return 0;
    });
  };
  const pid_t one = work(blanks.at(0));
  const pid_t other = work(blanks.at(1));
  CHECK(end_of(one) == 0);
  CHECK(end_of(other) == 0);
  Register reg{place};
  CHECK(reg.last_entry() == 122);
  for (const BlankId& blank : blanks) CHECK(reg.blank(blank)->dry.size() == 60);
}

TEST_CASE_TEMPLATE("the rows kept beside the entries agree with them whatever was entered, corrected or overridden",
                   At, InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "shop.register");
  const auto blanks = begin(place, 12);
  Register reg{place};
  RandomNumbers numbers{99};
  const int steps = place.is_on_server ? 300 : 1500;  // each is synced
  Instant now = EntriesForTest::start;
  int taken = 0;
  for (int step = 0; step < steps; ++step) {
    const BlankId& blank = blanks.at(static_cast<std::size_t>(numbers.whole(0, 11)));
    const auto& kinds = kind_list();
    const KindFacts& kind = kinds[static_cast<std::size_t>(numbers.whole(1, static_cast<int>(kinds.size()) - 1))];
    Entry entry;
    entry.kind = kind.kind;
    entry.at = now += 1min;
    if (kind.of_blank) entry.blank = blank;
    for (const FieldUse& use : kind.fields) {
      const FieldFacts& field = facts_of(use.field);
      if (use.field == Field::order) {
        entry.set(use.field, std::string{"T-1"});
      } else if (field.kind) {
        entry.set(use.field, numbers.between(0.019, 0.021));
      } else {
        entry.set(use.field, field.words.empty()
                                 ? "n" + std::to_string(numbers.whole(1, 3))
                                 : std::string{field.words[static_cast<std::size_t>(numbers.whole(0, 1))]});
      }
    }
    const auto has = reg.entries_of(blank);
    if (kind.kind == EntryKind::corrected || numbers.share() < 0.1) {
      const Entry& old = has.at(static_cast<std::size_t>(numbers.whole(0, static_cast<int>(has.size()) - 1)));
      entry.replaces = old.number;
      entry.blank = old.blank;
    }
    if (numbers.share() < 0.2) entry.overridden = "to see";
    taken += reg.add(std::array{entry}, now).has_value() ? 1 : 0;
  }
  CHECK(taken > 2 * steps / 15);
  for (const KnownBlank& known : reg.known_blanks()) {
    CHECK(known.blank == summary_of(*reg.blank(*known.blank.id)));
  }
  Register other{At::place(folder, "other.register"), BlankId::nth(0)};
  other.fill(reg.contents(), now);
  const auto a = reg.known_blanks();
  const auto b = other.known_blanks();
  for (std::size_t i = 0; i < a.size(); ++i) CHECK(a.at(i).blank == b.at(i).blank);

  // The same entries in one go, as a table has them.
  const RegisterPlace at_once = At::place(folder, "at-once.register");
  begin(at_once, 12);
  Register table{at_once};
  std::vector<Entry> all = reg.all_entries();
  std::erase_if(all, [](const Entry& entry) { return entry.kind == EntryKind::issued; });
  REQUIRE(table.add(all, now).has_value());
  CHECK(table.all_entries() == reg.all_entries());
  const auto c = table.known_blanks();
  for (std::size_t i = 0; i < a.size(); ++i) CHECK(a.at(i).blank == c.at(i).blank);
}

TEST_CASE("the time for a table of entries grows with its rows and not with their square") {
  const TemporaryFolder folder;
  const auto seconds_for = [&](int rows) {
    const std::string path = folder / std::to_string(rows);
    const auto blanks = begin(path, 10);
    std::vector<Entry> table;
    for (int n = 0; n < rows; ++n) table.push_back(weighed(blanks.at(static_cast<std::size_t>(n) % 10), n));
    for (Entry& entry : table) entry.set(Field::mass, 0.131);
    Register reg{path};
    const std::clock_t begun = std::clock();  // of this process: what else the machine does is left out
    REQUIRE(reg.add(table, table.back().at).has_value());
    return static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
  };
  const double few = seconds_for(1'000);
  CHECK(seconds_for(8'000) < 24 * few);  // 8 times would be exact, 64 times the square
}

// How long entries and questions take in a large register, in a file and on a server: 2,000 blanks of ten entries
// each, or as many as LARGE_REGISTER says (target large_register).

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <functional>
#include <string>
#include <thread>
#include <vector>

#include "../temporary_folder.h"
#include "../test_server.h"
#include "entries/statistics.h"
#include "register/register.h"

using namespace blankwright;

namespace {

constexpr int blanks_an_order = 20;
constexpr Instant first_day{std::chrono::seconds{1'800'000'000}};

Entry made_entry(EntryNumber number, EntryKind kind, const BlankId& blank) {
  Entry entry;
  entry.number = number;
  entry.kind = kind;
  entry.at = first_day + std::chrono::seconds{number};
  entry.blank = blank;
  return entry;
}

/// Ten entries of one blank: issued to bored, in the order of the trade.
void add_life(std::vector<Entry>& entries, const BlankId& blank, const std::string& order, const std::string& bath) {
  const auto add = [&](EntryKind kind) -> Entry& {
    return entries.emplace_back(made_entry(static_cast<EntryNumber>(entries.size()) + 1, kind, blank));
  };
  add(EntryKind::issued).set(Field::order, order);
  add(EntryKind::sawn).set(Field::board, "board-" + bath);
  add(EntryKind::weighed).set(Field::mass, 0.13);
  add(EntryKind::into_bath).set(Field::bath, bath);
  add(EntryKind::drained);
  add(EntryKind::weighed).set(Field::mass, 0.26);
  add(EntryKind::into_oven).set(Field::load, "load-" + bath);
  add(EntryKind::out_of_oven);
  Entry& squared = add(EntryKind::squared);
  squared.set(Field::width, 0.04);
  squared.set(Field::depth, 0.04);
  Entry& bored = add(EntryKind::bored);
  for (const Field face : {Field::face_1, Field::face_2, Field::face_3, Field::face_4}) bored.set(face, 0.02);
  bored.set(Field::lean_1, 0.0002);
  bored.set(Field::lean_2, -0.0001);
  bored.set(Field::over, 0.1);
}

double milliseconds(const std::function<void()>& work) {
  const auto before = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - before).count();
}

/// A register of so many blanks; `last` is after all that happened.
void fill_large(const RegisterPlace& place, int blanks, Instant last) {
  RegisterContents all{BlankId::nth(0), {"job", "shop", ""}, {}, {}, {}};
  for (int k = 0; k < blanks; ++k) {
    const std::string order = fmt::format("S-{:06}", k / blanks_an_order);
    if (k % blanks_an_order == 0) {
      all.orders.push_back({order, first_day, {"beech, European", "spalted", "", 16}});
      all.prints.push_back({order, 1, first_day, first_day, 0, "0.1.0", 0, 1, 2});
    }
    add_life(all.entries, BlankId::nth(static_cast<std::uint32_t>(k)), order, fmt::format("bath-{}", k / 30));
  }
  Register{place, BlankId::nth(0)}.fill(all, last);
}

/// Entries a second that so many benches add at once, each of blanks of its own.
double entries_a_second(const RegisterPlace& place, int benches, Instant at) {
  constexpr int each = 25;
  const double took = milliseconds([&] {
    std::vector<std::thread> all;
    for (int b = 0; b < benches; ++b) {
      all.emplace_back([&, b] {
        Register bench{place};
        for (int n = 0; n < each; ++n) {
          Entry entry = made_entry(0, EntryKind::weighed, BlankId::nth(static_cast<std::uint32_t>(b)));
          entry.at = at;
          entry.set(Field::mass, 0.25);
          static_cast<void>(bench.add(std::array{entry}, at));
        }
      });
    }
    for (std::thread& one : all) one.join();
  });
  return 1000 * benches * each / took;
}

}  // namespace

TEST_CASE_TEMPLATE("in a large register one thing is answered within 50 ms", At, InFile, OnServer) {
  const char* asked = std::getenv("LARGE_REGISTER");
  const int blanks = asked == nullptr ? 2'000 : std::atoi(asked);
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "shop.register");
  const Instant last = first_day + std::chrono::seconds{11 * blanks};
  std::string told = fmt::format("{} {}: made in {:.1f} s", blanks, place.is_on_server ? "on a server" : "in a file",
                                 milliseconds([&] { fill_large(place, blanks, last); }) / 1000);
  const BlankId middle = BlankId::nth(static_cast<std::uint32_t>(blanks / 2));
  Register reg{place};
  const auto best_of_ten = [&](const char* name, const std::function<void()>& ask) {
    double best = 1e9;
    for (int k = 0; k < 10; ++k) best = std::min(best, milliseconds(ask));
    told += fmt::format("; {} {:.1f} ms", name, best);
    return best;
  };
  const std::string order = fmt::format("S-{:06}", blanks / 40), bath = fmt::format("bath-{}", blanks / 60);
  CHECK(best_of_ten("a blank", [&] { static_cast<void>(reg.blank(middle)); }) < 50);
  CHECK(best_of_ten("an order", [&] { static_cast<void>(reg.blanks_of_order(order)); }) < 50);
  CHECK(best_of_ten("a bath", [&] { static_cast<void>(reg.bath(bath)); }) < 50);
  CHECK(best_of_ten("a load", [&] { static_cast<void>(reg.load("load-" + bath)); }) < 50);
  Entry entry = made_entry(0, EntryKind::weighed, middle);
  entry.at = last;
  entry.set(Field::mass, 0.25);
  CHECK(best_of_ten("an entry", [&] { REQUIRE(reg.add(std::array{entry}, last).has_value()); }) < 50);
  best_of_ten("the shop's yield", [&] { static_cast<void>(yield_counted(reg.known_blanks(), reg.quantities())); });
  const double one = entries_a_second(place, 1, last), eight = entries_a_second(place, 8, last);
  MESSAGE(told << fmt::format("; {:.0f} entries a second at one bench, {:.0f} at eight", one, eight));
  for (const KnownBlank& blank : reg.blanks_of_order(order))
    CHECK(blank.blank == summary_of(*reg.blank(*blank.blank.id)));
}

// How long questions and entries take in a large register: BLANKS blanks (100,000) of ten entries each.
//
//   large_register FILE [BLANKS]
//
// Makes FILE anew, so that nothing that stands there is used by mistake it must not be there yet.

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <iostream>
#include <string>
#include <vector>

#include "entries/statistics.h"
#include "register/register.h"

using namespace blankwright;

namespace {

constexpr int blanks_an_order = 20;
constexpr Instant start{std::chrono::seconds{1'800'000'000}};

Entry made(EntryNumber number, EntryKind kind, const BlankId& blank) {
  Entry entry;
  entry.number = number;
  entry.kind = kind;
  entry.at = start + std::chrono::seconds{number};
  entry.blank = blank;
  return entry;
}

/// Ten entries of one blank: issued to bored, in the order of the trade.
void add_life(std::vector<Entry>& entries, const BlankId& blank, const std::string& order, const std::string& bath) {
  const auto add = [&](EntryKind kind) -> Entry& {
    return entries.emplace_back(made(static_cast<EntryNumber>(entries.size()) + 1, kind, blank));
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

void fill(const std::string& path, int blanks) {
  RegisterContents all{BlankId::nth(0), {"job", "shop", ""}, {}, {}, {}};
  for (int k = 0; k < blanks; ++k) {
    const std::string order = fmt::format("S-{:06}", k / blanks_an_order);
    if (k % blanks_an_order == 0) {
      all.orders.push_back({order, start, {"beech, European", "spalted", "", 16}});
      all.prints.push_back({order, 1, start, start, 0, "0.1.0", 0, 1, 2});
    }
    add_life(all.entries, BlankId::nth(static_cast<std::uint32_t>(k)), order, fmt::format("bath-{}", k / 30));
  }
  Register{path, BlankId::nth(0)}.fill(all, start + std::chrono::seconds{all.entries.size()});
}

}  // namespace

int main(int argc, char** argv) {
  const std::string path = argc > 1 ? argv[1] : "";
  const int blanks = argc > 2 ? std::atoi(argv[2]) : 100'000;
  if (path.empty() || blanks < 100 || std::filesystem::exists(path)) {
    std::cerr << "large_register FILE [BLANKS]: FILE must not be there yet, and BLANKS is 100 at least\n";
    return 2;
  }
  std::cout << fmt::format("{} blanks of ten entries made in {:.1f} s\n", blanks,
                           milliseconds([&] { fill(path, blanks); }) / 1000);
  const BlankId middle = BlankId::nth(static_cast<std::uint32_t>(blanks / 2));
  const std::array<std::pair<const char*, std::function<void(Register&)>>, 6> questions{{
      {"one blank", [&](Register& r) { static_cast<void>(r.blank(middle)); }},
      {"an order", [&](Register& r) { static_cast<void>(r.blanks_of_order(fmt::format("S-{:06}", blanks / 40))); }},
      {"a bath", [&](Register& r) { static_cast<void>(r.bath(fmt::format("bath-{}", blanks / 60))); }},
      {"yield of the shop", [](Register& r) { static_cast<void>(yield_counted(r.known_blanks(), r.quantities())); }},
      {"uptake of the shop", [](Register& r) { static_cast<void>(uptake_seen(r.known_blanks())); }},
      {"axes of the shop", [](Register& r) { static_cast<void>(axis_spread(r.known_blanks())); }},
  }};
  for (const auto& [name, ask] : questions) {  // each opens the file, as a command does
    const double took = milliseconds([&] {
      auto known = Register::open_to_read(path);
      ask(*known);
    });
    std::cout << fmt::format("{:<20} {:8.1f} ms\n", name, took);
  }
  Entry entry = made(0, EntryKind::weighed, middle);
  entry.at = start + std::chrono::seconds{11 * blanks};
  entry.set(Field::mass, 0.25);
  const double took = milliseconds([&] { static_cast<void>(Register{path}.add(std::array{entry}, entry.at)); });
  std::cout << fmt::format("{:<20} {:8.1f} ms, opened and synced\n", "an entry", took);
  auto known = Register::open_to_read(path);
  for (const KnownBlank& blank : known->blanks_of_order(fmt::format("S-{:06}", blanks / 40))) {
    if (!(blank.blank == summary_of(*known->blank(*blank.blank.id)))) {
      std::cerr << "a row does not agree with its entries\n";
      return 1;
    }
  }
  return 0;
}

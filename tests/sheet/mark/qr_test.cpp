#include "sheet/mark/qr.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <qrcodegen/qrcodegen.hpp>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include "diagnose/failure.h"
#include "sheet/mark/qr_mask.h"

using namespace blankwright;

namespace {

constexpr QrLevel levels[] = {QrLevel::low, QrLevel::medium, QrLevel::quartile, QrLevel::high};

struct Capacity {
  int version;
  QrLevel level;
  std::size_t alphanumeric;  ///< characters; 0 where the row says nothing
  std::size_t bytes;
};

/// ISO/IEC 18004:2015, table 7. Versions 1 to 3, and the byte columns L, M, Q of all versions, compared with two
/// public copies; 4-Q, 4-H, the alphanumeric columns of 5, 6 and 10 and the byte columns 5-H, 6-H and 10-H from
/// memory, computed once more.
constexpr Capacity capacities[] = {
    {1, QrLevel::low, 25, 17},       {1, QrLevel::medium, 20, 14},      {1, QrLevel::quartile, 0, 11},
    {1, QrLevel::high, 10, 7},       {2, QrLevel::low, 47, 32},         {2, QrLevel::medium, 0, 26},
    {2, QrLevel::quartile, 29, 20},  {2, QrLevel::high, 20, 14},        {3, QrLevel::low, 77, 53},
    {3, QrLevel::medium, 61, 42},    {3, QrLevel::quartile, 47, 32},    {3, QrLevel::high, 35, 24},
    {4, QrLevel::low, 0, 78},        {4, QrLevel::quartile, 67, 0},     {4, QrLevel::high, 50, 0},
    {5, QrLevel::low, 154, 106},     {5, QrLevel::medium, 122, 84},     {5, QrLevel::quartile, 87, 60},
    {5, QrLevel::high, 0, 44},       {6, QrLevel::low, 195, 134},       {6, QrLevel::medium, 154, 106},
    {6, QrLevel::quartile, 108, 74}, {6, QrLevel::high, 84, 58},        {10, QrLevel::low, 395, 271},
    {10, QrLevel::medium, 311, 213}, {10, QrLevel::quartile, 221, 151}, {10, QrLevel::high, 174, 119},
};

bool holds(int version, QrLevel level, const std::string& text) {
  return qr_symbol({.text = text, .level = level, .least_version = version, .most_version = version}).has_value();
}

std::string random_text(std::mt19937& random, std::string_view alphabet, std::size_t length) {
  std::string text;
  for (std::size_t n = 0; n < length; ++n) text += alphabet[random() % alphabet.size()];
  return text;
}

/// The library's own choice of the mask, by its own scorer.
std::vector<bool> chosen_by_qrcodegen(const std::string& text, QrLevel level, int version) {
  using qrcodegen::QrCode;
  const QrCode code = QrCode::encodeSegments(qrcodegen::QrSegment::makeSegments(text.c_str()),
                                             static_cast<QrCode::Ecc>(level), version, version, -1);
  std::vector<bool> black;
  for (int y = 0; y < code.getSize(); ++y) {
    for (int x = 0; x < code.getSize(); ++x) black.push_back(code.getModule(x, y));
  }
  return black;
}

ModuleGrid grid_of(const std::vector<std::string>& rows) {
  ModuleGrid grid;
  grid.side = static_cast<int>(rows.size());
  for (std::size_t y = 0; y < rows.size(); ++y) {
    for (std::size_t x = 0; x < rows.size(); ++x) {
      if (rows.at(y).at(x) != '#') continue;
      grid.rows.at(y) |= std::uint64_t{1} << x;
      grid.columns.at(x) |= std::uint64_t{1} << y;
    }
  }
  return grid;
}

std::vector<std::string> chessboard(std::size_t side) {
  std::vector<std::string> rows(side, std::string(side, '.'));
  for (std::size_t y = 0; y < side; ++y) {
    for (std::size_t x = y % 2; x < side; x += 2) rows.at(y).at(x) = '#';
  }
  return rows;
}

}  // namespace

TEST_CASE("a QR symbol holds as much as the standard's table says and not one character more") {
  for (const Capacity& row : capacities) {
    CAPTURE(row.version);
    CAPTURE(static_cast<int>(row.level));
    if (row.alphanumeric != 0) {
      CHECK(holds(row.version, row.level, std::string(row.alphanumeric, 'K')));
      CHECK_FALSE(holds(row.version, row.level, std::string(row.alphanumeric + 1, 'K')));
    }
    if (row.bytes != 0) {
      CHECK(holds(row.version, row.level, std::string(row.bytes, 'k')));
      CHECK_FALSE(holds(row.version, row.level, std::string(row.bytes + 1, 'k')));
    }
  }
}

TEST_CASE("the smallest version that holds the text is taken, and its side is the standard's") {
  // ISO/IEC 18004: 17 + 4 × version; sides 37, 57 and 177 of versions 5, 10 and 40 are printed there.
  const std::optional<QrSymbol> tag = qr_symbol({.text = "K7T4X54"});
  REQUIRE(tag);
  CHECK(tag->version == 1);
  CHECK(tag->side == 21);
  for (const auto& [version, side] : {std::pair{5, 37}, {10, 57}, {40, 177}}) {
    const std::optional<QrSymbol> symbol = qr_symbol({.text = "K7T4X54", .least_version = version});
    REQUIRE(symbol);
    CHECK(symbol->version == version);
    CHECK(symbol->side == side);
    CHECK(symbol->black.size() == static_cast<std::size_t>(side) * static_cast<std::size_t>(side));
  }
}

TEST_CASE("the mask of a tag is the one that qrcodegen's own scorer picks") {
  std::mt19937 random{18004};
  int compared = 0;
  for (int version = 1; version <= 4; ++version) {
    for (const QrLevel level : levels) {
      for (int n = 0; n < 250; ++n) {
        const std::string id = random_text(random, "23456789BCDFGHJKNPRSTVX", 7);
        const std::optional<QrSymbol> symbol =
            qr_symbol({.text = id, .level = level, .least_version = version, .most_version = version});
        REQUIRE(symbol);
        CAPTURE(id);
        CAPTURE(version);
        REQUIRE(symbol->black == chosen_by_qrcodegen(id, level, version));
        ++compared;
      }
    }
  }
  CHECK(compared == 4000);
}

TEST_CASE("small symbols of every length and mode are those of qrcodegen") {
  std::mt19937 random{2};
  int compared = 0;
  for (const std::string_view alphabet : {"0123456789", "23456789BCDFGHJKNPRSTVX $%*+-./:", "abcxyz?=#\xC3\xA4"}) {
    for (const QrLevel level : levels) {
      for (std::size_t length = 1; length <= 90; ++length) {
        const std::string text = random_text(random, alphabet, length);
        const std::optional<QrSymbol> symbol = qr_symbol({.text = text, .level = level, .most_version = 2});
        if (!symbol) {
          CHECK_THROWS_AS(chosen_by_qrcodegen(text, level, 2), qrcodegen::data_too_long);
          break;
        }
        CAPTURE(text);
        CAPTURE(symbol->version);
        REQUIRE(symbol->black == chosen_by_qrcodegen(text, level, symbol->version));
        if (symbol->version == 2) CHECK_THROWS_AS(chosen_by_qrcodegen(text, level, 1), qrcodegen::data_too_long);
        ++compared;
      }
    }
  }
  // ISO/IEC 18004, table 7, version 2: digits 77, 63, 48, 34; alphanumeric 47, 38, 29, 20; bytes 32, 26, 20, 14. The
  // digits, and the alphanumeric 38, from memory.
  CHECK(compared == 77 + 63 + 48 + 34 + 47 + 38 + 29 + 20 + 32 + 26 + 20 + 14);
}

TEST_CASE("long texts and mixed modes are masked as qrcodegen masks them") {
  std::mt19937 random{40};
  for (int version = 5; version <= 13; ++version) {
    for (int n = 0; n < 20; ++n) {
      const std::string text = random_text(random, "abcdefghijklmnopqrstuvwxyz/:?=#0123456789", 40);
      const std::optional<QrSymbol> symbol =
          qr_symbol({.text = text, .level = QrLevel::medium, .least_version = version, .most_version = version});
      REQUIRE(symbol);
      REQUIRE(symbol->black == chosen_by_qrcodegen(text, QrLevel::medium, version));
    }
  }
}

TEST_CASE("symbols made in several threads at once are the same") {
  const auto make = [] { return qr_symbol({.text = "K7T4X54", .least_version = 7})->black; };
  std::vector<std::vector<bool>> made(4);
  std::vector<std::thread> threads;
  for (std::vector<bool>& black : made) threads.emplace_back([&black, make] { black = make(); });
  for (std::thread& thread : threads) thread.join();
  for (const std::vector<bool>& black : made) CHECK(black == made.front());
}

TEST_CASE("the penalty rules score what the standard says") {
  // ISO/IEC 18004, evaluation of data masking: N1 = 3, N2 = 3, N3 = 40, N4 = 10; counted by hand. A chessboard of 21
  // × 21 has 221 dark of 441 (50.1 %), no run, no block, no finder: 0.
  CHECK(penalty_of(grid_of(chessboard(21))) == 0);

  // All light: 42 lines with a run of 21 (3 + 16 each), 20 × 20 blocks, 0 % dark: 50 % away is 9 steps beyond the
  // first.
  CHECK(penalty_of(grid_of(std::vector<std::string>(21, std::string(21, '.')))) == 42 * 19 + 3 * 400 + 10 * 9);

  // One finder pattern in row 0, four light on either side of it: both orders count, 40 each. Runs of four score
  // nothing, and row 1 alternates, so there is no block and no run in a column. 218 of 441 are dark: 49.4 %.
  std::vector<std::string> rows = chessboard(21);
  rows.at(0) = "....#.###.#....#.#.#.";
  CHECK(penalty_of(grid_of(rows)) == 80);
}

TEST_CASE("a module is a whole number of printer dots and stands on the dots") {
  // 6, 9 and 12 dots at 300 dpi are 0.508, 0.762 and 1.016 mm; a version 1 symbol with its quiet zone then measures
  // 14.7, 22.1 and 29.5 mm (arithmetic of 25.4 mm / 300 and 29 modules).
  struct Row {
    Length room, module;
  };
  for (const Row& row : {Row{14.9 * mm, 0.508 * mm}, {22.3 * mm, 0.762 * mm}, {29.7 * mm, 1.016 * mm}}) {
    const std::optional<QrPlacing> placing = placed_qr(21, {7.21 * mm, 15.15 * mm, row.room, row.room});
    REQUIRE(placing);
    CHECK(abs(placing->module - row.module) < 1e-6 * mm);
    for (const Length place : {placing->at.x, placing->at.y, placing->with_border.x, placing->module}) {
      const double dots = place / printer_dot;
      CHECK(std::abs(dots - std::round(dots)) < 1e-6);
    }
    CHECK(placing->with_border.x >= 7.21 * mm);
    CHECK(placing->with_border.right() <= 7.21 * mm + row.room);
    CHECK(placing->with_border.bottom() <= 15.15 * mm + row.room);
    CHECK(abs(placing->at.x - placing->with_border.x - 4 * placing->module) < 1e-9 * mm);
  }
  CHECK(abs(snapped_down(0.5 * mm) - 5 * printer_dot) < 1e-9 * mm);
  CHECK(abs(snapped_down(6 * printer_dot) - 6 * printer_dot) < 1e-9 * mm);
}

TEST_CASE("the codes of a label sheet are equally large on every label") {
  for (double x = 0; x < 200; x += 7.3) {
    const std::optional<QrPlacing> placing = placed_qr(25, {x * mm, 0.7 * x * mm, 28 * mm, 28 * mm});
    REQUIRE(placing);
    CAPTURE(x);
    CHECK(abs(placing->module - 9 * printer_dot) <
          1e-6 * mm);  // 28 mm are 330.7 dots, 33 modules of 10 would need 331
    CHECK(placing->with_border.x >= x * mm);
    CHECK(placing->with_border.right() <= (x + 28) * mm);
  }
}

TEST_CASE("a version 3 symbol with 0.5 mm modules needs 18.5 mm") {
  // ISO/IEC 18004: four modules of quiet zone on every side; (29 + 8) × 0.5 mm.
  CHECK((29 + 2 * quiet_modules) * 0.5 == doctest::Approx(18.5));
}

TEST_CASE("a room in which modules would be under four dots holds no symbol") {
  const Length least = (29 * 4 + 1) * printer_dot;  // one for moving onto the dots
  CHECK(placed_qr(21, {Length{}, Length{}, least, least}));
  CHECK_FALSE(placed_qr(21, {Length{}, Length{}, least - 0.1 * printer_dot, least}));
  CHECK_FALSE(placed_qr(21, {Length{}, Length{}, 1 * mm, 1 * mm}));
}

TEST_CASE("an empty text or versions out of order are our own mistake") {
  CHECK_THROWS_AS(qr_symbol({.text = ""}), BrokenPromise);
  CHECK_THROWS_AS(qr_symbol({.text = "A", .least_version = 3, .most_version = 2}), BrokenPromise);
  CHECK_THROWS_AS(qr_symbol({.text = "A", .least_version = 0}), BrokenPromise);
}

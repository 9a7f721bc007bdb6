#include "entries/blank_id.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diagnose/failure.h"

using blankwright::BlankId;
using blankwright::IdFault;

namespace {

constexpr std::string_view alphabet = "23456789BCDFGHJKNPRSTVX";

/// The six data symbols as a number of base 23, highest first.
std::uint32_t code_of(std::uint32_t n) {
  std::uint32_t code = 0;
  for (const char symbol : BlankId::nth(n).encoded().substr(0, 6)) {
    code = code * 23 + static_cast<std::uint32_t>(alphabet.find(symbol));
  }
  return code;
}

/// Undoes the scattering, written from the rule in blank_id.h.
std::uint32_t n_of(std::uint32_t code) {
  const std::uint32_t half = 23 * 23 * 23;
  std::uint64_t left = code / half;
  std::uint64_t right = code % half;
  for (std::uint64_t round = 4; round >= 1; --round) {
    std::uint64_t x = (left + round * half) * 0x9E3779B97F4A7C15U;
    x ^= x >> 32U;
    x *= 0xBF58476D1CE4E5B9U;
    x ^= x >> 32U;
    const std::uint64_t before = (right + half - x % half) % half;
    right = left;
    left = before;
  }
  return static_cast<std::uint32_t>(left * half + right);
}

IdFault fault_of(std::string_view typed) {
  const auto id = BlankId::read(typed);
  REQUIRE_FALSE(id.has_value());
  return id.error();
}

/// What arrives from a scanner that types as a QWERTY keyboard where the computer expects an AZERTY one: the digits'
/// keys give the characters that stand on them without Shift. Source: the French layout's top row, & é " ' ( - è _ ç
/// à for 1 to 0.
std::string through_azerty(std::string_view encoded) {
  const std::string_view top_row[] = {"à", "&", "é", "\"", "'", "(", "-", "è", "_", "ç"};
  std::string out;
  for (const char c : encoded) {
    const bool digit = c >= '0' && c <= '9';
    out += digit ? std::string{top_row[c - '0']} : std::string{c};
  }
  return out;
}

}  // namespace

TEST_CASE("the check symbol of a worked example is accepted and a misread one refused") {
  // Weights 5 2 10 4 20 8 1, K7T-4X5: 15·5 + 5·2 + 20·10 + 2·4 + 22·20 + 3·8 = 757 = 32·23 + 21; 4 has the value 2;
  // 759 = 33·23.
  const auto id = BlankId::read("K7T-4X54");
  REQUIRE(id.has_value());
  CHECK(id->shown() == "K7T-4X54");
  CHECK(id->encoded() == "K7T4X54");
  CHECK(fault_of("K7T-4X52") == IdFault::check);
}

TEST_CASE("case, spaces and hyphens of a typed ID do not matter") {
  for (const char* typed : {"k7t4x54", " K7T 4X54 ", "K-7-T-4-X-5-4", "K7T4X54\r\n", "\tk7t-4x54"}) {
    CAPTURE(typed);
    const auto id = BlankId::read(typed);
    REQUIRE(id.has_value());
    CHECK(id->encoded() == "K7T4X54");
  }
}

TEST_CASE("a text that is no ID is refused with the reason") {
  CHECK(fault_of("") == IdFault::length);
  CHECK(fault_of("K7T-4X5") == IdFault::length);
  CHECK(fault_of("K7T-4X544") == IdFault::length);
  CHECK(fault_of("K7T-4XS0") == IdFault::symbol);
  CHECK(fault_of("K7T-4XÄ4") == IdFault::symbol);
  CHECK(fault_of(std::string_view{"K7T4X5\0", 7}) == IdFault::symbol);
}

TEST_CASE("every wrong symbol and every swap of two positions is caught") {
  for (std::uint32_t k = 0; k < 2000; ++k) {
    const std::string right = BlankId::nth(k * 74017).encoded();
    for (std::size_t place = 0; place < right.size(); ++place) {
      for (const char symbol : alphabet) {
        std::string wrong = right;
        wrong.at(place) = symbol;
        if (wrong != right && BlankId::read(wrong)) FAIL_CHECK(right, " passes as ", wrong);
      }
      for (std::size_t other = 0; other < place; ++other) {
        std::string swapped = right;
        std::swap(swapped.at(place), swapped.at(other));
        if (swapped != right && BlankId::read(swapped)) FAIL_CHECK(right, " passes as ", swapped);
      }
    }
  }
}

TEST_CASE("an ID scanned through an AZERTY layout is the same blank") {
  CHECK(through_azerty("K7T6X5") == "KèT-X(");
  for (std::uint32_t k = 0; k < 20000; ++k) {
    const BlankId id = BlankId::nth(k * 7393);
    const auto back = BlankId::read(through_azerty(id.encoded()));
    if (!back || *back != id) FAIL_CHECK(id.shown(), " is lost as ", through_azerty(id.encoded()));
  }
}

TEST_CASE("the hyphen of a typed ID never stands in for a forgotten 6") {
  // As long as a digit is there, a person typed it. Each text below would pass if its hyphen were read as a 6.
  int tried = 0;
  for (std::uint32_t n = 0; n < 100000; ++n) {
    std::string typed = BlankId::nth(n).encoded();
    if (typed.at(3) != '6') continue;
    typed.at(3) = '-';
    if (typed.find_first_of("2345789") == std::string::npos) continue;
    ++tried;
    if (BlankId::read(typed)) FAIL_CHECK(typed, " passes");
  }
  CHECK(tried > 1000);
}

TEST_CASE("the IDs already out in the world stay what they are") {
  // Frozen: tags were printed from these. Made by a second program written from the rule in blank_id.h.
  const char* first[] = {"NG7-32GX", "JF2-T4JV", "SG8-CRCT", "8CC-F3G3", "87R-728F",
                         "BBB-647V", "5BC-S2K7", "2TK-F5K2", "JH6-4X38", "NXX-C6F6"};
  for (std::uint32_t n = 0; n < 10; ++n) CHECK(BlankId::nth(n).shown() == first[n]);
  CHECK(BlankId::nth(1'000'000).shown() == "R97-5C5V");
  CHECK(BlankId::nth(BlankId::count - 1).shown() == "89J-6NBJ");
  CHECK_THROWS_AS(BlankId::nth(BlankId::count), blankwright::BrokenPromise);
}

TEST_CASE("no two blanks share an ID") {
  // A map that can be undone has no two arguments with one value. All 148,035,889 were marked off once too, by hand.
  for (std::uint32_t n = 0; n < BlankId::count; n += 997) {
    if (n_of(code_of(n)) != n) FAIL_CHECK("the scattering of ", n, " does not lead back");
  }
  std::vector<bool> taken(BlankId::count);
  for (std::uint32_t n = 0; n < 500'000; ++n) {
    const std::uint32_t code = code_of(n);
    if (taken.at(code)) FAIL_CHECK(BlankId::nth(n).shown(), " is given twice");
    taken.at(code) = true;
  }
}

TEST_CASE("blanks of one order do not look alike") {
  // Two texts of six symbols out of 23 drawn at random differ in 6·22/23 = 5.74 places.
  int least = 6;
  long places = 0;
  for (std::uint32_t n = 0; n < 1000; ++n) {
    const std::string one = BlankId::nth(n).encoded();
    for (std::uint32_t further = 1; further <= 24; ++further) {
      const std::string other = BlankId::nth(n + further).encoded();
      int differing = 0;
      for (std::size_t place = 0; place < 6; ++place) differing += one.at(place) != other.at(place) ? 1 : 0;
      least = std::min(least, differing);
      places += differing;
    }
  }
  CHECK(least >= 2);
  CHECK(static_cast<double>(places) / 24000 == doctest::Approx(5.74).epsilon(0.01));
}

TEST_CASE("a series begins with any ID and goes on as the IDs are scattered, round the end") {
  for (const std::uint32_t start : {0U, 1U, 12'166U, 12'167U, 51'000'000U, BlankId::count - 2, BlankId::count - 1}) {
    CAPTURE(start);
    const BlankId first = BlankId::nth(start);
    CHECK(first.after(0) == first);
    for (const std::uint32_t k : {1U, 2U, 1000U, BlankId::count - 1}) {
      CAPTURE(k);
      CHECK(first.after(k).place_in_series_of(first) == k);
      CHECK(first.after(k) == BlankId::nth(static_cast<std::uint32_t>((std::uint64_t{start} + k) % BlankId::count)));
    }
  }
  CHECK_THROWS_AS(static_cast<void>(BlankId::nth(0).after(BlankId::count)), blankwright::BrokenPromise);
}

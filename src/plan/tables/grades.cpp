#include "plan/tables/grades.h"

#include <algorithm>
#include <array>
#include <string>

#include "measure/digit.h"

namespace blankwright {
namespace {

// Least strengths. Sources: ISO 898-1 table 3 (from memory; breaking loads of M8 8.8 and M10 4.8 seen in a public
// copy), ISO 3506-1 (from memory), SAE J429, ASTM A307, A193, A276, F593 (from memory), ASTM B16 (public copy).

constexpr Stress ksi = 1000 * psi;
constexpr std::string_view iso898 = "ISO 898-1 table 3, from memory";
constexpr std::string_view iso898_seen = "ISO 898-1 table 3; breaking load seen in a public copy, yield from memory";
constexpr std::string_view iso3506 = "ISO 3506-1, from memory";
constexpr std::string_view sae = "SAE J429, from memory";
constexpr std::string_view a193 = "ASTM A193, from memory";
constexpr std::string_view a276 = "ASTM A276, annealed, from memory";
constexpr std::string_view b16 = "ASTM B16, public copy";

struct Row {
  /// In small letters, one space between words, separated by semicolons; without the words that key_of() drops.
  std::string_view spellings;
  Length thinnest, thickest;
  Grade grade;
};

constexpr Length any = 100 * mm;

constexpr auto rows = std::to_array<Row>({
    {"4.6", 0 * mm, 39 * mm, {"ISO 898-1 4.6", 400 * megapascal, 240 * megapascal, iso898}},
    {"4.8", 0 * mm, 39 * mm, {"ISO 898-1 4.8", 420 * megapascal, 340 * megapascal, iso898_seen}},
    {"5.6", 0 * mm, 39 * mm, {"ISO 898-1 5.6", 500 * megapascal, 300 * megapascal, iso898}},
    {"5.8", 0 * mm, 39 * mm, {"ISO 898-1 5.8", 520 * megapascal, 420 * megapascal, iso898}},
    {"6.8", 0 * mm, 39 * mm, {"ISO 898-1 6.8", 600 * megapascal, 480 * megapascal, iso898}},
    {"8.8", 0 * mm, 16 * mm, {"ISO 898-1 8.8", 800 * megapascal, 640 * megapascal, iso898_seen}},
    {"8.8", 16 * mm, 39 * mm, {"ISO 898-1 8.8", 830 * megapascal, 660 * megapascal, iso898}},
    {"10.9", 0 * mm, 39 * mm, {"ISO 898-1 10.9", 1040 * megapascal, 940 * megapascal, iso898}},
    {"12.9", 0 * mm, 39 * mm, {"ISO 898-1 12.9", 1220 * megapascal, 1100 * megapascal, iso898}},
    {"a1 50;a1", 0 * mm, 39 * mm, {"ISO 3506-1 A1-50", 500 * megapascal, 210 * megapascal, iso3506}},
    {"a2 50;a2", 0 * mm, 39 * mm, {"ISO 3506-1 A2-50", 500 * megapascal, 210 * megapascal, iso3506}},
    {"a4 50;a4", 0 * mm, 39 * mm, {"ISO 3506-1 A4-50", 500 * megapascal, 210 * megapascal, iso3506}},
    {"a1 70", 0 * mm, 24 * mm, {"ISO 3506-1 A1-70", 700 * megapascal, 450 * megapascal, iso3506}},
    {"a2 70", 0 * mm, 24 * mm, {"ISO 3506-1 A2-70", 700 * megapascal, 450 * megapascal, iso3506}},
    {"a4 70", 0 * mm, 24 * mm, {"ISO 3506-1 A4-70", 700 * megapascal, 450 * megapascal, iso3506}},
    {"a2 80", 0 * mm, 24 * mm, {"ISO 3506-1 A2-80", 800 * megapascal, 600 * megapascal, iso3506}},
    {"a4 80", 0 * mm, 24 * mm, {"ISO 3506-1 A4-80", 800 * megapascal, 600 * megapascal, iso3506}},
    {"sae grade 1;sae 1", 0 * mm, 1.5 * inch, {"SAE J429 grade 1", 60 * ksi, 36 * ksi, sae}},
    {"sae grade 2;sae 2", 0 * mm, 0.75 * inch, {"SAE J429 grade 2", 74 * ksi, 57 * ksi, sae}},
    {"sae grade 2;sae 2", 0.75 * inch, 1.5 * inch, {"SAE J429 grade 2", 60 * ksi, 36 * ksi, sae}},
    {"sae grade 5;sae 5", 0 * mm, 1 * inch, {"SAE J429 grade 5", 120 * ksi, 92 * ksi, sae}},
    {"sae grade 8;sae 8;grade 8", 0 * mm, 1.5 * inch, {"SAE J429 grade 8", 150 * ksi, 130 * ksi, sae}},
    {"a307;a307 grade a;a307a;a307 grade b;a307b",
     0 * mm,
     any,
     {"ASTM A307", 60 * ksi, std::nullopt, "ASTM A307, from memory; it promises no yield strength"}},
    {"b7;a193 b7;a193 grade b7;grade b7", 0 * mm, 2.5 * inch, {"ASTM A193 B7", 125 * ksi, 105 * ksi, a193}},
    {"b8;a193 b8;a193 grade b8;grade b8", 0 * mm, any, {"ASTM A193 B8", 75 * ksi, 30 * ksi, a193}},
    {"304;18 8;s30400;1.4301", 0 * mm, any, {"304 annealed", 75 * ksi, 30 * ksi, a276}},
    {"316;s31600;1.4401", 0 * mm, any, {"316 annealed", 75 * ksi, 30 * ksi, a276}},
    {"304 cold worked;304 cw;f593 cw1;f593 group 1 cw1;f593c",
     0 * mm,
     0.625 * inch,
     {"ASTM F593 304 cold worked", 100 * ksi, 65 * ksi, "ASTM F593 group 1 CW1, from memory"}},
    {"brass;c36000;c360;c36000 o60;c360 o60;c36000 soft", 0 * mm, 1 * inch, {"C36000 O60", 48 * ksi, 20 * ksi, b16}},
    {"c36000 h02;c360 h02;c36000 half hard;brass h02", 0 * mm, 0.5 * inch, {"C36000 H02", 57 * ksi, 25 * ksi, b16}},
    {"c36000 h02;c360 h02;c36000 half hard;brass h02", 0.5 * inch, 1 * inch, {"C36000 H02", 55 * ksi, 25 * ksi, b16}},
    {"c36000 h02;c360 h02;c36000 half hard;brass h02", 1 * inch, 2 * inch, {"C36000 H02", 50 * ksi, 20 * ksi, b16}},
    {"ungraded;mild steel;low carbon",
     0 * mm,
     any,
     {"ungraded steel", 400 * megapascal, 240 * megapascal, "taken as class 4.6; common practice, no source"}},
});

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Words that say nothing about strength.
bool is_dropped(std::string_view word) {
  static constexpr auto dropped =
      std::to_array<std::string_view>({"class", "cl", "property", "iso", "astm", "aisi", "type", "j429", "zinc",
                                       "plated", "galvanised", "galvanized"});
  return std::find(dropped.begin(), dropped.end(), word) != dropped.end();
}

/// "Class 8,8" and "8.8" are "8.8"; "SAE J429 Gr. 2" is "sae grade 2"; "A2-70" is "a2 70".
std::string key_of(std::string_view written) {
  std::string key, word;
  const auto end_word = [&] {
    if (word == "gr") word = "grade";
    if (!word.empty() && !is_dropped(word)) key += (key.empty() ? "" : " ") + word;
    word.clear();
  };
  for (std::size_t i = 0; i < written.size(); ++i) {
    const char c = small(written[i]);
    const bool between_digits =
        i > 0 && i + 1 < written.size() && is_digit(written[i - 1]) && is_digit(written[i + 1]);
    if (is_digit(c) || (c >= 'a' && c <= 'z')) {
      word += c;
    } else if ((c == '.' || c == ',') && between_digits) {
      word += '.';
    } else {
      end_word();
    }
  }
  end_word();
  return key;
}

bool has_spelling(const Row& row, std::string_view key) {
  std::string_view rest = row.spellings;
  while (!rest.empty()) {
    const auto end = std::min(rest.find(';'), rest.size());
    if (rest.substr(0, end) == key) return true;
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return false;
}

}  // namespace

std::optional<Grade> find_grade(std::string_view written, Length diameter) {
  const std::string key = key_of(written);
  for (const Row& row : rows) {
    if (diameter > row.thinnest && diameter <= row.thickest && has_spelling(row, key)) return row.grade;
  }
  return std::nullopt;
}

std::vector<std::string> grade_sources() {
  std::vector<std::string> sources;
  for (const Row& row : rows) sources.emplace_back(row.grade.source);
  return sources;
}

}  // namespace blankwright

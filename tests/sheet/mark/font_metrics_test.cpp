#include "sheet/mark/font_metrics.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <string_view>

#include "diagnose/failure.h"
#include "measure/characters.h"
#include "measure/utf8.h"
#include "temporary_folder.h"

using namespace blankwright;

namespace {

const Length point = inch / 72;

std::string font_path(Face face) {
  const std::string_view name = face == Face::regular ? "Regular" : "Bold";
  return std::string{BLANKWRIGHT_SOURCE_DIR} + "/fonts/BlankwrightSans-" + std::string{name} + ".ttf";
}

const FontMetrics& metrics() {
  static const FontMetrics shared{bytes_of(font_path(Face::regular)), bytes_of(font_path(Face::bold))};
  return shared;
}

double em_width(std::string_view words, Face face) { return metrics().width(words, face, metre) / metre; }

}  // namespace

TEST_CASE("letters are as wide as in the typeface that the font was made to replace") {
  // Adobe Core 14 font metrics, Helvetica.afm and Helvetica-Bold.afm, column WX (from memory), in 1/1000 em; the font
  // has these advances by intent.
  struct Row {
    std::string_view letter;
    double regular, bold;
  };
  const Row published[] = {{" ", 278, 278}, {"0", 556, 556},  {"7", 556, 556}, {"A", 667, 722}, {"W", 944, 944},
                           {"i", 222, 278}, {"m", 833, 889},  {"n", 556, 611}, {"M", 833, 833}, {"%", 889, 889},
                           {".", 278, 278}, {"@", 1015, 975}, {"-", 333, 333}};
  for (const Row& row : published) {
    CAPTURE(row.letter);
    CHECK(std::abs(1000 * em_width(row.letter, Face::regular) - row.regular) <= 0.5);
    CHECK(std::abs(1000 * em_width(row.letter, Face::bold) - row.bold) <= 0.5);
  }
}

TEST_CASE("a line is as wide as its characters together, in proportion to its size") {
  CHECK(metrics().width("", Face::regular, 14 * point) == Length{});
  const Length apart = metrics().width("Nu", Face::bold, 5 * mm) + metrics().width("\u00DF", Face::bold, 5 * mm);
  CHECK(abs(metrics().width("Nu\u00DF", Face::bold, 5 * mm) - apart) < 1e-9 * mm);
  const Length small = metrics().width("K7T-4X54", Face::regular, 7 * mm);
  CHECK(abs(metrics().width("K7T-4X54", Face::regular, 14 * mm) - 2 * small) < 1e-9 * mm);
  // Eight digits of 0.556 em: 10 mm high type takes 44.5 mm (0.556 × 8 × 10, last digit of the published 556).
  CHECK(std::abs(metrics().width("01234567", Face::regular, 10 * mm) / mm - 44.48) <= 0.04);
}

TEST_CASE("capitals and line room are those of the font's tables") {
  // Cap height 1409, ascender 1854, descender 434 of 2048 units: OS/2 and hhea tables of the font, read with
  // fontTools.
  for (const Face face : {Face::regular, Face::bold}) {
    CHECK(std::abs(metrics().cap_height(face, 20.48 * mm) / mm - 14.09) < 1e-9);
    CHECK(std::abs(metrics().ascender(face, 20.48 * mm) / mm - 18.54) < 1e-9);
    CHECK(std::abs(metrics().descender(face, 20.48 * mm) / mm - 4.34) < 1e-9);
  }
}

TEST_CASE("a damaged font file is refused by name") {
  const std::string good = bytes_of(font_path(Face::regular));
  CHECK_THROWS_AS(FontMetrics("", good), WorldError);
  CHECK_THROWS_AS(FontMetrics(good, "no font at all"), WorldError);
  CHECK_THROWS_AS(FontMetrics(good, good.substr(0, good.size() / 2)), WorldError);
  try {
    FontMetrics(good, "no font at all");
  } catch (const WorldError& error) {
    CHECK(std::string_view{error.what()}.starts_with("bold font: "));
  }
}

TEST_CASE("measuring a text that was not normalised is a broken promise") {
  CHECK_THROWS_AS(metrics().width("\u0416", Face::regular, mm), BrokenPromise);
  CHECK_THROWS_AS(metrics().width("two\nlines", Face::regular, mm), BrokenPromise);
  CHECK_THROWS_AS(metrics().width("\xFF", Face::regular, mm), BrokenPromise);
}

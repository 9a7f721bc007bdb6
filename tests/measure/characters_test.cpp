#include "measure/characters.h"

#include <doctest/doctest.h>
#include <ft2build.h>
#include FT_FREETYPE_H
#include <fmt/format.h>

#include <charconv>
#include <fstream>
#include <memory>
#include <set>
#include <string>
#include <string_view>

#include "measure/utf8.h"

using namespace blankwright;

namespace {

const std::string fonts = std::string{BLANKWRIGHT_SOURCE_DIR} + "/fonts/";

unsigned hexadecimal(std::string_view digits) {
  unsigned value = 0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value, 16);
  REQUIRE(read.ec == std::errc{});
  return value;
}

std::set<unsigned> listed_characters() {
  std::set<unsigned> listed;
  std::ifstream file{fonts + "characters.txt"};
  for (std::string line; std::getline(file, line);) {
    const std::string range = line.substr(0, line.find_first_of(" #"));
    if (range.empty()) continue;
    const auto dash = range.find('-');
    const unsigned first = hexadecimal(std::string_view{range}.substr(0, dash));
    const unsigned last = dash == std::string::npos ? first : hexadecimal(std::string_view{range}.substr(dash + 1));
    for (unsigned c = first; c <= last; ++c) listed.insert(c);
  }
  return listed;
}

class Font {
 public:
  explicit Font(const std::string& name) {
    REQUIRE(FT_Init_FreeType(&library_) == 0);
    REQUIRE(FT_New_Face(library_, (fonts + name).c_str(), 0, &face_) == 0);
  }
  ~Font() {
    FT_Done_Face(face_);
    FT_Done_FreeType(library_);
  }
  Font(const Font&) = delete;
  Font& operator=(const Font&) = delete;
  FT_Face face() const { return face_; }

 private:
  FT_Library library_ = nullptr;
  FT_Face face_ = nullptr;
};

}  // namespace

TEST_CASE("the program supports exactly the characters of the list") {
  const std::set<unsigned> listed = listed_characters();
  REQUIRE_FALSE(listed.empty());
  for (unsigned c = 0; c <= 0x10FFFF; ++c) {
    if (is_supported(c) != listed.contains(c)) FAIL_CHECK(fmt::format("U+{:04X}", c));
  }
  CHECK_FALSE(is_supported(0xFFFFFFFF));
}

TEST_CASE("every supported character has a glyph in both faces") {
  for (const char* name : {"BlankwrightSans-Regular.ttf", "BlankwrightSans-Bold.ttf"}) {
    CAPTURE(name);
    const Font font{name};
    for (const unsigned c : listed_characters()) {
      if (FT_Get_Char_Index(font.face(), c) == 0) FAIL_CHECK(fmt::format("no glyph for U+{:04X}", c));
    }
  }
}

TEST_CASE("the fonts carry their own name, not one that their licence reserves") {
  // SIL Open Font License 1.1, condition 3; reserved: see fonts/OFL.txt.
  for (const char* name : {"BlankwrightSans-Regular.ttf", "BlankwrightSans-Bold.ttf"}) {
    const Font font{name};
    CHECK(std::string_view{font.face()->family_name} == "Blankwright Sans");
    CHECK(std::string_view{FT_Get_Postscript_Name(font.face())}.starts_with("BlankwrightSans-"));
    CHECK(font.face()->num_fixed_sizes == 0);
  }
  CHECK(std::ifstream{fonts + "OFL.txt"}.good());
}

TEST_CASE("a supported character is its own normal form, so that none of the list is out of reach") {
  for (const CharacterRange& range : supported_ranges()) {
    for (char32_t c = range.first; c <= range.last; ++c) {
      const std::string text = to_utf8(c);
      CHECK(normalised(text) == text);
    }
  }
}

TEST_CASE("the alphabets and signs that a shop writes with are supported") {
  // The letters of the languages as their national orthographies list them (from memory); signs: the design's list.
  const std::u32string_view written[] = {
      U"ÄÖÜäöüß",
      U"ĄĆĘŁŃÓŚŹŻąćęłńóśźż",
      U"ÁČĎÉĚÍŇÓŘŠŤÚŮÝŽáčďéěíňóřšťúůýž",
      U"ĂÂÎȘȚăâîșț",
      U"ÇĞİÖŞÜçğıöşü",
      U"ÁÉÍÓÖŐÚÜŰáéíóöőúüű",
      U"ÀÂÆÇÉÈÊËÎÏÔŒÙÛÜŸàâæçéèêëîïôœùûüÿ",
      U"ÅÆØåæøÐÞðþ",
      U"ĀČĒĢĪĶĻŅŠŪŽāčēģīķļņšūž",
      U"ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρσςτυφχψω",
      U"ΆΈΉΊΌΎΏΪΫάέήίόύώϊϋΐΰ",
      U"¼½¾⅛⅜⅝⅞",
      U"°±×÷µ−≤≥≈√∞≠ΔΩΣπØ",
      U"→←↑↓",
      U"€$£",
      U"–—‘’“”„‚…′″•\u00A0",
      U"!\"#$%&'()*+,-./:;<=>?@[\\]^_`{|}~",
  };
  for (const std::u32string_view alphabet : written) {
    for (const char32_t c : alphabet) {
      CAPTURE(to_utf8(c));
      CHECK(is_supported(c));
    }
  }
}

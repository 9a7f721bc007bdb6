#include "write/font_subset.h"

#include <doctest/doctest.h>
#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_OUTLINE_H
#include FT_TRUETYPE_TABLES_H

#include <array>
#include <cmath>
#include <random>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "diagnose/failure.h"
#include "measure/characters.h"
#include "measure/utf8.h"
#include "paper.h"
#include "sheet/mark/font_metrics.h"
#include "write/sample_pages.h"

using namespace blankwright;

namespace {

const FontMetrics& metrics() {
  static const FontMetrics both{fonts().regular, fonts().bold};
  return both;
}

double em_width(const std::string& words, Face face) { return metrics().width(words, face, metre) / metre; }

std::u16string supported_characters() {
  std::u16string characters;
  for (const CharacterRange& range : supported_ranges()) {
    for (char32_t c = range.first; c <= range.last; ++c) characters += static_cast<char16_t>(c);
  }
  return characters;
}

/// A font as FreeType reads it.
class OpenFont {
 public:
  explicit OpenFont(const std::string& bytes) {
    REQUIRE(FT_Init_FreeType(&library_) == 0);
    const auto* first = reinterpret_cast<const FT_Byte*>(bytes.data());
    REQUIRE(FT_New_Memory_Face(library_, first, static_cast<FT_Long>(bytes.size()), 0, &face_) == 0);
  }
  ~OpenFont() {
    FT_Done_Face(face_);
    FT_Done_FreeType(library_);
  }
  OpenFont(const OpenFont&) = delete;
  OpenFont& operator=(const OpenFont&) = delete;
  FT_Face face() const { return face_; }

  /// Advance, points and what they are of a glyph, in the font's units.
  std::vector<long> drawn(FT_UInt glyph) const {
    REQUIRE(FT_Load_Glyph(face_, glyph, FT_LOAD_NO_SCALE) == 0);
    const FT_Outline& outline = face_->glyph->outline;
    std::vector<long> all{face_->glyph->metrics.horiAdvance, outline.n_contours};
    for (int i = 0; i < outline.n_points; ++i) {
      all.insert(all.end(), {outline.points[i].x, outline.points[i].y, FT_CURVE_TAG(outline.tags[i])});
    }
    return all;
  }
  std::set<std::string> tables() const {
    std::set<std::string> names;
    FT_ULong count = 0, tag = 0, length = 0;
    REQUIRE(FT_Sfnt_Table_Info(face_, 0, nullptr, &count) == 0);
    for (FT_UInt i = 0; i < count; ++i) {
      REQUIRE(FT_Sfnt_Table_Info(face_, i, &tag, &length) == 0);
      std::string name;
      for (const int shift : {24, 16, 8, 0}) name += static_cast<char>(tag >> shift & 0xFF);
      names.insert(name);
    }
    return names;
  }

 private:
  FT_Library library_ = nullptr;
  FT_Face face_ = nullptr;
};

/// How far right of its first glyph MuPDF places the last one of each line, in thousandths of the em. It goes by the
/// widths that the document states.
std::vector<double> printed_widths(const std::vector<std::string>& lines, Face face) {
  Page page{.paper = a4, .items = {}, .label = {}};
  for (const std::string& line : lines) page.items.push_back(text(1, 100, line, face, 10 * mm));
  const TemporaryFolder folder;
  put_bytes(folder / "paper.pdf", pdf(page));
  const std::string trace = run_tool("mutool trace " + shell_quoted(folder / "paper.pdf")).out;
  const std::regex place{R"re(<g [^\n]* x="([-0-9.e]+)" y=)re"};
  std::vector<double> widths;
  for (std::sregex_iterator it{trace.begin(), trace.end(), place}, end; it != end; ++it) {
    const double x = std::stod((*it)[1]);
    if (x == 1) widths.push_back(0);
    if (!widths.empty()) widths.back() = 100 * (x - 1);
  }
  return widths;
}

}  // namespace

TEST_CASE("a subset draws every character as its font does, and holds nothing else") {
  // FreeType reads both.
  for (const std::string& bytes : {fonts().regular, fonts().bold}) {
    const OpenFont whole{bytes};
    for (const std::u16string& characters : {supported_characters(), std::u16string{u"\u00C5A\u017A\u00BD"}}) {
      const FontSubset subset = font_subset(bytes, characters);
      const OpenFont cut{subset.file};
      REQUIRE(subset.glyphs.size() == characters.size());
      for (std::size_t i = 0; i < characters.size(); ++i) {
        CAPTURE(to_utf8(characters[i]));
        const FT_UInt glyph = FT_Get_Char_Index(whole.face(), characters[i]);
        CHECK(cut.drawn(subset.glyphs.at(i).number) == whole.drawn(glyph));
      }
      // ISO 32000-1, 9.9: of these a reader needs `glyf`, `head`, `hhea`, `hmtx`, `loca` and `maxp`.
      CHECK(cut.tables() == std::set<std::string>{"glyf", "head", "hhea", "hmtx", "loca", "maxp"});
    }
  }
  // Half-finished letters: an accented one brings its parts along, and the box is always there.
  const OpenFont few{font_subset(fonts().regular, u"\u00E9").file};
  CHECK(few.face()->num_glyphs == 4);
}

TEST_CASE("whatever characters a document has, its font is whole and its letters drawn") {
  const std::u16string all = supported_characters();
  const OpenFont whole{fonts().regular};
  std::mt19937 bits{20270503};
  for (int k = 0; k < 500; ++k) {
    std::u16string some;
    const auto one_in = 2 + bits() % 12;
    for (const char16_t c : all) {
      if (bits() % one_in == 0) some += c;
    }
    CAPTURE(k);
    const FontSubset subset = font_subset(fonts().regular, some);
    const OpenFont cut{subset.file};
    REQUIRE(subset.glyphs.size() == some.size());
    CHECK(cut.drawn(subset.glyphs.back().number) == whole.drawn(FT_Get_Char_Index(whole.face(), some.back())));
  }
}

TEST_CASE("a character that the font lacks gets the empty box") {
  const FontSubset subset = font_subset(fonts().regular, u"A\u2603");
  CHECK(subset.glyphs.at(0).number != 0);
  CHECK(subset.glyphs.at(1).number == 0);
  CHECK(OpenFont{subset.file}.drawn(0) == OpenFont{fonts().regular}.drawn(0));
}

TEST_CASE("a subset has its font's name and measures") {
  // Of 2048 units an em, read with fontTools: hhea's ascender 1854 and descender -434, OS/2's capitals 1409, head's
  // box.
  const FontSubset subset = font_subset(fonts().bold, u"A");
  CHECK(subset.name == "BlankwrightSans-Bold");
  CHECK(subset.ascent == 905);
  CHECK(subset.descent == -211);
  CHECK(subset.cap_height == 687);
}

TEST_CASE("the printed page gives a character the same width, cut down to a thousandth of the em") {
  for (const Face face : {Face::regular, Face::bold}) {
    std::vector<std::string> lines;
    for (const char16_t c : supported_characters()) lines.push_back(to_utf8(c) + ".");
    const std::vector<double> printed = printed_widths(lines, face);
    REQUIRE(printed.size() == lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
      CAPTURE(lines.at(i));
      const std::string character = lines.at(i).substr(0, lines.at(i).size() - 1);
      CHECK(std::abs(printed.at(i) - std::floor(1000 * em_width(character, face))) < 1e-3);  // single precision there
    }
  }
}

TEST_CASE("a printed line is never wider than measured, and hardly narrower") {
  const std::string line =
      "Spalted beech \u00D832 \u2212 0.5, \u017Blobienie \u0219i \u03BE\u03CD\u03BB\u03BF: 1\u00BD\u2033";
  const double characters = static_cast<double>(code_point_count(line));
  for (const Face face : {Face::regular, Face::bold}) {
    const double measured = 1000 * em_width(line, face), printed = printed_widths({line + "."}, face).at(0);
    CHECK(printed <= measured);
    CHECK(measured < printed + characters);
  }
}

TEST_CASE("a font file that is cut short or lacks a table is refused") {
  const std::string& whole = fonts().regular;
  // Its last table, `post`, is one that a document does without.
  for (std::size_t size = 0; size + 64 < whole.size(); size += 61) {
    CAPTURE(size);
    CHECK_THROWS_AS(font_subset(std::string_view{whole}.substr(0, size), u"A\u00E9"), WorldError);
  }
  for (const char* table : {"glyf", "head", "hhea", "hmtx", "loca", "maxp", "name"}) {
    std::string other = whole;
    other.replace(whole.find(table), 4, "none");
    CAPTURE(table);
    CHECK_THROWS_AS(font_subset(other, u"A\u00E9"), WorldError);
  }
  // OpenType 1.9, table directory: a table's length stands 12 bytes behind its tag, most significant byte first.
  std::string short_head = whole;
  short_head.replace(whole.find("head") + 12, 4, std::string{'\0', '\0', '\0', '\x2B'});  // the box ends at 44
  CHECK_THROWS_AS(font_subset(short_head, u"A\u00E9"), WorldError);
}

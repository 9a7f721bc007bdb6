#include "write/pdf_fonts.h"

#include <fmt/ranges.h>

#include "diagnose/failure.h"
#include "write/font_subset.h"

namespace blankwright {
namespace {

/// The CMap by which a reader copies text (ISO 32000-1, 9.10.3).
std::string to_unicode(std::u16string_view characters) {
  std::string text =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  constexpr std::size_t most_in_a_block = 100;
  while (!characters.empty()) {
    const std::u16string_view block = characters.substr(0, most_in_a_block);
    characters.remove_prefix(block.size());
    text += fmt::format("{} beginbfchar\n", block.size());
    for (const char16_t character : block) {
      text += fmt::format("<{0:04X}> <{0:04X}>\n", static_cast<unsigned>(character));
    }
    text += "endbfchar\n";
  }
  return text + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

/// Two bytes for each character up to the last one: its glyph (ISO 32000-1, 9.7.4.2).
std::string glyph_numbers(const FontSubset& subset, std::u16string_view characters) {
  std::string numbers((std::size_t{characters.back()} + 1) * 2, '\0');
  for (std::size_t i = 0; i < characters.size(); ++i) {
    const unsigned glyph = subset.glyphs.at(i).number;
    numbers.at(std::size_t{characters[i]} * 2) = static_cast<char>(glyph >> 8);
    numbers.at(std::size_t{characters[i]} * 2 + 1) = static_cast<char>(glyph & 0xFF);
  }
  return numbers;
}

/// "65 [600 580] 97 [550]": the widths of characters in a row after the first one's number (ISO 32000-1, 9.7.4.3).
std::string widths(const FontSubset& subset, std::u16string_view characters) {
  std::string out;
  for (std::size_t i = 0; i < characters.size(); ++i) {
    const bool in_a_row = i > 0 && characters[i] == characters[i - 1] + 1;
    if (!in_a_row) out += fmt::format("{}{} [", i > 0 ? "] " : "", static_cast<unsigned>(characters[i]));
    out += fmt::format("{}{}", in_a_row ? " " : "", subset.glyphs.at(i).width);
  }
  return out + ']';
}

}  // namespace

PdfObject embedded_font(PdfFile& file, std::string_view bytes, std::string_view tag, std::u16string_view characters) {
  BW_EXPECT(tag.size() == 6 && !characters.empty());
  const FontSubset subset = font_subset(bytes, characters);
  const std::string name = fmt::format("{}+{}", tag, subset.name);
  const PdfObject font_file =
      file.add_stream(subset.file, Deflate::thorough, fmt::format("/Length1 {}", subset.file.size()));
  constexpr int not_symbolic = 32;  // of the flags (ISO 32000-1, 9.8.2)
  const PdfObject descriptor = file.add(fmt::format(
      "<</Type /FontDescriptor /FontName /{} /Flags {} /FontBBox [{}] /Ascent {} /Descent {}\n"
      "/CapHeight {} /ItalicAngle 0 /StemV 0 /FontFile2 {}>>",
      name, not_symbolic, fmt::join(subset.box, " "), subset.ascent, subset.descent, subset.cap_height, font_file));
  const PdfObject numbers = file.add_stream(glyph_numbers(subset, characters), Deflate::thorough);
  // The font proper, whose character identifiers are Unicode values (ISO 32000-1, 9.7.4).
  const PdfObject descendant = file.add(
      fmt::format("<</Type /Font /Subtype /CIDFontType2 /BaseFont /{} /FontDescriptor {}\n"
                  "/CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) /Supplement 0>> /CIDToGIDMap {} /W [{}]>>",
                  name, descriptor, numbers, widths(subset, characters)));
  const PdfObject unicode = file.add_stream(to_unicode(characters), Deflate::thorough);
  return file.add(
      fmt::format("<</Type /Font /Subtype /Type0 /BaseFont /{} /Encoding /Identity-H\n"
                  "/DescendantFonts [{}] /ToUnicode {}>>",
                  name, descendant, unicode));
}

}  // namespace blankwright

#include "write/pdf_fonts.h"

#include <fmt/format.h>
#include <hpdf_fontdef.h>

#include <array>
#include <cstdint>
#include <cstring>
#include <map>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include "diagnose/failure.h"
#include "write/deflated.h"

namespace blankwright {
namespace {

std::uint32_t big_endian(std::string_view bytes, std::size_t at, std::size_t count) {
  std::uint32_t value = 0;
  for (const char byte : bytes.substr(at, count)) value = value << 8 | static_cast<unsigned char>(byte);
  return value;
}

/// Whether the bytes begin as a TrueType file and its tables lie inside them (OpenType 1.9, table directory): libharu
/// reads on beyond the end of what is none.
bool is_whole_truetype(std::string_view bytes) {
  constexpr std::size_t head_size = 12, entry_size = 16;
  if (bytes.size() < head_size || big_endian(bytes, 0, 4) != 0x00010000) return false;
  const std::size_t tables = big_endian(bytes, 4, 2);
  if (bytes.size() < head_size + tables * entry_size) return false;
  for (std::size_t entry = head_size; entry < head_size + tables * entry_size; entry += entry_size) {
    const std::size_t offset = big_endian(bytes, entry + 8, 4);
    const std::size_t length = big_endian(bytes, entry + 12, 4);
    if (offset > bytes.size() || length > bytes.size() - offset) return false;
  }
  return true;
}

HPDF_FontDef font_definition(HPDF_Doc document, std::string_view bytes, const char* tag) {
  const WorldError no_font{"font", "is not a TrueType font that can be embedded"};
  if (!is_whole_truetype(bytes)) throw no_font;
  const HPDF_UINT size = static_cast<HPDF_UINT>(bytes.size());
  HPDF_Stream stream = must(HPDF_MemStream_New(document->mmgr, size));
  must(HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()), size));
  HPDF_FontDef definition = HPDF_TTFontDef_Load(document->mmgr, stream, HPDF_TRUE);
  if (definition == nullptr) throw no_font;
  std::array<char, HPDF_TTF_FONT_TAG_LEN + 1> its_tag{};
  std::strncpy(its_tag.data(), tag, HPDF_TTF_FONT_TAG_LEN);
  HPDF_TTFontDef_SetTagName(definition, its_tag.data());
  must(HPDF_Doc_RegisterFontDef(document, definition));
  return definition;
}

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

/// A TrueType font cut down to some characters, with all that a document says of it.
struct FontSubset {
  std::string name{};  ///< the font's own, with the tag before it
  HPDF_INT16 ascent = 0, descent = 0, italic_angle = 0, default_width = 0;  // thousandths of an em, degrees
  HPDF_UINT16 stem_width = 0, x_height = 0;
  HPDF_INT32 flags = 0;
  HPDF_Box box{};
  std::vector<std::pair<char16_t, HPDF_INT16>> widths{};  ///< where they differ from the default
  std::size_t file_size = 0;                              ///< before deflating
  // Deflated streams:
  std::string file{};
  std::string glyphs{};  ///< glyph numbers of the character identifiers from 0 on, two bytes each
  std::string to_unicode{};
};

std::string glyph_numbers(HPDF_FontDef definition, std::u16string_view characters) {
  std::string numbers((std::size_t{characters.back()} + 1) * 2, '\0');
  for (const char16_t character : characters) {
    const HPDF_UINT16 glyph = HPDF_TTFontDef_GetGlyphid(definition, character);
    numbers[std::size_t{character} * 2] = static_cast<char>(glyph >> 8);
    numbers[std::size_t{character} * 2 + 1] = static_cast<char>(glyph & 0xFF);
  }
  return numbers;
}

FontSubset made_subset(std::string_view bytes, const char* tag, std::u16string_view characters) {
  const HaruDocument scratch = new_haru_document();
  const HPDF_FontDef definition = font_definition(scratch.get(), bytes, tag);
  FontSubset subset{.name = static_cast<HPDF_TTFontDefAttr>(definition->attr)->base_font,
                    .ascent = definition->ascent,
                    .descent = definition->descent,
                    .italic_angle = definition->italic_angle,
                    .default_width = definition->missing_width,
                    .stem_width = definition->stemv,
                    .x_height = definition->x_height,
                    .flags = static_cast<HPDF_INT32>(definition->flags),
                    .box = definition->font_bbox};
  // Asking for a width is also what makes libharu keep a glyph.
  for (const char16_t character : characters) {
    const HPDF_INT16 width = HPDF_TTFontDef_GetCharWidth(definition, character);
    if (width != subset.default_width) subset.widths.emplace_back(character, width);
  }
  std::string file;
  must(HPDF_TTFontDef_SaveFontData(definition, stream_into(file, scratch->mmgr).get()));
  subset.file_size = file.size();
  subset.file = deflated(file, Deflate::thorough);
  subset.glyphs = deflated(glyph_numbers(definition, characters), Deflate::thorough);
  subset.to_unicode = deflated(to_unicode(characters), Deflate::thorough);
  return subset;
}

/// The subsets made so far, since the documents of a run show much the same characters. May be used from several
/// threads.
class KeptSubsets {
 public:
  using Subset = std::shared_ptr<const FontSubset>;

  Subset get(std::string_view bytes, const char* tag, const std::u16string& characters) {
    {
      const std::lock_guard lock{mutex_};
      const std::map<std::u16string, Subset>& kept = of(bytes, tag);
      if (const auto found = kept.find(characters); found != kept.end()) return found->second;
    }
    // Outside the lock: another thread may make the same one, which does no harm.
    const auto made = std::make_shared<const FontSubset>(made_subset(bytes, tag, characters));
    const std::lock_guard lock{mutex_};
    std::map<std::u16string, Subset>& kept = of(bytes, tag);
    if (kept.size() >= most_kept) kept.clear();
    kept.emplace(characters, made);
    return made;
  }

 private:
  static constexpr std::size_t most_kept = 200;  // of about 5 kB each, so that memory has a bound

  struct OfFont {
    std::string bytes, tag;
    std::map<std::u16string, Subset> subsets;
  };

  /// A run has two fonts, so that looking for one by its bytes takes no time.
  std::map<std::u16string, Subset>& of(std::string_view bytes, std::string_view tag) {
    for (OfFont& font : fonts_) {
      if (font.tag == tag && font.bytes == bytes) return font.subsets;
    }
    return fonts_.emplace_back(OfFont{std::string{bytes}, std::string{tag}, {}}).subsets;
  }

  std::mutex mutex_;
  std::vector<OfFont> fonts_;
};

KeptSubsets::Subset subset_of(std::string_view bytes, const char* tag, const std::u16string& characters) {
  static KeptSubsets kept;
  return kept.get(bytes, tag, characters);
}

HPDF_Dict added_dictionary(HPDF_Doc document, const char* type) {
  const HPDF_Dict dictionary = must(HPDF_Dict_New(document->mmgr));
  must(HPDF_Xref_Add(document->xref, dictionary));
  must(HPDF_Dict_AddName(dictionary, "Type", type));
  return dictionary;
}

HPDF_Dict added_stream(HPDF_Doc document, std::string_view bytes) {
  const HPDF_Dict stream = must(HPDF_DictStream_New(document->mmgr, document->xref));
  set_deflated(stream, bytes);
  return stream;
}

HPDF_Array added_array(HPDF_Dict owner, const char* key) {
  const HPDF_Array array = must(HPDF_Array_New(owner->mmgr));
  must(HPDF_Dict_Add(owner, key, array));
  return array;
}

/// "65 [600 580] 97 [550]": the widths of characters in a row after the first one's number (ISO 32000-1, 9.7.4.3).
void add_widths(HPDF_Dict font, const FontSubset& subset) {
  const HPDF_Array all = added_array(font, "W");
  HPDF_Array row = nullptr;
  int next = -1;
  for (const auto& [character, width] : subset.widths) {
    if (character != next) {
      must(HPDF_Array_AddNumber(all, character));
      row = must(HPDF_Array_New(font->mmgr));
      must(HPDF_Array_Add(all, row));
    }
    must(HPDF_Array_AddNumber(row, width));
    next = character + 1;
  }
}

/// ISO 32000-1, 9.8.
HPDF_Dict added_descriptor(HPDF_Doc document, const FontSubset& subset) {
  const HPDF_Dict descriptor = added_dictionary(document, "FontDescriptor");
  must(HPDF_Dict_AddName(descriptor, "FontName", subset.name.c_str()));
  must(HPDF_Dict_AddNumber(descriptor, "Flags", subset.flags));
  must(HPDF_Dict_Add(descriptor, "FontBBox", must(HPDF_Box_Array_New(document->mmgr, subset.box))));
  must(HPDF_Dict_AddNumber(descriptor, "Ascent", subset.ascent));
  must(HPDF_Dict_AddNumber(descriptor, "Descent", subset.descent));
  must(HPDF_Dict_AddNumber(descriptor, "ItalicAngle", subset.italic_angle));
  must(HPDF_Dict_AddNumber(descriptor, "StemV", subset.stem_width));
  must(HPDF_Dict_AddNumber(descriptor, "XHeight", subset.x_height));
  const HPDF_Dict file = added_stream(document, subset.file);
  must(HPDF_Dict_AddNumber(file, "Length1", static_cast<HPDF_INT32>(subset.file_size)));
  must(HPDF_Dict_Add(descriptor, "FontFile2", file));
  return descriptor;
}

/// ISO 32000-1, 9.7.4: the font proper, whose character identifiers are Unicode values.
HPDF_Dict added_descendant(HPDF_Doc document, const FontSubset& subset) {
  const HPDF_Dict font = added_dictionary(document, "Font");
  must(HPDF_Dict_AddName(font, "Subtype", "CIDFontType2"));
  must(HPDF_Dict_AddName(font, "BaseFont", subset.name.c_str()));
  must(HPDF_Dict_AddNumber(font, "DW", subset.default_width));
  add_widths(font, subset);
  must(HPDF_Dict_Add(font, "CIDToGIDMap", added_stream(document, subset.glyphs)));
  const HPDF_Dict collection = must(HPDF_Dict_New(document->mmgr));
  must(HPDF_Dict_Add(font, "CIDSystemInfo", collection));
  add_haru_text(collection, "Registry", "Adobe");
  add_haru_text(collection, "Ordering", "Identity");
  must(HPDF_Dict_AddNumber(collection, "Supplement", 0));
  must(HPDF_Dict_Add(font, "FontDescriptor", added_descriptor(document, subset)));
  return font;
}

}  // namespace

HPDF_Dict embedded_font(HPDF_Doc document, std::string_view bytes, const char* tag,
                        const std::u16string& characters) {
  BW_EXPECT(std::strlen(tag) == HPDF_TTF_FONT_TAG_LEN && !characters.empty());
  const KeptSubsets::Subset subset = subset_of(bytes, tag, characters);
  const HPDF_Dict font = added_dictionary(document, "Font");
  must(HPDF_Dict_AddName(font, "Subtype", "Type0"));
  must(HPDF_Dict_AddName(font, "BaseFont", subset->name.c_str()));
  must(HPDF_Dict_AddName(font, "Encoding", "Identity-H"));
  must(HPDF_Array_Add(added_array(font, "DescendantFonts"), added_descendant(document, *subset)));
  must(HPDF_Dict_Add(font, "ToUnicode", added_stream(document, subset->to_unicode)));
  return font;
}

}  // namespace blankwright

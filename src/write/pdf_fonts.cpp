#include "write/pdf_fonts.h"

#include <fmt/format.h>
#include <hpdf_encoder.h>
#include <hpdf_font.h>
#include <hpdf_fontdef.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>

#include "diagnose/failure.h"
#include "write/pdf_content.h"

namespace blankwright {
namespace {

/// libharu's own UTF-8 encoder makes it look up 65,536 characters and write the widths of all that the font has: the
/// better part of a small document's time. An encoder that knows the used characters only is quicker and shorter.
HPDF_STATUS init_encoder(HPDF_Encoder encoder) {
  const HPDF_STATUS status = HPDF_CMapEncoder_InitAttr(encoder);
  if (status != HPDF_OK) return status;
  HPDF_CMapEncoderAttr attributes = static_cast<HPDF_CMapEncoderAttr>(encoder->attr);
  std::strcpy(attributes->registry, "Adobe");
  std::strcpy(attributes->ordering, "Identity-H");  // libharu takes the font's Encoding from here
  attributes->writing_mode = HPDF_WMODE_HORIZONTAL;
  encoder->type = HPDF_ENCODER_TYPE_DOUBLE_BYTE;
  return HPDF_OK;
}

void add_character(HPDF_CMapEncoderAttr attributes, char16_t character) {
  attributes->cid_map[character >> 8][character & 0xFF] = character;
  attributes->unicode_map[character >> 8][character & 0xFF] = character;
}

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

/// The CMap by which a reader copies text (ISO 32000-1, 9.10.3); libharu's own is malformed.
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

void replace_to_unicode(HPDF_Font font, std::u16string_view characters) {
  HPDF_Stream stream = static_cast<HPDF_FontAttr>(font->attr)->cmap_stream->stream;
  HPDF_MemStream_FreeData(stream);
  const std::string text = to_unicode(characters);
  must(HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(text.data()),
                         static_cast<HPDF_UINT>(text.size())));
}

}  // namespace

HPDF_Encoder encoder_of(HPDF_Doc document, std::u16string_view characters) {
  BW_EXPECT(!characters.empty());
  std::string name = "UsedCharacters";
  must(HPDF_Doc_RegisterEncoder(document, must(HPDF_CMapEncoder_New(document->mmgr, name.data(), init_encoder))));
  const HPDF_Encoder encoder = must(HPDF_GetEncoder(document, name.c_str()));
  const HPDF_CMapEncoderAttr attributes = static_cast<HPDF_CMapEncoderAttr>(encoder->attr);
  for (const char16_t character : characters) add_character(attributes, character);
  // libharu leaves out the highest identifier, so there is one more than is used.
  const char16_t highest = *std::max_element(characters.begin(), characters.end());
  add_character(attributes, static_cast<char16_t>(highest + 1));
  return encoder;
}

HPDF_Font embedded_font(HPDF_Doc document, HPDF_Encoder encoder, std::string_view bytes, const char* tag,
                        std::u16string_view characters) {
  BW_EXPECT(std::strlen(tag) == HPDF_TTF_FONT_TAG_LEN);
  const HPDF_FontDef definition = font_definition(document, bytes, tag);
  const HPDF_Font font = must(HPDF_GetFont(document, definition->base_font, encoder->name));
  // Asking for a width is what makes libharu embed a glyph.
  for (const char16_t character : characters) HPDF_TTFontDef_GetCharWidth(definition, character);
  replace_to_unicode(font, characters);
  return font;
}

}  // namespace blankwright

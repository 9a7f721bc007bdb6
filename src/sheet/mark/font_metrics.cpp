#include "sheet/mark/font_metrics.h"

#include <fmt/format.h>
#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_TRUETYPE_TABLES_H
#include FT_TRUETYPE_TAGS_H

#include <cstddef>
#include <cstdint>
#include <memory>

#include "diagnose/failure.h"
#include "measure/characters.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

struct LibraryEnd {
  void operator()(FT_Library library) const { FT_Done_FreeType(library); }
};
struct FaceEnd {
  void operator()(FT_Face face) const { FT_Done_Face(face); }
};
using LibraryOwner = std::unique_ptr<FT_LibraryRec_, LibraryEnd>;
using FaceOwner = std::unique_ptr<FT_FaceRec_, FaceEnd>;

LibraryOwner start_freetype() {
  FT_Library library = nullptr;
  if (FT_Init_FreeType(&library) != 0) throw WorldError{"FreeType", "cannot be started"};
  return LibraryOwner{library};
}

/// `file` must outlive the face: FreeType keeps pointing into it.
FaceOwner open_face(FT_Library library, const std::string& file, const std::string& name) {
  FT_Face face = nullptr;
  const auto* bytes = reinterpret_cast<const FT_Byte*>(file.data());
  const FT_Error error = FT_New_Memory_Face(library, bytes, static_cast<FT_Long>(file.size()), 0, &face);
  if (error != 0) throw WorldError{name, fmt::format("not a font (FreeType error {})", error)};
  FaceOwner owner{face};
  // Of a file cut short FreeType only forgets the tables that are cut, and takes every glyph as empty.
  FT_ULong size = 0;
  if (FT_Load_Sfnt_Table(face, TTAG_glyf, 0, nullptr, &size) != 0)
    throw WorldError{name, "holds no TrueType outlines"};
  return owner;
}

/// Loads the outline too, so that a damaged one is noticed here and not on the page.
int advance_of(FT_Face face, char32_t character, const std::string& name) {
  const FT_UInt glyph = FT_Get_Char_Index(face, character);
  if (glyph == 0 || FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) != 0) {
    throw WorldError{name, fmt::format("has no glyph for U+{:04X}", static_cast<std::uint32_t>(character))};
  }
  return static_cast<int>(face->glyph->metrics.horiAdvance);  // in font units, since nothing is scaled
}

}  // namespace

FontMetrics::FontMetrics(const std::string& regular_file, const std::string& bold_file)
    : faces_{read(regular_file, "regular font"), read(bold_file, "bold font")} {}

FontMetrics::FaceMetrics FontMetrics::read(const std::string& file, const std::string& name) {
  const LibraryOwner library = start_freetype();
  const FaceOwner face = open_face(library.get(), file, name);
  const auto* os2 = static_cast<const TT_OS2*>(FT_Get_Sfnt_Table(face.get(), FT_SFNT_OS2));
  // The height of capitals stands in this table from its version 2 on.
  if (os2 == nullptr || os2->version < 2 || os2->sCapHeight <= 0) {
    throw WorldError{name, "does not state the height of its capitals"};
  }
  FaceMetrics result;
  result.units_per_em = face->units_per_EM;
  result.cap_height = os2->sCapHeight;
  result.ascender = face->ascender;
  result.descender = -face->descender;
  result.advances.assign(static_cast<std::size_t>(supported_ranges().back().last) + 1, -1);
  for (const CharacterRange& range : supported_ranges()) {
    for (char32_t c = range.first; c <= range.last; ++c) result.advances.at(c) = advance_of(face.get(), c, name);
  }
  return result;
}

Length FontMetrics::width(std::string_view words, Face face, Length size) const {
  const FaceMetrics& metrics = of(face);
  long long units = 0;
  for (const char32_t c : code_points(words)) {
    BW_EXPECT(c < metrics.advances.size() && metrics.advances[c] >= 0);  // supported
    units += metrics.advances[c];
  }
  return letter_width(face) * static_cast<double>(units) / metrics.units_per_em * size;
}

Length FontMetrics::cap_height(Face face, Length size) const {
  return static_cast<double>(of(face).cap_height) / of(face).units_per_em * size;
}

Length FontMetrics::ascender(Face face, Length size) const {
  return static_cast<double>(of(face).ascender) / of(face).units_per_em * size;
}

Length FontMetrics::descender(Face face, Length size) const {
  return static_cast<double>(of(face).descender) / of(face).units_per_em * size;
}

}  // namespace blankwright

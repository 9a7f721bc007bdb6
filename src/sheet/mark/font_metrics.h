#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.h"
#include "sheet/mark/page.h"

namespace blankwright {

/// Widths and heights of text in the faces, read once from the two font files and constant from then on: one object
/// may be used by several threads at a time. Advances are the fonts' own, without hinting and kerning. The PDF
/// writer's library cuts each advance down to 1/1000 of the em, so printed text is never wider than said here, and
/// narrower by less than 1/1000 em a character.
class FontMetrics {
 public:
  /// From the bytes of the two font files. Throws WorldError where FreeType refuses them, or where a supported
  /// character has no glyph.
  FontMetrics(const std::string& regular_file, const std::string& bold_file);

  /// Width of one line, from the first character's origin to the end of the last one's advance. `words` is normalised
  /// text of supported characters (else BrokenPromise), `size` the height of the em, >= 0.
  Length width(std::string_view words, Face face, Length size) const;

  /// Height of a flat capital above the baseline.
  Length cap_height(Face face, Length size) const;
  /// Room above the baseline that the font asks for, accents included.
  Length ascender(Face face, Length size) const;
  /// Room below the baseline that the font asks for, as a positive length.
  Length descender(Face face, Length size) const;

 private:
  struct FaceMetrics {
    std::vector<int> advances;  ///< by code point, in font units; -1 where the character is not supported
    int units_per_em = 0;
    int cap_height = 0, ascender = 0, descender = 0;  ///< in font units
  };
  static FaceMetrics read(const std::string& file, const std::string& name);
  const FaceMetrics& of(Face face) const { return letters_of(face) == Face::regular ? faces_[0] : faces_[1]; }

  std::array<FaceMetrics, 2> faces_;
};

}  // namespace blankwright

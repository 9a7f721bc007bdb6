#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace blankwright {

/// A TrueType font cut down to some characters. Lengths in thousandths of the em, cut down to whole ones.
struct FontSubset {
  struct Glyph {
    unsigned number;  ///< in `file`; 0 is the empty box
    int width;
  };
  std::string name{};           ///< the font's own for PostScript
  std::string file{};           ///< TrueType, with what a PDF reader needs and nothing else (ISO 32000-1, 9.9)
  std::vector<Glyph> glyphs{};  ///< of the characters, in their order
  int ascent = 0, descent = 0, cap_height = 0;
  std::array<int, 4> box{};  ///< left, bottom, right, top of all glyphs of the font
};

/// `bytes`: a TrueType file. A character that it lacks gets the empty box. Throws WorldError when the bytes are not a
/// font that can be cut. The one place that sees HarfBuzz.
FontSubset font_subset(std::string_view bytes, std::u16string_view characters);

}  // namespace blankwright

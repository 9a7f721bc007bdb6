#pragma once

#include <array>
#include <bitset>
#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/mark/page.h"

namespace blankwright {

inline constexpr std::size_t font_count = 2;

/// The name of a face among a page's resources.
constexpr const char* resource_name(Face face) { return letters_of(face) == Face::regular ? "R" : "B"; }

/// The characters that a document shows in each face: those that its fonts have to hold.
class UsedCharacters {
 public:
  void add(Face face, char16_t character);
  /// Ascending, each once.
  std::u16string in(Face face) const;

 private:
  struct Used {
    std::bitset<0x10000> seen;
    std::u16string characters;  ///< in the order in which they came
  };
  std::array<Used, font_count> used_;
};

/// The pictures that a document shows, each once.
class UsedImages {
 public:
  /// The number of a picture among them.
  std::size_t add(const std::shared_ptr<const GreyPixels>& pixels);
  const std::vector<std::shared_ptr<const GreyPixels>>& all() const { return images_; }

 private:
  std::vector<std::shared_ptr<const GreyPixels>> images_;
};

/// The name of a picture among a page's resources.
std::string image_name(std::size_t number);

/// `text` must be well-formed UTF-8 of the basic plane without control characters (BW_EXPECT).
std::u16string utf16_of(std::string_view text);

/// A page's marks, in order, as a content stream (ISO 32000-1, 8 and 9). Its first operator makes a millimetre the
/// unit, with the origin at the top left and y downwards, so that the marks keep their numbers.
/// Lines have butt caps and round joins. Adds what is shown to `used` and `images`.
std::string pdf_content(const Page& page, UsedCharacters& used, UsedImages& images);

}  // namespace blankwright

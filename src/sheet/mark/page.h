#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "measure/quantity.h"
#include "read/block.h"

namespace blankwright {

/// A place on a page. x to the right, y down, from the top left corner of the paper.
struct Spot {
  Length x, y;
  bool operator==(const Spot&) const = default;
};

struct Box {
  Length x, y, width, height;  ///< x, y of the top left corner
  Length right() const { return x + width; }
  Length bottom() const { return y + height; }
  bool operator==(const Box&) const = default;
};

/// The narrow one, for names that find no room otherwise, has the regular one's letters at a share of their width.
enum class Face { regular, bold, narrow };
constexpr double letter_width(Face face) { return face == Face::narrow ? 0.82 : 1; }
/// The face whose font has its letters.
constexpr Face letters_of(Face face) { return face == Face::narrow ? Face::regular : face; }

/// One line of text on its baseline. `size` is the height of the em.
struct Text {
  Spot at{};            ///< left end of the baseline
  std::string words{};  ///< UTF-8, normalised, of supported characters only
  Face face = Face::regular;
  Length size{};
  Angle turn{};  ///< anticlockwise about `at`
};

/// Corners of a path; straight from one to the next. Curves other than ellipses are drawn as fine polygons by the
/// layout.
using Path = std::vector<Spot>;

enum class Dash { solid, hidden, centre, phantom, tear };

struct Stroke {
  std::vector<Path> paths;
  Length width;
  Dash dash = Dash::solid;
  bool closed = false;
};

/// What an area is filled with: white clears what lies below, grey (a tenth of black) marks what nobody fills in.
enum class Ink { black, grey, white };
constexpr double light_of(Ink ink) { return ink == Ink::black ? 0 : ink == Ink::grey ? 0.9 : 1; }

/// Filled by the non-zero rule.
struct Fill {
  std::vector<Path> paths;
  Ink ink = Ink::black;
};

/// An ellipse or circle: its outline, or, where that has no width, filled black.
struct Ellipse {
  Box box;  ///< that it fills
  Length width;
  Dash dash = Dash::solid;
};

/// A square of modules, row by row, true is black: a QR symbol without its quiet zone.
struct Matrix {
  Spot at;        ///< top left corner of the first module
  Length module;  ///< side of a module
  int side = 0;   ///< modules in a row
  std::vector<bool> black;
};

/// A grey picture that fills its box.
struct Image {
  Box box;
  std::shared_ptr<const GreyPixels> pixels;  ///< never null
};

using Mark = std::variant<Text, Stroke, Fill, Ellipse, Matrix, Image>;

/// A box that leads somewhere when it is clicked: to the first page of that label, or, where it begins with a scheme
/// such as "https:", to an address.
struct Link {
  Box box;
  std::string to;
};

/// What a mark is for; checks of the layout look at this.
enum class Role { field, rule, code, note };

struct Item {
  Mark mark;
  Role role = Role::note;
};

struct Paper {
  std::string name;
  Length width, height;
};

struct Page {
  Paper paper{};
  std::vector<Item> items{};
  std::string label{};  ///< what the page is, for the reader's list of pages: "Turner's sheet"
  std::vector<Link> links{};
};

/// What a document says of itself.
struct DocumentInfo {
  std::string title{}, author{}, subject{};
  std::string language{};         ///< BCP 47: "en"
  std::int64_t made_at_unix = 0;  ///< seconds since 1970-01-01 UTC: from the inputs, never from the clock
  bool true_to_size = false;      ///< asks the viewer for no scaling
};

}  // namespace blankwright

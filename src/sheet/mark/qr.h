#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/mark/page.h"

namespace blankwright {

/// Error correction level: about 7, 15, 25 and 30 % of the codewords may be lost (ISO/IEC 18004).
enum class QrLevel { low, medium, quartile, high };

struct QrWish {
  std::string text;  ///< UTF-8, not empty, without NUL; digits, A–Z and " $%*+-./:" take the least room
  QrLevel level = QrLevel::high;  ///< the least wanted; raised where the version has room for it
  int least_version = 1;          ///< 1 to 40
  int most_version = 40;          ///< least_version to 40
};

struct QrSymbol {
  int version = 0;          ///< 1 to 40
  int side = 0;             ///< modules in a row, 17 + 4 × version, without the quiet zone
  std::vector<bool> black;  ///< side × side, row by row
};

/// The QR symbol of a text in the smallest version that holds it, with the mask that ISO/IEC 18004 asks for:
/// the one with the least penalty. Nothing when the text does not fit into `most_version`.
std::optional<QrSymbol> qr_symbol(const QrWish& wish);

/// A dot of a 300 dpi printer: modules of whole dots print without ragged edges.
inline constexpr Length printer_dot = inch / 300;

/// The light border that a symbol needs on every side, in modules (ISO/IEC 18004).
inline constexpr int quiet_modules = 4;

/// The largest whole number of printer dots that is not above `length`; `length` >= 0.
Length snapped_down(Length length);

/// Where a symbol stands on the paper, its first module and its modules on the printer's dots.
struct QrPlacing {
  Spot at;          ///< top left corner of the first module, to go into a Matrix
  Length module;    ///< side of a module, at least four dots
  Box with_border;  ///< with the quiet zone
};

/// Puts a symbol of `side` modules as large as it goes into the middle of `room`, quiet zone included. One dot of the
/// room is kept for moving onto the printer's dots, so that equal rooms get equal symbols wherever they lie.
/// Nothing when a module would be smaller than four printer dots (0.339 mm; common practice, no source).
std::optional<QrPlacing> placed_qr(int side, const Box& room);

}  // namespace blankwright

#pragma once

#include <span>
#include <string>

#include "sheet/mark/page.h"

namespace blankwright {

/// The pages as text that a person can compare, one mark a line; lengths in tenths of a millimetre, sizes of text in
/// points. Paths of more than six corners are told by how many there are and by left, top, width and height of all.
///
///   page "Tags" A4 210.0 297.0
///   text 12.0 18.5 14.0pt "K7T-4X54"            bold and a turn in degrees follow where there is one
///   line 10.0 30.0 200.0 30.0 0.25              a dash and "closed" follow where they apply; paths are parted by /
///   line 24 corners in 10.0 30.0 90.0 20.0 0.5
///   fill 10.0 30.0 20.0 30.0 20.0 40.0          "white" follows where it is
///   ellipse 10.0 30.0 20.0 20.0 0.25            its box and line, or "filled"
///   matrix 12.0 20.0 25x25 0.508 318 black      modules in a row and a column, a module's side, how many are black
std::string page_dump(std::span<const Page> pages);

}  // namespace blankwright

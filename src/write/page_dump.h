#pragma once

#include <span>
#include <string>

#include "sheet/page.h"

namespace blankwright {

/// The pages as text that a person can compare, one mark a line; lengths in millimetres, sizes of text in points.
///
///   page "Tags" A4 210.0 297.0
///   text 12.0 18.5 14pt "K7T-4X54"              bold and a turn in degrees follow where there is one
///   line 10.0 30.0 200.0 30.0 0.25              a dash and "closed" follow where they apply; paths are parted by /
///   fill 10.0 30.0 20.0 30.0 20.0 40.0          "white" follows where it is
///   matrix 12.0 20.0 25x25 0.508 318 black      modules in a row and a column, a module's side, how many are black
///
/// Lengths have one to three decimals.
std::string page_dump(std::span<const Page> pages);

}  // namespace blankwright

#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "sheet/paper/limits.h"

namespace blankwright {

/// The characteristics that are checked before turning, by the numbers that stand beside them on the drawing and at
/// the head of their rows.
enum class Check { seat_position = 1, rod, squareness, projection, embedded };
inline constexpr int check_count = 5;

/// A station as the sheet shows it. Stations are numbered on from the checks, so that no number stands twice.
struct SheetStation {
  int number = 0;
  Length along, diameter;
  bool wood = false;  ///< under the ferrule: there the caliper is set to the wood, and the form is the ferrule's
};

/// `count` of the numbers below `all` (`count` >= 2), or all of them, evenly chosen with the first and the last.
std::vector<std::size_t> evenly_chosen(std::size_t all, std::size_t count);

/// The order's stations; under a ferrule of known inside, in their place, the wood's diameter where it begins and
/// where it ends. Where they are more than `most` (>= 2), that many of them, evenly chosen, ends included.
std::vector<SheetStation> sheet_stations(const Dossier& dossier, int most = std::numeric_limits<int>::max());

/// The numbers of those that are wood under a ferrule: "6, 7", "6–10"; empty where none is.
std::string numbers_under_ferrule(std::span<const SheetStation> stations);

/// How diameters and lengths of stations are printed: in metric to 0.1 mm unless one of them needs 0.01.
Printing station_printing(const Dossier& dossier);

/// The number alone as a drawing has it.
std::string drawn_text(const Dossier& dossier, Length length, Printing how);

/// Whether the blank is rounded between centres before it is bored: there are no faces to measure from then.
bool is_rounded(const Dossier& dossier);

/// How far the stud's axis may be off at the seat, as it is measured: half of the position's diameter from the faces;
/// of a rounded blank as runout.
Printed seat_limit(const Dossier& dossier);

/// What the order has the piece tightened to: "2.00 N m"; none where it says nothing, or more than stud and bond
/// bear.
std::optional<std::string> wanted_tightening(const Dossier& dossier);

}  // namespace blankwright

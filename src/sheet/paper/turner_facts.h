#pragma once

#include <cstddef>
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
};

/// `count` of the numbers below `all` (`count` >= 2), or all of them, evenly chosen with the first and the last.
std::vector<std::size_t> evenly_chosen(std::size_t all, std::size_t count);

/// The order's stations; where they are more than `most` (>= 2), that many of them, evenly chosen, ends included.
std::vector<SheetStation> sheet_stations(const Dossier& dossier, int most);

/// How diameters and lengths of stations are printed: in metric to 0.1 mm unless one of them needs 0.01.
Printing station_printing(const Dossier& dossier);

/// Does the station lie under the ferrule? There the caliper is set to the wood, and the form is the ferrule's.
bool is_under_ferrule(const Order& order, const SheetStation& station);

/// The number alone as a drawing has it.
std::string drawn_text(const Dossier& dossier, Length length, Printing how);

/// Whether the blank is rounded between centres before it is bored: there are no faces to measure from then.
bool is_rounded(const Dossier& dossier);

/// How far the stud's axis may be off at the seat, as it is measured: half of the position's diameter from the faces;
/// of a rounded blank as runout.
Printed seat_limit(const Dossier& dossier);

}  // namespace blankwright

#pragma once

#include "sheet/drawing/handle_section.h"

namespace blankwright {

/// The client's part on the seat, so far as the order tells of it: lengths on paper.
struct ClientPart {
  Length radius;               ///< of its face; of the seat where the order does not say
  std::optional<Length> hole;  ///< how deep it is tapped, from the seat, if that is known
  Length length;               ///< how much of it is shown
};
ClientPart client_part(const HandleSection& section);

/// Where its lower edge is left open for a leader: x on the page.
struct OpenStretch {
  Length from, to;
};
/// Draws it in the narrow long-dashed double-dotted lines of neighbouring parts (ISO 128), with the part of its
/// tapped hole that the stud leaves; cut off by a zigzag.
void draw_client_part(Canvas& canvas, const HandleSection& section, const OpenStretch& gap);

}  // namespace blankwright

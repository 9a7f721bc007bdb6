#pragma once

#include <optional>

#include "plan/part/bond.h"
#include "read/order.h"
#include "read/shop.h"

// What tightening does. It pulls at stud and bond only once seat, shoulder or ferrule has met the client's metal;
// before that, or where the stud bottoms first, all of its torque twists the bond.

namespace blankwright {

/// The ring in which the handle presses on the client's part, by its diameters, > 0.
struct ContactRing {
  Length inner;        ///< the stud's, or that of spigot or recess
  Length outer;        ///< of the seat or its ferrule, or of the client's face where that is smaller
  bool known = false;  ///< the order names the client's face, so that the ring cannot be smaller
};

/// Of the order's seat: from its spigot or recess outwards, or from the stud where the client's face does not reach
/// beyond them or there are none.
ContactRing contact_ring(const Order& order);

struct PreloadInput {
  Thread thread;
  ContactRing ring;
  std::optional<Given<Torque>> tightening;
};

/// A torque over the pull that goes with it is a length, its lever.
struct Preload {
  Length thread_lever;        ///< of what of the torque goes through the thread, at low friction
  Length lever;               ///< of the whole torque, at low friction: that of the largest pull
  std::optional<Force> most;  ///< that pull, under the order's tightening
};

/// With what force tightening pulls.
///
///   thread lever = P/2π + μt d2 / (2 cos 30°)
///   lever        = thread lever + μs 2 (R² + R r + r²) / (3 (R + r))      R, r the radii of the ring of contact
///   pull         = T / lever
///
/// Friction of thread and seat is μt = 0.08, μs = 0.10 at the lowest, which gives the largest pull: strength is
/// judged by that. At 0.2 and 0.4 it is about a third. The term of the seat is that of (R³ − r³) over (R² − r²),
/// divided out. Where the client's face is not named it may be smaller than the seat: then the lever is no longer
/// than 0.2 d, that of a nut's face. Sources: equation of the screw as in VDI 2230 part 1, friction of the thread by
/// its table A5 (both from memory); friction of the seat and 0.2 d common practice, no source.
Worked<Preload> preload(const PreloadInput& in);

struct TightenedInput {
  Thread thread;
  bool glued = true;
  Length bore;      ///< diameter, > 0
  Length embedded;  ///< in the wood, > 0
  std::optional<Given<Force>> pull;
  const GlueFacts& glue;
  const Preload& preload;
  std::optional<Stress> yield_strength;  ///< of the stud; ungraded steel is assumed where it is not known
  std::optional<Force> head_strip;       ///< pull that strips the client's thread, where known
};

/// What stud and bond bear of tightening. Of a tapped bore only what the stud bears is known.
struct Tightened {
  std::optional<Force> bond;            ///< pull that the bond bears while it is twisted, before the assembly factor
  Force stud;                           ///< pull at which the twisted stud is at 90 % of its yield strength
  std::optional<double> safety_in_use;  ///< bond capacity less half of the tightening's pull, over the pull in use
  // The largest tightening, by what bounds it.
  std::optional<Torque> by_bond;   ///< pulled and twisted
  std::optional<Torque> by_twist;  ///< twisted by all of it, the seat not closed
  std::optional<Torque> by_pull;   ///< half of its pull on top of the pull in use
  Torque by_stud;
  std::optional<Torque> by_thread;  ///< in the client's part
  std::optional<Torque> largest;    ///< least of these; not known of a tapped bore
};

/// What tightening the bond, the stud and the client's thread bear.
///
///   bond      = π min(d τ / √(1 + (2a/d)²), bore τ_wood / √(1 + (2a/bore)²)) embedded    a thread lever
///   stud      = 0.9 yield At / √(1 + 3 (16 a At / (π d3³))²)
///   assembly    pull of tightening ≤ bond / assembly factor;  T ≤ bond torque / assembly factor
///   use         safety factor × pull + pull of tightening / 2 ≤ bond capacity
///   thread      safety factor × pull of tightening ≤ pull that strips the client's thread
///
/// Shear from pull and from twist stand at right angles in the same surface, and are added so. Uniform shear is an
/// orientation, see plan/part/bond.h. Sources: assembly factor and half of the pull in use common practice, no
/// source; 0.9 of the yield strength by von Mises VDI 2230 part 1 (from memory). That lets the twist yield and takes
/// it over the mean of d2 and d3; elastic twist over d3, as here, gives a pull some 10 % below its tables.
Worked<Tightened> tightened(const TightenedInput& in);

}  // namespace blankwright

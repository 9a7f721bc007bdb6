#pragma once

#include <optional>
#include <vector>

#include "plan/order/order_plan.h"
#include "read/order.h"
#include "sheet/mark/canvas.h"

namespace blankwright {

/// A stretch that a drawing leaves out, so that the rest finds room at a larger scale.
struct LeftOut {
  Length from, to;
};
inline constexpr Length break_gap = 3 * mm;  ///< on paper, between both sides of it

/// The handle in section along its axis, the stud set: where the seat's middle is on the paper, and how large.
struct HandleSection {
  const OrderPlan& plan;
  const Order& order;
  Spot seat;                    ///< where the axis meets the seat
  double scale = 1;             ///< lengths on paper by lengths of the part
  double across = 1, down = 1;  ///< besides, so that the shop's printer draws true: see PrinterCorrection
  /// Of a detail: so much of the stud before the seat, and of the handle behind it; all of either where none.
  std::optional<Length> stud_shown{}, handle_shown{};
  std::vector<LeftOut> left_out{};  ///< rising, apart from each other

  Length end() const { return handle_shown.value_or(plan.form.length()); }
  Length x(Length along) const;
  /// Half of the bore: where the glue line would close to a bar on paper, as much wider as shows it.
  Length bore_half() const;
  /// On paper, half of a diameter.
  Length half(Length diameter) const { return down * scale * diameter / 2; }
  Length radius(Length along) const { return half(plan.form.diameter(along)); }
  /// The same, or of a ferrule that stands out there.
  Length outside(Length along) const;
  Length stud_tip() const { return x(-stud_shown.value_or(plan.stud.projection)); }
  const Thread& thread() const { return order.stud.thread.value; }
};

/// Outline and hatching of the wood with its spigot or recess, the ferrule over it in hatching of its own, bore with
/// the drill's cone, stud with its thread (ISO 6410: crests and ends wide, roots narrow; not cut, as fasteners are
/// not), centre line. `keep_free` is a box inside the wood for text or a leader, without hatching and centre line.
/// Where a detail cuts it off, a narrow zigzag (ISO 128).
void draw_section(Canvas& canvas, const HandleSection& section, const std::optional<Box>& keep_free);

/// The metal zone: a wide chain line along the axis, outside the outline and below it, from the seat to the stud's
/// end (ISO 128, restricted area), and a narrow line from there to the stud's end.
void draw_metal_zone(Canvas& canvas, const HandleSection& section);

/// How far the chain line is from the axis, on paper.
Length chain_offset(const HandleSection& section);

}  // namespace blankwright

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/figure/figures.h"
#include "plan/order/cost.h"
#include "plan/order/process.h"
#include "plan/part/axis_error.h"
#include "plan/part/blank_size.h"
#include "plan/part/bore.h"
#include "plan/part/centring.h"
#include "plan/part/finished_form.h"
#include "plan/part/rounded_blank.h"
#include "plan/part/size_in_use.h"
#include "plan/part/stud.h"
#include "plan/part/stud_strength.h"
#include "plan/part/tightening.h"
#include "plan/wood/cutting.h"
#include "plan/wood/start_count.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// Everything worked out for one order, as if it were the only one. It points into the shop, which outlives it.
struct OrderPlan {
  std::string species;  ///< as the table names it
  FinishedForm form;
  FormFigures size{};
  Stud stud{};
  BoreDrill bore{};
  AxisError axis{};
  BlankSize blank{};
  Centring centring{};
  BoreDepth depth{};
  BoreWalls walls{};
  StartCount start{};
  int witnesses =
      0;  ///< blanks besides, only to be cut open: one for each bath, or load, that the order needs by itself
  Preload preload{};
  StudStrength strength{};
  Tightened tightened{};
  Process process{};
  SizeInUse in_use{};
  std::optional<CuttingPlan> cutting{};  ///< where boards are on hand
  std::optional<Cost> cost{};            ///< where the shop has prices
  Length swing{};                        ///< of the squared blank on the stud, at its tail: a√2 + 2 (e + l t)
  RotationalSpeed speed_ceiling{};       ///< while the blank is square
  /// Where the shop bores on the lathe.
  std::optional<RoundedBlank> rounded{};
  Figures figures{};
  std::vector<Step> working{};  ///< of every figure, in the order of the calculation

  int pieces_done = 0;     ///< of the pieces, those that went into a bath or were lost: no bath is planned for them
  int witnesses_done = 0;  ///< the same of the witnesses
  int pieces_again = 0;    ///< of those for which a bath is planned, the ones that were in one: it had its witness

  /// Blanks to start, the witnesses among them.
  int blanks() const { return start.pieces + witnesses; }

  /// Keeps a result's steps as figures and working of the plan, and gives its value.
  template <class T>
  T keep_working(Worked<T> worked) {
    keep_steps(std::move(worked.steps));
    return std::move(worked.value);
  }
  void keep_steps(std::vector<Step> steps);
};

}  // namespace blankwright

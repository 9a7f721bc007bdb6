#pragma once

#include <optional>
#include <vector>

#include "plan/part/blank_size.h"
#include "plan/process/bath.h"
#include "plan/process/cure.h"
#include "plan/process/uptake.h"
#include "plan/process/vacuum.h"
#include "plan/routing/operations.h"
#include "plan/wood/drying.h"
#include "read/shop.h"

namespace blankwright {

/// An oven that would do for an order's blanks.
struct OvenThatDoes {
  const OvenFacts* oven = nullptr;
  std::optional<Cure> cure{};  ///< of its blanks in this oven; none where they are dried alone
};

/// What is drawn into an order's blanks and how, worked out for one nominal blank. Parts for which the shop file
/// lacks the means are not known.
struct Process {
  Drying drying{};
  const ResinFacts* resin = nullptr;  ///< null: nothing is drawn in
  std::optional<Vacuum> vacuum{};
  std::optional<Uptake> uptake{};
  std::optional<Length> measured_section, measured_length;  ///< the mean of those that were measured dry
  std::vector<OvenThatDoes> ovens{};  ///< as the shop lists them: which of them it is, the calendar says
  std::optional<Cure> cure{};         ///< in the one that the record names, or in the first
  int bath_room = 0;                  ///< blanks of this kind that the vessel which takes most of them holds at once
};

/// The cure in the oven of that name, where it is one that would do; else as it is planned. It is planned somewhere.
const Cure& cure_in(const Process& process, const std::string& oven);

/// One of an order's blanks as it goes into a bath; its uptake is known. `planned`: the blank as it was planned, for
/// what was not measured since.
BathBlanks bath_blank(const Process& process, const BlankSize& planned);

/// What the process asks of the operations that take their time from the plan.
PlannedDurations planned_durations(const Process& process, const Shop& shop);

}  // namespace blankwright

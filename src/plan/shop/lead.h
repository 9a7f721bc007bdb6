#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "entries/blank_state.h"

namespace blankwright {

/// How long an order took from its first print on, of what was planned then: 1.2 is a fifth longer. By when the
/// pieces that were issued with that print were through, as many as were wanted, without the sending; what was
/// started later for those that were lost is another matter. None where nothing was planned, or nothing came out
/// good. `made`: when it was printed; `blanks`: all of the order.
std::optional<double> lead_share(std::string_view kept_plan, Instant made, std::span<const BlankState> blanks,
                                 int wanted);

}  // namespace blankwright

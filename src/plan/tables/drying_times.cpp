#include "plan/tables/drying_times.h"

#include <array>

namespace blankwright {
namespace {

constexpr std::array<UsualDryingTime, 4> times{{
    {25 * mm, 18 * hour},
    {50 * mm, 24 * hour},
    {65 * mm, 40 * hour},
    {80 * mm, 60 * hour},
}};

}  // namespace

std::span<const UsualDryingTime> usual_drying_times() { return times; }

}  // namespace blankwright

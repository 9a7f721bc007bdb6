#include "plan/figure/judge_words.h"

#include <fmt/format.h>

namespace blankwright {

std::string in_units(Length length, const Shop& shop, Round round, Fineness fineness) {
  return text(length, {shop.units.value, round, fineness});
}

std::string pasted(Length least, const Shop& shop) {
  return shop.units.value == UnitSystem::metric
             ? number(least, {UnitSystem::metric, Round::up, Fineness::sawn}).digits + " mm"
             : vulgar_fraction(least, Round::up) + " in";
}

}  // namespace blankwright

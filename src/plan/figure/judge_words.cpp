#include "plan/figure/judge_words.h"

namespace blankwright {

std::string in_units(Length length, const Shop& shop, Round round, Fineness fineness) {
  return text(length, {shop.units.value, round, fineness});
}

Printed measured(Length length, const Shop& shop, Round round) {
  return printed(length, {shop.units.value, round, Fineness::measured});
}

Printed sawn(Length length, const Shop& shop, Round round) {
  return printed(length, {shop.units.value, round, Fineness::sawn});
}

Printed pasted(Length length, const Shop& shop, Round round) {
  return shop.units.value == UnitSystem::metric
             ? printed(number(length, {UnitSystem::metric, round, Fineness::sawn}), PrintedUnit::millimetres)
             : printed(Number{vulgar_fraction(length, round)}, PrintedUnit::inches);
}

}  // namespace blankwright

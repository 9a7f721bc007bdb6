#include "plan/part/bond.h"

#include <algorithm>
#include <numbers>

#include "plan/figure/working.h"

namespace blankwright {
namespace {

Said<double> pi() { return said("π", std::numbers::pi); }
Said<Length> stud_diameter(const Thread& thread) { return said("d", thread.major, "thread"); }
Said<Length> bore_diameter(const Bond& bond) { return said("bore", bond.bore, "drill"); }
Said<Stress> at_stud(const Bond& bond) { return said("bond strength", bond.shear_strength); }
Said<Stress> at_bore(const Bond& bond) { return said("wood's shear strength", bond.wood_shear_strength); }

}  // namespace

Said<ForcePerLength> pull_per_length(const Thread& thread, const Bond& bond) {
  return pi() * smaller(stud_diameter(thread) * at_stud(bond), bore_diameter(bond) * at_bore(bond));
}

Said<Force> torque_per_length(const Thread& thread, const Bond& bond) {
  return pi() *
         smaller(squared(stud_diameter(thread)) * at_stud(bond), squared(bore_diameter(bond)) * at_bore(bond)) /
         2_said;
}

}  // namespace blankwright

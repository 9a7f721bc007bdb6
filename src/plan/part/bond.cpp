#include "plan/part/bond.h"

#include <algorithm>

#include "plan/figure/working.h"

namespace blankwright {
namespace {

Traced<Length> stud_diameter(const Thread& thread) {
  return term(Term::major_diameter, thread.major, TermFrom::thread);
}
Traced<Length> bore_diameter(const Bond& bond) { return term(Term::bore, bond.bore, TermFrom::drill); }
Traced<Stress> at_stud(const Bond& bond) { return term(Term::bond_strength, bond.shear_strength); }
Traced<Stress> at_bore(const Bond& bond) { return term(Term::wood_shear_strength, bond.wood_shear_strength); }

}  // namespace

Traced<ForcePerLength> pull_per_length(const Thread& thread, const Bond& bond) {
  return traced_pi() * smaller(stud_diameter(thread) * at_stud(bond), bore_diameter(bond) * at_bore(bond));
}

Traced<Force> torque_per_length(const Thread& thread, const Bond& bond) {
  return traced_pi() *
         smaller(squared(stud_diameter(thread)) * at_stud(bond), squared(bore_diameter(bond)) * at_bore(bond)) /
         2_exactly;
}

}  // namespace blankwright

#include "plan/process/judge_shop.h"

#include "plan/process/judge_bath.h"
#include "plan/process/judge_cure.h"
#include "plan/process/judge_vacuum.h"
#include "plan/wood/judge_wood.h"

namespace blankwright {

bool judge_shop(const Shop& shop, Diagnostics& out) {
  // Each says what it finds; none depends on another.
  const bool vessels = vessels_make_sense(shop, out);
  const bool ovens = ovens_make_sense(shop, out);
  const bool times = drying_times_rise(shop, out);
  const bool vacuum = shop.vessels.empty() || judge_vacuum(shop, out);
  return vessels && ovens && times && vacuum;
}

}  // namespace blankwright

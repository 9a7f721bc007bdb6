#include "plan/gate/gate_dry.h"

#include "diagnose/says_gate.h"
#include "measure/printed.h"

namespace blankwright {
namespace {

/// In steps of a hundredth of a percent: the rule is about tenths.
Printed fine(Share share) { return printed(decimal(share / percent, 2), PrintedUnit::per_cent); }

/// It was dry and lay in the room since.
Saying says_lain(const Dryness& seen) {
  if (!seen.regained) return say(says::dry_took_up, fine(*seen.heavier));
  return say(seen.mostly_sealed ? says::dry_lay_sealed : says::dry_lay_open, fine(*seen.regained));
}

}  // namespace

Verdict verdict_of(DryAnswer answer) {
  switch (answer) {
    case DryAnswer::weigh:
    case DryAnswer::weigh_again:
    case DryAnswer::left_oven:
    case DryAnswer::weigh_lain:
    case DryAnswer::in_oven:
    case DryAnswer::hot:
      return Verdict::waits;
    case DryAnswer::dry_longer:
    case DryAnswer::too_dense:
    case DryAnswer::dry_again:
      return Verdict::held;
    case DryAnswer::dry:
      return Verdict::goes_on;
  }
  return Verdict::held;
}

Saying says_of(const Dryness& seen, const Zone& zone) {
  switch (seen.answer) {
    case DryAnswer::weigh:
      return say(says::dry_weigh);
    case DryAnswer::weigh_again:
      return say(says::dry_weigh_again, Moment{zone, *seen.weigh_from});
    case DryAnswer::left_oven:
      return say(says::dry_left_oven);
    case DryAnswer::too_dense:
      return say(says::dry_too_dense);
    case DryAnswer::dry_longer:
      if (*seen.lost < Share{}) return say(says::dry_gained, fine(-1 * *seen.lost), Moment{zone, *seen.weigh_from});
      return say(says::dry_lost, fine(*seen.lost), fine(*seen.moisture_gone), Moment{zone, *seen.weigh_from});
    case DryAnswer::weigh_lain:
    case DryAnswer::dry_again:
      return says_lain(seen);
    case DryAnswer::hot:
      return say(says::dry_hot, Moment{zone, *seen.cool_from});
    case DryAnswer::in_oven:
      return say(says::dry_in_oven, fine(*seen.lost));
    case DryAnswer::dry:
      if (seen.heavier && *seen.heavier > Share{})
        return say(seen.sealed ? says::dry_but_heavier : says::dry_but_heavier_open, fine(*seen.heavier));
      return say(seen.sealed ? says::dry_enough : says::dry_enough_open, fine(*seen.lost), fine(*seen.moisture_gone));
  }
  return {};
}

}  // namespace blankwright

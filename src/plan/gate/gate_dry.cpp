#include "plan/gate/gate_dry.h"

#include <fmt/format.h>

namespace blankwright {
namespace {

/// In steps of a hundredth of a percent: the rule is about tenths.
std::string share_text(Share share) { return fmt::format("{:.2f} %", share / percent); }

/// It was dry and lay in the room since.
std::string lain_words(const Dryness& seen) {
  if (!seen.regained)
    return fmt::format("it has taken up {} of moisture since it was dry; dry and weigh it again",
                       share_text(*seen.heavier));
  if (seen.mostly_sealed) {
    return fmt::format("it lay sealed so long that it may have taken up {} of moisture; weigh it again",
                       share_text(*seen.regained));
  }
  return fmt::format(
      "it lay open and may have taken up {} of moisture; weigh it again (if it lay sealed, enter "
      "`sealed` with its time)",
      share_text(*seen.regained));
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

std::string in_words(const Dryness& seen, const Zone& zone) {
  switch (seen.answer) {
    case DryAnswer::weigh:
      return "not weighed yet: weigh it, and again when it has dried on";
    case DryAnswer::weigh_again:
      return fmt::format("weigh it again, from {} on", clock_text(zone, *seen.weigh_from));
    case DryAnswer::left_oven:
      return "out of the oven its mass does not tell that it is dry: dry it on, and weigh it again before it comes "
             "out";
    case DryAnswer::too_dense:
      return "for its size it weighs more than wood without a pore; weigh and measure it again";
    case DryAnswer::dry_longer:
      if (*seen.lost < Share{}) {
        return fmt::format("gained {} since the weighing before; dry it on and weigh again from {} on",
                           share_text(-1 * *seen.lost), clock_text(zone, *seen.weigh_from));
      }
      return fmt::format(
          "lost {} since the weighing before, {} of moisture in all; dry it on and weigh again from {} on",
          share_text(*seen.lost), share_text(*seen.moisture_gone), clock_text(zone, *seen.weigh_from));
    case DryAnswer::weigh_lain:
    case DryAnswer::dry_again:
      return lain_words(seen);
    case DryAnswer::hot:
      return fmt::format("dry; let it cool sealed until {}: hot wood starts the cure in the bath",
                         clock_text(zone, *seen.cool_from));
    case DryAnswer::in_oven:
      return fmt::format("dry ({} lost between two weighings): enter when it comes out of the oven, and seal it",
                         share_text(*seen.lost));
    case DryAnswer::dry:
      if (seen.heavier && *seen.heavier > Share{}) {
        return fmt::format("dry, and {} heavier since by moisture: into the bath once it is cold{}",
                           share_text(*seen.heavier), seen.sealed ? "" : ", or seal it");
      }
      return fmt::format(
          "dry ({} lost between two weighings, {} of moisture in all): into the bath once it is cold{}",
          share_text(*seen.lost), share_text(*seen.moisture_gone), seen.sealed ? "" : ", or seal it");
  }
  return {};
}

}  // namespace blankwright

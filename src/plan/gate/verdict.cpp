#include "plan/gate/verdict.h"

#include <fmt/format.h>

namespace blankwright {

std::string with_hold(Verdict verdict, std::string_view words) {
  return fmt::format("{}{}", verdict == Verdict::held ? "HOLD: " : "", words);
}

}  // namespace blankwright

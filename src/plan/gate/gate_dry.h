#pragma once

#include "diagnose/saying.h"
#include "plan/gate/verdict.h"
#include "plan/wood/dryness.h"

namespace blankwright {

Verdict verdict_of(DryAnswer answer);

/// In words, without the blank's ID: "weigh again from 14:30".
Saying says_of(const Dryness& seen, const Zone& zone);

}  // namespace blankwright

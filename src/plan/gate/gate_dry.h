#pragma once

#include <string>

#include "plan/wood/dryness.h"

namespace blankwright {

/// In words, without the blank's ID: "weigh again from 14:30".
std::string in_words(const Dryness& seen, const Zone& zone);

}  // namespace blankwright

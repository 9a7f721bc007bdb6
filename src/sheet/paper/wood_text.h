#pragma once

#include <string>

#include "sheet/paper/dossier.h"

namespace blankwright {

/// "European beech, spalted", in the template's words; `species` as the species table has it.
std::string wood_text(const Template& words, const std::string& species, WoodCondition condition);
std::string wood_text(const Dossier& dossier);

}  // namespace blankwright

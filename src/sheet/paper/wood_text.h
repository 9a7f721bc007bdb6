#pragma once

#include <string>

#include "sheet/paper/dossier.h"

namespace blankwright {

/// "European beech, spalted".
std::string wood_text(const Dossier& dossier);

}  // namespace blankwright

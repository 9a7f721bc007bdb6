#pragma once

#include <string>

#include "sheet/paper/dossier.h"

namespace blankwright {

/// plan.json: the contract "blankwright-plan/1" with other programs. A figure that is not known is null; names are
/// only ever added. Times are RFC 3339 with the shop's offset, lengths count from the finished seat unless their name
/// says otherwise. `said` is what the compile had to say of this order.
std::string plan_json(const Dossier& dossier, const Diagnostics& said);

}  // namespace blankwright

#pragma once

#include "register/sqlite.h"

namespace blankwright {

/// A step of schema.cpp: what was planned for an order when it was printed is kept with the print.
void from_5_to_6(Database& db);

}  // namespace blankwright

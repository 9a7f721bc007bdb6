#pragma once

#include "register/sqlite.h"

namespace blankwright {

/// A step of schema.cpp: what is kept of a blank tells whether wood was begun for it and in which load it dries, and
/// the moment is that of the last thing that was done, not of its issuing.
void from_4_to_5(Database& db);

}  // namespace blankwright

#pragma once

#include "register/database.h"

namespace blankwright {

/// A step of schema.cpp: what is kept of a blank tells whether wood was begun for it and in which load it dries.
/// Since entries count by their time, what is kept is worked out anew.
void from_4_to_5(Database& db);

}  // namespace blankwright

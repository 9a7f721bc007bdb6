#pragma once

#include "register/database.h"

namespace blankwright {

/// A step of schema.cpp: each row gets a checksum, and what orders were printed from a table of its own. Of an order
/// that is there the first print is what is stored of it, made when its last blank was issued.
void from_3_to_4(Database& db);

}  // namespace blankwright

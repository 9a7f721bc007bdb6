#pragma once

#include "register/database.h"

namespace blankwright {

/// A step of schema.cpp: what was planned for an order when it was printed is kept with the print.
void from_5_to_6(Database& db);

/// The first format on a server, whole: the tables that a file of format 6 has, and `sendings`.
void make_format_6(Database& db);

}  // namespace blankwright

#pragma once

#include "register/sqlite.h"

namespace blankwright {

/// Rows that a step of schema.cpp gives a checksum: the text by which each is found again, and what it covers.
struct Sums {
  const char* select;  ///< the row's key, then the columns that are covered
  int covered;
  const char* update;  ///< sets the checksum ?2 of the row with the key ?1
};

void add_sums(Database& db, const Sums& sums);

}  // namespace blankwright

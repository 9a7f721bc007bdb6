#pragma once

#include <string>

namespace blankwright {

/// Why an entry cannot be.
enum class Refused {
  over,             ///< the blank was sent, scrapped, cut open or withdrawn
  elsewhere,        ///< it is in a bath or in the oven
  too_early,        ///< something has to come before
  too_late,         ///< it is past that
  mass_impossible,  ///< lighter cured than dry
  size_impossible,  ///< faces that do not add up to the blank
  bath_not_so,      ///< the bath is not at that point
  load_not_so,      ///< the load is not at that point
  resin_not_so,     ///< the lot is not known, or was opened before
  clock,            ///< it would lie before the last entry, or in the future
  unknown,          ///< no such blank, order or entry
  nothing,          ///< a mass or length that is not above 0
  replaced_before,  ///< the entry to correct does not hold any more
};
/// Can a reason take an entry that is refused for this? Not where what it names is not there, or is no quantity at
/// all.
bool can_be_overridden(Refused why);

struct Refusal {
  Refused why;
  std::string text;  ///< "K7T-4X54 is in bath B3"
};

}  // namespace blankwright

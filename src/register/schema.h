#pragma once

#include <functional>
#include <optional>
#include <string>

#include "entries/blank_id.h"
#include "register/database.h"

namespace blankwright {

/// Brings a register to the newest format, in one transaction; does nothing where it is. One of an older format is
/// kept as it was. Of an empty file or database it makes a register whose series begins with `series_if_new`, and
/// answers true.
/// `work_out_states` fills `blank_states`, what is kept of each blank, from the entries; it is called where that has
/// changed.
/// Throws WorldError where there is nothing and no series is given, or where it turns out to be damaged; then
/// nothing was written.
bool bring_up_to_date(Database& db, const std::optional<BlankId>& series_if_new,
                      const std::function<void()>& work_out_states);

}  // namespace blankwright

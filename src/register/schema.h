#pragma once

#include <functional>
#include <optional>
#include <string>

#include "entries/blank_id.h"
#include "register/sqlite.h"

namespace blankwright {

/// What stands where the register is looked for.
enum class Found {
  nothing,   ///< no file, or an empty one, as a first run leaves it that was cut short
  older,     ///< a register of an earlier format
  register_  ///< a register of the newest format
};

/// Looks at `path` without SQLite, which might change a file that is not ours. Throws WorldError for anything but the
/// two above: a folder, a file of another program, a register of a newer format.
///
/// Not to be called while this process writes to the register: on POSIX systems closing a file drops the process's
/// locks on it.
Found look_at_register(const std::string& path);

/// Brings a register to the newest format, in one transaction; does nothing where it is. Of one that has an older
/// format a copy is kept beside it first. Of an empty file it makes a register whose series begins with
/// `series_if_new`, and answers true.
/// `work_out_states` fills `blank_states`, what is kept of each blank, from the entries; it is called where that has
/// changed.
/// Throws WorldError where the file is empty and no series is given, or where it turns out to be damaged; then
/// nothing was written.
bool bring_up_to_date(Database& db, const std::optional<BlankId>& series_if_new,
                      const std::function<void()>& work_out_states);

/// Throws WorldError where SQLite finds the file damaged. Reads the whole file, unless it is very large, so that
/// nothing is added to a broken one.
void check_soundness(Database& db);

}  // namespace blankwright

#pragma once

#include <chrono>
#include <memory>
#include <string>

#include "register/engine.h"

namespace blankwright {

/// Opens an SQLite file; see Database.
std::unique_ptr<Engine> open_sqlite(const std::string& path, OpenMode mode, std::chrono::milliseconds wait);

/// What stands where a register's file is looked for.
enum class Found {
  nothing,   ///< no file, or an empty one, as a first run leaves it that was cut short
  register_  ///< a register of a format that is known
};

/// Looks at `path` without SQLite, which might change a file that is not ours. Throws WorldError for anything but the
/// two above: a folder, a file of another program, a register of a newer format.
///
/// Not to be called while this process writes to the register: on POSIX systems closing a file drops the process's
/// locks on it.
Found look_at_file(const std::string& path);

}  // namespace blankwright

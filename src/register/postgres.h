#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "register/engine.h"

namespace blankwright {

/// Opens a database of a PostgreSQL server; see Database. `Mode::write` makes none that is absent. Throws WorldError
/// where this program was built without PostgreSQL, too.
std::unique_ptr<Engine> open_postgres(const std::string& parameters, OpenMode mode, std::chrono::milliseconds wait);

/// Does a connection stay on this machine? `host` and `address` as libpq's PQhost and PQhostaddr have them: a folder
/// of sockets, or a name and the address that it led to.
bool stays_here(std::string_view host, std::string_view address);

}  // namespace blankwright

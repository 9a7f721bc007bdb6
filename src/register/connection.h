#pragma once

#include <optional>
#include <string>

#include "diagnose/failure.h"

namespace blankwright {

/// The server is not there, or no longer. What was answered before is on its disk; whether a change was made whose
/// answer did not come, its key tells (Register::add).
class ConnectionLost : public WorldError {
 public:
  using WorldError::WorldError;
};

/// Why connection parameters cannot be taken.
struct ConnectionFault {
  enum class Kind {
    unreadable,  ///< libpq does not understand them; `words` says why
    password,    ///< a password is among them
    not_built    ///< this program was built without PostgreSQL
  };
  Kind kind;
  std::string words{};
};

/// Looks at connection parameters ("host=office dbname=shop", or a URI) without connecting; none where they are good.
std::optional<ConnectionFault> connection_fault(const std::string& parameters);

}  // namespace blankwright

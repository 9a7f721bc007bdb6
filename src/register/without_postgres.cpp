// In the place of postgres.cpp where the program is built without PostgreSQL (BLANKWRIGHT_POSTGRESQL).
#include "diagnose/failure.h"
#include "register/connection.h"
#include "register/postgres.h"

namespace blankwright {

std::unique_ptr<Engine> open_postgres(const std::string& parameters, OpenMode, std::chrono::milliseconds) {
  throw WorldError{parameters, "this program was built without PostgreSQL"};
}

std::optional<ConnectionFault> connection_fault(const std::string&) {
  return ConnectionFault{ConnectionFault::Kind::not_built};
}

}  // namespace blankwright

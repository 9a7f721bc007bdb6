#pragma once

#include <string>
#include <utility>

namespace blankwright {

/// Where a register stands: in a file, or in a database of a PostgreSQL server.
struct RegisterPlace {
  RegisterPlace() = default;
  /// A file by its path.
  RegisterPlace(std::string path) : name{std::move(path)} {}
  RegisterPlace(const char* path) : name{path} {}
  /// A database by its connection parameters, as libpq takes them. Precondition: no password is among them
  /// (connection_fault()), since the name is shown.
  static RegisterPlace on_server(std::string parameters) {
    RegisterPlace place{std::move(parameters)};
    place.is_on_server = true;
    return place;
  }

  std::string name;  ///< for people, too
  bool is_on_server = false;
};

}  // namespace blankwright

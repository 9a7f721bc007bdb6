#pragma once

#include <stdexcept>
#include <string>

namespace blankwright {

/// The world went wrong: disk full, register locked, a file that cannot be read. Thrown, and caught once in
/// `commands`.
class WorldError : public std::runtime_error {
 public:
  /// `path` is what could not be used; `cause` is what the system said, in words.
  WorldError(const std::string& path, const std::string& cause) : std::runtime_error{path + ": " + cause} {}
};

/// We went wrong: a promise between two functions of ours was broken.
class BrokenPromise : public std::logic_error {
 public:
  BrokenPromise(const char* file, int line, const char* promise);
};

}  // namespace blankwright

/// A promise between functions, checked in every build. Throws BrokenPromise.
#define BW_EXPECT(condition) \
  ((condition) ? static_cast<void>(0) : throw ::blankwright::BrokenPromise(__FILE__, __LINE__, #condition))

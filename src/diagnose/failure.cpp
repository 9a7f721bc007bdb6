#include "diagnose/failure.h"

#include <fmt/format.h>

#include <string_view>

namespace blankwright {
namespace {

/// The path below src/, so that the message does not carry the folder of whoever built the program.
std::string_view short_path(std::string_view file) {
  const auto at = file.rfind("src/");
  return at == std::string_view::npos ? file : file.substr(at);
}

}  // namespace

BrokenPromise::BrokenPromise(const char* file, int line, const char* promise)
    : std::logic_error{fmt::format("{}:{}: broken promise: {}", short_path(file), line, promise)} {}

}  // namespace blankwright

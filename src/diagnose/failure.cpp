#include "diagnose/failure.h"

#include <fmt/format.h>

namespace blankwright {

BrokenPromise::BrokenPromise(const char* file, int line, const char* promise)
    : std::logic_error{fmt::format("{}:{}: broken promise: {}", file, line, promise)} {}

}  // namespace blankwright

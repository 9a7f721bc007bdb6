#include "register/format.h"

#include <fmt/format.h>

#include "diagnose/failure.h"

namespace blankwright {

void check_format(const std::string& name, std::int64_t format) {
  if (format > newest_format) {
    throw WorldError{name, fmt::format("this register has format {}, and this program knows formats up to {}; "
                                       "use the newer program",
                                       format, newest_format)};
  }
  if (format < 1) throw WorldError{name, fmt::format("the register is damaged: its format is {}", format)};
}

}  // namespace blankwright

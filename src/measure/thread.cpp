#include "measure/thread.h"

#include <fmt/format.h>

namespace blankwright {

std::string ThreadFault::hint() const {
  std::string text;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const std::string_view joint = i == 0 ? "write " : i + 1 == candidates.size() ? " or " : ", ";
    text += fmt::format("{}\"{}\"", joint, candidates[i]);
  }
  return text;
}

}  // namespace blankwright

#include "measure/thread_parts.h"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace blankwright::thread_parts {
namespace {

struct OtherStandard {
  std::string_view mark, what;
};
constexpr std::array other_standards{
    OtherStandard{"NPT", "a pipe thread"},
    OtherStandard{"NPTF", "a pipe thread"},
    OtherStandard{"NPS", "a pipe thread"},
    OtherStandard{"BSP", "a pipe thread"},
    OtherStandard{"BSPP", "a pipe thread"},
    OtherStandard{"BSPT", "a pipe thread"},
    OtherStandard{"G", "a pipe thread"},
    OtherStandard{"BSW", "a Whitworth thread (55°)"},
    OtherStandard{"BSF", "a Whitworth thread (55°)"},
    OtherStandard{"BA", "a British Association thread (47.5°)"},
    OtherStandard{"TR", "a trapezoidal thread"},
    OtherStandard{"ACME", "a trapezoidal thread"},
    OtherStandard{"UNJ", "a thread with its own root form"},
    OtherStandard{"UNJC", "a thread with its own root form"},
    OtherStandard{"UNJF", "a thread with its own root form"},
    OtherStandard{"MJ", "a thread with its own root form"},
};

}  // namespace

tl::unexpected<ThreadFault> fault(Kind kind, std::string message, std::vector<std::string> candidates) {
  return tl::unexpected{ThreadFault{kind, std::move(message), std::move(candidates)}};
}

std::optional<tl::unexpected<ThreadFault>> other_standard(SizeScan in) {
  for (const OtherStandard& other : other_standards) {
    if (SizeScan ahead = in; ahead.take_word(other.mark)) {
      return fault(Kind::other_standard,
                   fmt::format("{} is {}; a unified or a metric thread is wanted", other.mark, other.what));
    }
  }
  return std::nullopt;
}

bool length_follows(SizeScan in) {
  in.skip_spaces();
  if (!in.take('x') && !in.take('X') && !in.take('*')) return false;
  in.skip_spaces();
  return in.next_is_digit() || in.next() == '.';
}

tl::unexpected<ThreadFault> length_fault(const std::string& thread, std::string_view length) {
  return fault(
      Kind::screw_length,
      fmt::format("\"{}\" behind the thread looks like a screw's length; the thread alone is wanted", length),
      {thread});
}

tl::unexpected<ThreadFault> stray(const std::string& thread, std::string_view found) {
  SizeScan at{found};
  at.skip_separator();
  if (auto other = other_standard(at)) return *std::move(other);
  return fault(Kind::not_a_thread, fmt::format("\"{}\" cannot stand behind \"{}\"", at.rest(), thread), {thread});
}

}  // namespace blankwright::thread_parts

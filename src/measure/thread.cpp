#include "measure/thread.h"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "measure/thread_parts.h"

namespace blankwright {

std::string ThreadFault::hint() const {
  std::string text;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const std::string_view joint = i == 0 ? "write " : i + 1 == candidates.size() ? " or " : ", ";
    text += fmt::format("{}\"{}\"", joint, candidates[i]);
  }
  return text;
}

namespace thread_parts {
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

const OtherStandard* other_standard(SizeScan in) {
  for (const OtherStandard& other : other_standards) {
    if (SizeScan ahead = in; ahead.take_word(other.mark)) return &other;
  }
  return nullptr;
}

tl::unexpected<ThreadFault> other_fault(const OtherStandard& other) {
  return fault(Kind::other_standard,
               fmt::format("{} is {}; a unified or a metric thread is wanted", other.mark, other.what));
}

}  // namespace

tl::unexpected<ThreadFault> fault(Kind kind, std::string message, std::vector<std::string> candidates) {
  return tl::unexpected{ThreadFault{kind, std::move(message), std::move(candidates)}};
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
  if (const OtherStandard* other = other_standard(at)) return other_fault(*other);
  return fault(Kind::not_a_thread, fmt::format("\"{}\" cannot stand behind \"{}\"", at.rest(), thread), {thread});
}

}  // namespace thread_parts

tl::expected<Thread, ThreadFault> read_thread(std::string_view text) {
  using namespace thread_parts;
  const std::vector<std::string> examples{"M8", "5/16-18"};
  const auto plain = plain_size_text(text);
  if (!plain) return fault(Kind::not_a_thread, fmt::format("{} where a thread belongs", plain.error()), examples);
  SizeScan in{*plain};
  if (in.done()) return fault(Kind::not_a_thread, "empty where a thread belongs", examples);
  if (in.next_is_digit() || in.next() == '.' || in.next() == '#') return read_unified(in);
  if (const OtherStandard* other = other_standard(in)) return other_fault(*other);
  SizeScan metric = in;
  if (metric.take('M') || metric.take('m')) {
    metric.skip_spaces();
    if (metric.next_is_digit()) return read_metric(metric);
  }
  return fault(Kind::not_a_thread, fmt::format("\"{}\" is not a thread", *plain), examples);
}

}  // namespace blankwright

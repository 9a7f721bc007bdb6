#include "measure/read_thread.h"

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "measure/thread_parts.h"

namespace blankwright {

tl::expected<Thread, ThreadFault> read_thread(std::string_view text) {
  using namespace thread_parts;
  const std::vector<std::string> examples{"M8", "5/16-18"};
  const auto plain = plain_size_text(text);
  if (!plain)
    return fault(ThreadFault::Kind::not_a_thread, fmt::format("{} where a thread belongs", plain.error()), examples);
  SizeScan in{*plain};
  if (in.done()) return fault(ThreadFault::Kind::not_a_thread, "empty where a thread belongs", examples);
  if (in.next_is_digit() || in.next() == '.' || in.next() == '#') return read_unified(in);
  if (auto other = other_standard(in)) return *std::move(other);
  SizeScan metric = in;
  if (metric.take('M') || metric.take('m')) {
    metric.skip_spaces();
    if (metric.next_is_digit()) return read_metric(metric);
  }
  return fault(ThreadFault::Kind::not_a_thread, fmt::format("\"{}\" is not a thread", *plain), examples);
}

}  // namespace blankwright

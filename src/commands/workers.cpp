#include "commands/workers.h"
#include "commands/harmless_stream.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <ostream>
#include <thread>
#include <vector>

namespace blankwright {

int thread_count(int wanted) {
  return wanted > 0 ? wanted : static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
}

void run_on_threads(int threads, std::size_t count, const std::function<void(std::size_t)>& work) {
  const std::size_t wanted = static_cast<std::size_t>(thread_count(threads));
  std::atomic<std::size_t> next{0};
  std::exception_ptr failure;
  std::mutex mutex;
  const auto serve = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        const std::lock_guard lock{mutex};
        if (!failure) failure = std::current_exception();
        next = count;
      }
    }
  };
  std::vector<std::jthread> others;
  for (std::size_t n = 1; n < std::min(wanted, count); ++n) others.emplace_back(serve);
  serve();
  others.clear();
  if (failure) std::rethrow_exception(failure);
}

Progress::Progress(std::ostream& out, const Terminal& terminal, bool quiet, std::size_t count)
    : out_{out}, shown_{terminal.attached && !quiet && count > 1}, count_{count} {}

Progress::~Progress() {
  if (shown_) out_ << AsIs{"\r\x1b[K"} << std::flush;
}

void Progress::step() {
  const std::lock_guard lock{mutex_};
  ++done_;
  if (shown_) out_ << AsIs{fmt::format("\r{} of {}", done_, count_)} << std::flush;
}

}  // namespace blankwright

#pragma once

#include <atomic>
#include <cstddef>
#include <functional>
#include <iosfwd>
#include <mutex>

#include "write/files.h"

namespace blankwright {

/// How many threads are meant: so many, or where it is 0 one a core.
int thread_count(int wanted);

/// Does `work` for 0 to count − 1 on so many threads (as for thread_count). What one throws is thrown again when all
/// have stopped; the others then stop after what they are at.
void run_on_threads(int threads, std::size_t count, const std::function<void(std::size_t)>& work);

/// "12 of 40" on a terminal, renewed in place; silence in a pipe or when told to be quiet.
class Progress {
 public:
  Progress(std::ostream& out, const Terminal& terminal, bool quiet, std::size_t count);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  /// One more is done. From any thread.
  void step();

 private:
  std::ostream& out_;
  bool shown_;
  std::size_t count_;
  std::size_t done_ = 0;
  std::mutex mutex_;
};

}  // namespace blankwright

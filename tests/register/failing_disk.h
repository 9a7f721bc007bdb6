#pragma once

#include <string>

namespace blankwright {

/// A disk that forgets or fails, under SQLite: a layer between it and the system's files, for this process from now
/// on. What is written stays in memory until it is synced, and a file that is deleted without its folder being synced
/// comes back; so a process that ends without more has lost what a power cut would take. Use it in a child process.
class FailingDisk {
 public:
  /// Puts itself below every database that is opened from now on.
  static void install();
  /// The n-th write, sync, truncation or deletion from now on fails, and all after it; 0: none does.
  static void fail_from(int n, bool full);
  /// How many there were since fail_from().
  static int calls();
};

}  // namespace blankwright

#pragma once

#include <grp.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstddef>
#include <stdexcept>

namespace blankwright {

/// Runs `work` in a process of its own, so that limits and users that are set there end with it. Its exit status is
/// what `work` returns, and 99 where it throws. No test macro may stand in `work`: its result would be lost.
template <class Work>
pid_t start_child(const Work& work) {
  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error{"no further process"};
  if (child > 0) return child;
  int result = 99;
  try {
    result = work();
  } catch (...) {
  }
  ::_exit(result);
}

/// The exit status, or -1 where a signal ended the child.
inline int end_of(pid_t child) {
  int status = 0;
  if (::waitpid(child, &status, 0) != child) throw std::runtime_error{"no such child"};
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

template <class Work>
int in_child(const Work& work) {
  return end_of(start_child(work));
}

/// From here on no file can grow beyond `bytes`: what a full disk looks like. For child processes only.
inline void limit_file_size(std::size_t bytes) {
  ::signal(SIGXFSZ, SIG_IGN);  // without this the system ends the process instead of refusing the write
  const rlimit limit{bytes, bytes};
  if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) throw std::runtime_error{"no limit"};
}

/// From here on this is an ordinary user, for whom permissions hold. For child processes only.
inline void become_ordinary_user() {
  if (::geteuid() != 0) return;
  if (::setgroups(0, nullptr) != 0 || ::setresgid(65534, 65534, 65534) != 0 ||
      ::setresuid(65534, 65534, 65534) != 0) {
    throw std::runtime_error{"no other user"};
  }
}

}  // namespace blankwright

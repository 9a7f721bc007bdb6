// Runs a program and writes what it took, as one line "wall_s cpu_s peak_kB", into a file.
//
//   measured RESULT_FILE PROGRAM [ARGUMENT …]
//
// CPU time and peak memory are those of the program and of the children that it waited for. The exit status is the
// program's; 127 where it could not be started.

#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <fstream>

namespace {

double seconds(const timeval& time) {
  return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    fmt::print(stderr, "usage: measured RESULT_FILE PROGRAM [ARGUMENT …]\n");
    return 2;
  }
  const auto begin = std::chrono::steady_clock::now();
  const pid_t child = ::fork();
  if (child == 0) {
    ::execvp(argv[2], argv + 2);
    std::perror(argv[2]);
    ::_exit(127);
  }
  int status = 0;
  rusage used{};
  if (child < 0 || ::wait4(child, &status, 0, &used) != child) {
    std::perror("measured");
    return 1;
  }
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - begin;
  std::ofstream result{argv[1]};
  result << fmt::format("{:.3f} {:.3f} {}\n", wall.count(), seconds(used.ru_utime) + seconds(used.ru_stime),
                        used.ru_maxrss);
  result.close();
  if (!result) {
    fmt::print(stderr, "measured: {} could not be written\n", argv[1]);
    return 1;
  }
  return WIFEXITED(status) ? WEXITSTATUS(status) : 1;
}

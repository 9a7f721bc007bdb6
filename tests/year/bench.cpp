#include "bench.h"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <stdexcept>
#include <vector>

namespace simulated {
namespace {

/// The faketime library reads it anew whenever it is asked for the time.
constexpr const char* clock_file = "clock.txt";

}  // namespace

Bench::Bench(Program& program, Moment now) : program_{program} {
  program_.write(clock_file, utc_text(now) + ":00\n");
  std::vector<std::string> settings = Program::surroundings();
  settings.insert(settings.end(),
                  {"FAKETIME_NO_CACHE=1", "FAKETIME_TIMESTAMP_FILE=" + (program_.folder() / clock_file).string()});
  std::vector<char*> set;
  for (std::string& setting : settings) set.push_back(setting.data());
  set.push_back(nullptr);
  std::string file = program_.file(), word = "bench";
  std::array<char*, 3> words{file.data(), word.data(), nullptr};

  std::array<int, 2> in{}, out{};
  if (pipe2(in.data(), O_CLOEXEC) != 0 || pipe2(out.data(), O_CLOEXEC) != 0) throw std::runtime_error{"no pipe"};
  child_ = fork();
  if (child_ == 0) {
    if (chdir(program_.folder().c_str()) != 0) _exit(126);
    dup2(in[0], 0);
    dup2(out[1], 1);
    dup2(out[1], 2);
    execve(file.c_str(), words.data(), set.data());
    _exit(127);
  }
  close(in[0]);
  close(out[1]);
  to_ = in[1];
  from_ = out[0];
  log_ = "[" + text(now) + "] blankwright bench\n" + read_line() + "\n";
}

Bench::~Bench() {
  close(to_);
  close(from_);
  int status = 0;
  rusage used{};
  wait4(child_, &status, 0, &used);
  program_.add_session(log_, used);
}

std::string Bench::say(Moment now, const std::string& line) {
  program_.write(clock_file, utc_text(now) + ":00\n");
  const std::string typed = line + "\n";
  if (write(to_, typed.data(), typed.size()) != static_cast<ssize_t>(typed.size()))
    throw std::runtime_error{"the bench takes no line: " + line};
  std::string answer = read_line();
  log_ += "[" + text(now) + "] > " + line + "\n" + answer + "\n";
  return answer;
}

std::string Bench::read_line() {
  while (ahead_.find('\n') == std::string::npos) {
    std::array<char, 4096> some{};
    const ssize_t got = read(from_, some.data(), some.size());
    if (got <= 0) throw std::runtime_error{"the bench ended: " + log_ + ahead_};
    ahead_.append(some.data(), static_cast<std::size_t>(got));
  }
  const std::size_t end = ahead_.find('\n');
  std::string line = ahead_.substr(0, end);
  ahead_.erase(0, end + 1);
  return line;
}

}  // namespace simulated

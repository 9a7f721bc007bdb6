#include "program.h"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace simulated {
namespace {

double seconds(const timeval& time) {
  return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
}

/// Debian's folder for the library depends on the machine.
std::string faketime_library() {
  for (const auto& place : std::filesystem::directory_iterator{"/usr/lib"}) {
    const std::filesystem::path library = place.path() / "faketime/libfaketime.so.1";
    std::error_code problem;
    if (std::filesystem::exists(library, problem)) return library;
  }
  throw std::runtime_error{"libfaketime.so.1 is missing: apt-get install libfaketime"};
}

struct Ran {
  Answer answer;
  double cpu_s = 0;
};

Ran run_in(const std::filesystem::path& folder, const std::vector<std::string>& arguments,
           const std::vector<std::string>& surroundings) {
  std::vector<char*> words;
  std::vector<char*> settings;
  for (const std::string& argument : arguments) words.push_back(const_cast<char*>(argument.c_str()));
  for (const std::string& setting : surroundings) settings.push_back(const_cast<char*>(setting.c_str()));
  words.push_back(nullptr);
  settings.push_back(nullptr);

  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0)  // another shop's program must not keep it open
    throw std::runtime_error{"no pipe"};
  const pid_t child = fork();
  if (child == 0) {
    const int nothing = open("/dev/null", O_RDONLY);
    if (chdir(folder.c_str()) != 0 || nothing < 0) _exit(126);
    dup2(nothing, 0);
    dup2(ends[1], 1);
    dup2(ends[1], 2);
    close(ends[0]);
    close(ends[1]);
    execve(words.front(), words.data(), settings.data());
    _exit(127);
  }
  close(ends[1]);
  Ran ran;
  std::array<char, 65536> some{};
  for (ssize_t got = 0; (got = read(ends[0], some.data(), some.size())) > 0;)
    ran.answer.text.append(some.data(), static_cast<std::size_t>(got));
  close(ends[0]);
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  ran.answer.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  ran.cpu_s = seconds(used.ru_utime) + seconds(used.ru_stime);
  return ran;
}

}  // namespace

Program::Program(std::filesystem::path program, std::filesystem::path folder)
    : program_{std::filesystem::absolute(program)}, folder_{std::filesystem::absolute(folder)} {
  std::filesystem::create_directories(folder_);
}

Answer Program::run(Moment now, const std::vector<std::string>& arguments) {
  std::vector<std::string> words{program_};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<std::string> settings = surroundings();
  settings.push_back("FAKETIME=" + utc_text(now) + ":00");
  Ran ran = run_in(folder_, words, settings);
  cpu_s_ += ran.cpu_s;
  ++runs_;
  std::ofstream{folder_ / "log.txt", std::ios::app} << "[" << text(now) << "] " << as_typed(arguments) << "\n"
                                                    << ran.answer.text << "\n";
  if (ran.answer.status >= 3)
    throw std::runtime_error{"the program ended with " + std::to_string(ran.answer.status) + " at " + text(now) +
                             ": " + as_typed(arguments) + "\n" + ran.answer.text};
  return std::move(ran.answer);
}

std::vector<std::string> Program::surroundings() {
  static const std::string library = "LD_PRELOAD=" + faketime_library();
  return {"PATH=/usr/bin:/bin", "TZ=UTC", "LC_ALL=C.UTF-8", library, "FAKETIME_DONT_FAKE_MONOTONIC=1"};
}

void Program::add_session(const std::string& log, const rusage& used) {
  cpu_s_ += seconds(used.ru_utime) + seconds(used.ru_stime);
  ++runs_;
  std::ofstream{folder_ / "log.txt", std::ios::app} << log << "\n";
}

std::string Program::paper(const std::filesystem::path& sheet) const {
  // Into a file: what it says of blank backs would come between the words.
  const std::filesystem::path words = folder_ / "words.html";
  const Ran ran =
      run_in(folder_, {"/usr/bin/pdftotext", "-bbox", sheet, words}, {"PATH=/usr/bin:/bin", "LC_ALL=C.UTF-8"});
  if (!ran.answer.well()) throw std::runtime_error{"pdftotext: " + ran.answer.text};
  return file_text(words);
}

void Program::write(const std::string& name, const std::string& text) const {
  std::ofstream out{folder_ / name, std::ios::binary};
  out << text;
  if (!out) throw std::runtime_error{"cannot write " + name};
}

std::string as_typed(const std::vector<std::string>& arguments) {
  std::string out = "blankwright";
  for (const std::string& argument : arguments) {
    const bool plain = argument.find_first_of(" '\"<>|&;$()") == std::string::npos;
    out += plain ? " " + argument : " '" + argument + "'";
  }
  return out;
}

std::string file_text(const std::filesystem::path& path) {
  std::ifstream in{path, std::ios::binary};
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) {
    if (line.ends_with('\r')) line.pop_back();  // tables end their lines as RFC 4180 asks
    out.push_back(line);
  }
  return out;
}

std::vector<std::string> parts_of(std::string_view text, std::string_view between) {
  std::vector<std::string> out;
  for (std::size_t end = text.find(between); end != std::string_view::npos; end = text.find(between)) {
    out.emplace_back(text.substr(0, end));
    text.remove_prefix(end + between.size());
  }
  out.emplace_back(text);
  return out;
}

}  // namespace simulated

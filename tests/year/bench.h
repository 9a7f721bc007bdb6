#pragma once

#include <sys/types.h>

#include <string>

#include "moment.h"
#include "program.h"

namespace simulated {

/// The program at the bench: it stays, and answers each line with one. Its clock is moved on while it runs.
class Bench {
 public:
  Bench(Program& program, Moment now);
  ~Bench();
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  std::string say(Moment now, const std::string& line);

 private:
  std::string read_line();

  Program& program_;
  pid_t child_ = -1;
  int to_ = -1, from_ = -1;
  std::string ahead_, log_;
};

}  // namespace simulated

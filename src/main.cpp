#include <iostream>

#include "commands/run.h"
#include "write/real_files.h"

int main(int argc, char** argv) {
  using namespace blankwright;
  keep_freed_memory();
  const std::vector<std::string> arguments{argv, argv + argc};
  RealFiles disk;
  const SystemClock clock;
  SystemChance chance;
  const Terminal errors = terminal_of(Stream::errors);
  Surroundings around{disk,
                      clock,
                      chance,
                      std::cin,
                      std::cout,
                      std::cerr,
                      errors,
                      terminal_of(Stream::output),
                      terminal_of(Stream::input).attached && errors.attached,
                      machine_zone(),
                      program_file()};
  return static_cast<int>(run(arguments, around));
}

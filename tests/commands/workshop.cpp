#include "workshop.h"

#include <doctest/doctest.h>

#include <sstream>
#include <utility>

namespace blankwright {

Workshop::Workshop(const std::string& only) {
  REQUIRE(
      run_program({"compile", "--quiet", "--only", only, "--out", jobs.out(), jobs / "metric/burnisher.toml"}, now)
          .exit == Exit::done);
}

ProgramRun Workshop::run(std::vector<std::string> arguments, const std::string& typed) {
  arguments.insert(arguments.end(), {"--shop", shop});
  return run_program(std::move(arguments), now, typed);
}

std::vector<std::string> Workshop::bench(const std::string& typed) {
  const ProgramRun ran = run({"bench"}, typed);
  CHECK(ran.exit == Exit::done);
  std::istringstream out{ran.out};
  std::vector<std::string> lines;
  for (std::string line; std::getline(out, line);) lines.push_back(line);
  lines.erase(lines.begin());  // the greeting
  return lines;
}

}  // namespace blankwright

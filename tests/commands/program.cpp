#include "program.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <sstream>

#include "memory_files.h"
#include "write/real_files.h"

namespace blankwright {

ProgramRun run_program(std::vector<std::string> arguments, std::int64_t now_unix, const std::string& typed,
                       std::uint32_t drawn) {
  RealFiles disk;
  const FixedClock clock{now_unix};
  FixedChance chance{drawn};
  std::istringstream in{typed};
  std::ostringstream out;
  std::ostringstream errors;
  Surroundings around{disk, clock, chance, in, out, errors, {}};
  around.program_file = BLANKWRIGHT_PROGRAM;
  arguments.insert(arguments.begin(), "blankwright");
  const Exit exit = run(arguments, around);
  return {exit, out.str(), errors.str()};
}

SampleJobs::SampleJobs() {
  std::filesystem::copy(BLANKWRIGHT_SOURCE_DIR "/sample-jobs", folder_ / "jobs",
                        std::filesystem::copy_options::recursive);
  for (const auto& entry : std::filesystem::recursive_directory_iterator{folder_ / "jobs"}) {
    if (entry.path().extension() == ".register") std::filesystem::remove(entry.path());
  }
}

std::string SampleJobs::out(std::string_view job) const {
  return folder_ / ("out-" + std::string{job.substr(0, job.find('/'))});
}

void change(const std::string& file, const std::string& from, const std::string& to) {
  std::string text = bytes_of(file);
  const auto at = text.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, from);
  put_bytes(file, text.replace(at, from.size(), to));
}

const std::vector<Sample>& samples() {
  static const std::vector<Sample> all{{"metric/burnisher.toml", "TA-0147", "595.276 x 841.89"},
                                       {"inch/file-handle.toml", "CC-2026.1", "612 x 792"},
                                       {"inch/knob.toml", "CC-2026.2", "612 x 792"}};
  return all;
}

}  // namespace blankwright

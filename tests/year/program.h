#pragma once

#include <sys/resource.h>

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "moment.h"

namespace simulated {

struct Answer {
  int status = 0;
  std::string text;  ///< both streams, as a person sees them
  bool well() const { return status == 0; }
};

/// The built program, started again for each command like a person would, with its clock set by the faketime library.
class Program {
 public:
  Program(std::filesystem::path program, std::filesystem::path folder);

  /// What was typed and answered stands in `log.txt` of the folder, too.
  Answer run(Moment now, const std::vector<std::string>& arguments);
  /// What `pdftotext -bbox` reads from a sheet: each word where it stands on paper.
  std::string paper(const std::filesystem::path& sheet) const;

  void write(const std::string& name, const std::string& text) const;
  /// What was said to the program while it ran, for the log.
  void add_session(const std::string& log, const rusage& used);
  /// Its environment but for the time.
  static std::vector<std::string> surroundings();
  const std::filesystem::path& file() const { return program_; }
  const std::filesystem::path& folder() const { return folder_; }
  double cpu_s() const { return cpu_s_; }
  int runs() const { return runs_; }

 private:
  std::filesystem::path program_, folder_;
  double cpu_s_ = 0;
  int runs_ = 0;
};

/// "blankwright enter weighed K7T-4X54 'mass=184.2 g'", as one would type it.
std::string as_typed(const std::vector<std::string>& arguments);

std::vector<std::string> lines_of(const std::string& text);
/// What stands before, between and behind each `between` in a text.
std::vector<std::string> parts_of(std::string_view text, std::string_view between);
std::string file_text(const std::filesystem::path& path);

}  // namespace simulated

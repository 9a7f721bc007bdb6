#include "typed.h"

#include <filesystem>
#include <vector>

namespace blankwright {
namespace {

/// In another folder as long as it lives.
class InFolder {
 public:
  explicit InFolder(const std::string& folder) : before_{std::filesystem::current_path()} {
    std::filesystem::current_path(folder);
  }
  ~InFolder() { std::filesystem::current_path(before_); }
  InFolder(const InFolder&) = delete;
  InFolder& operator=(const InFolder&) = delete;

 private:
  std::filesystem::path before_;
};

std::vector<std::string> shell_words(const std::string& command) {
  std::vector<std::string> words;
  bool in_quotes = false, in_word = false;
  for (const char c : command) {
    if (c == '"') {
      in_quotes = !in_quotes;
    } else if (c == ' ' && !in_quotes) {
      in_word = false;
      continue;
    }
    if (!in_word) words.emplace_back();
    in_word = true;
    if (c != '"') words.back() += c;
  }
  return words;
}

}  // namespace

ProgramRun typed_in_folder(const std::string& folder, const std::string& command, const std::string& lines) {
  const InFolder there{folder};
  constexpr std::int64_t noon_of_3_may = 1809345600;  // 3 May 2027 UTC
  const auto to_file = command.find(" > ");
  const ProgramRun run = run_program(shell_words(command.substr(0, to_file)), noon_of_3_may, lines);
  if (to_file != std::string::npos) put_bytes(shell_words(command.substr(to_file + 3)).at(0), run.out);
  return run;
}

}  // namespace blankwright

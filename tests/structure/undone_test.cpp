#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

namespace {

/// What a patch takes out of each file, hunk by hunk, with the lines around it.
std::map<std::string, std::vector<std::string>> old_texts(const std::filesystem::path& patch) {
  std::map<std::string, std::vector<std::string>> out;
  std::ifstream in{patch};
  std::string file;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("--- a/")) {
      file = line.substr(6);
    } else if (line.starts_with("@@")) {
      out[file].emplace_back();
    } else if (out.contains(file) && (line.empty() || line.starts_with(' ') || line.starts_with('-'))) {
      out[file].back() += line.empty() ? "\n" : line.substr(1) + "\n";
    }
  }
  return out;
}

}  // namespace

TEST_CASE("what the simulated shop is shown to find can still be taken out of the program") {
  const std::filesystem::path root{BLANKWRIGHT_SOURCE_DIR};
  int patches = 0;
  for (const auto& entry : std::filesystem::directory_iterator{root / "tests/year/undone"}) {
    CAPTURE(entry.path().filename().string());
    const auto files = old_texts(entry.path());
    REQUIRE_FALSE(files.empty());
    for (const auto& [file, hunks] : files) {
      std::ifstream in{root / file};
      const std::string text{std::istreambuf_iterator<char>{in}, {}};
      for (const std::string& old : hunks) {
        CAPTURE(old);
        CHECK(text.find(old) != std::string::npos);
      }
    }
    ++patches;
  }
  CHECK(patches == 11);
}

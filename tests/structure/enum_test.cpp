#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>

// A switch over an enum of ours names every enumerator, so that the compiler tells where a new one is missing.
TEST_CASE("no switch has a default but those over the numbers of others") {
  const std::filesystem::path source = std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src";
  const std::set<std::string> of_others{
      "measure/utf8.cpp",         // utf8proc's classes
      "register/sqlite.cpp",      // SQLite's codes and types
      "write/real_files.cpp",     // the system's errors
      "write/escaped_html.cpp",   // characters
      "write/manual_read.cpp",    // md4c's blocks
  };
  std::set<std::string> found;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{source}) {
    if (!entry.is_regular_file()) continue;
    std::ifstream in{entry.path()};
    const std::string text{std::istreambuf_iterator<char>{in}, {}};
    if (text.find("default:") != std::string::npos) found.insert(entry.path().lexically_relative(source).string());
  }
  CHECK(found == of_others);
}

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

TEST_CASE("no sheet rounds by itself: figures and limits are printed by their kind") {
  const std::filesystem::path sheets = std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src/sheet";
  int files = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{sheets}) {
    const std::string name = entry.path().filename().string();
    if (name == "limits.cpp" || !(name.ends_with(".cpp") || name.ends_with(".h"))) continue;
    CAPTURE(name);
    std::ifstream in{entry.path()};
    const std::string text{std::istreambuf_iterator<char>{in}, {}};
    CHECK(text.find("Round::") == std::string::npos);
    ++files;
  }
  CHECK(files > 50);
}

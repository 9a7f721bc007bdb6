#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>

#include "read/words.h"

namespace {

using Folders = std::set<std::string>;

/// Who may see whom: values flow from left to right (DEVELOPERS.md). A folder may always see itself.
const std::map<std::string, Folders>& may_see() {
  static const std::map<std::string, Folders> table{
      {"measure", {}},
      {"diagnose", {"measure"}},
      {"entries", {"measure", "diagnose"}},
      {"read", {"measure", "diagnose", "entries"}},
      {"plan", {"measure", "diagnose", "entries", "read"}},
      {"sheet", {"measure", "diagnose", "entries", "read", "plan"}},
      {"write", {"measure", "diagnose", "entries", "read", "plan", "sheet"}},
      {"register", {"measure", "diagnose", "entries"}},
      {"commands", {"measure", "diagnose", "entries", "read", "plan", "sheet", "write", "register"}},
      {".", {"commands", "write"}},
  };
  return table;
}

/// Which folder alone may include a library's headers.
const std::map<std::string, Folders>& library_homes() {
  static const std::map<std::string, Folders> table{
      {"hpdf", {"write"}},
      {"qrcodegen", {"sheet"}},
      {"toml\\+\\+", {"read"}},
      {"CLI", {"commands"}},
      {"boost", {"plan"}},
      {"nlohmann", {"write"}},
      {"date/", {"measure"}},
      {"ft2build", {"sheet"}},
      {"utf8proc", {"measure"}},
      {"sqlite3", {"register"}},
      {"unistd|fcntl|sys/", {"write"}},
      {"cairo", {"write"}},
      {"zlib", {"entries", "write"}},
  };
  return table;
}

struct Include {
  std::string file, folder, what;
};

std::vector<Include> includes() {
  const std::filesystem::path src = std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src";
  const std::regex line{R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])"};
  std::vector<Include> found;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{src}) {
    const auto extension = entry.path().extension();
    if (extension != ".h" && extension != ".cpp") continue;
    const auto relative = entry.path().lexically_relative(src);
    const std::string folder = relative.has_parent_path() ? relative.begin()->string() : ".";
    std::ifstream in{entry.path()};
    for (std::string text; std::getline(in, text);) {
      std::smatch match;
      if (std::regex_search(text, match, line)) found.push_back({relative.string(), folder, match[1]});
    }
  }
  return found;
}

}  // namespace

TEST_CASE("every include in src follows the direction of the data") {
  const auto all = includes();
  REQUIRE(all.size() > 200);
  for (const Include& include : all) {
    CAPTURE(include.file);
    CAPTURE(include.what);
    CHECK(include.what.find("..") == std::string::npos);
    const std::string target = include.what.substr(0, include.what.find('/'));
    if (include.what.find('/') == std::string::npos || !may_see().contains(target)) continue;
    REQUIRE(may_see().contains(include.folder));
    CHECK((target == include.folder || may_see().at(include.folder).contains(target)));
  }
}

TEST_CASE("each library is included in the one folder that needs it") {
  for (const Include& include : includes()) {
    for (const auto& [library, homes] : library_homes()) {
      if (!std::regex_search(include.what, std::regex{"^(" + library + ")"})) continue;
      CAPTURE(include.file);
      CAPTURE(include.what);
      CHECK(homes.contains(include.folder));
    }
  }
}

TEST_CASE("each source includes its own header first") {
  const std::filesystem::path src = std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src";
  std::map<std::string, std::string> first;
  for (const Include& include : includes()) first.try_emplace(include.file, include.what);
  for (const auto& [file, include] : first) {
    const std::filesystem::path path{file};
    if (path.extension() != ".cpp") continue;
    const std::filesystem::path header = std::filesystem::path{path}.replace_extension(".h");
    if (!std::filesystem::exists(src / header)) continue;
    CAPTURE(file);
    CHECK(include == header.generic_string());
  }
}

TEST_CASE("every word of the templates is printed somewhere") {
  std::string sources;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator{std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src"}) {
    if (entry.path().extension() != ".cpp" && entry.path().extension() != ".h") continue;
    std::ifstream in{entry.path()};
    sources.append(std::istreambuf_iterator<char>{in}, {});
  }
  using blankwright::Word;
  for (std::size_t i = 0; i < blankwright::word_keys.size(); ++i) {
    const bool day_or_month =
        i >= static_cast<std::size_t>(Word::monday) && i <= static_cast<std::size_t>(Word::december);
    if (day_or_month) continue;  // found by counting from the first
    const std::string word{blankwright::word_keys.at(i)};
    CAPTURE(word);
    CHECK(std::regex_search(sources, std::regex{"Word::" + word + "\\b"}));
  }
}

TEST_CASE("nothing in the project is left open or bears a machine's path") {
  const std::filesystem::path root{BLANKWRIGHT_SOURCE_DIR};
  // Put together here, so that this file does not find itself.
  const std::regex open{std::string{"\\b(TO"} + "DO|FIX" + "ME|XX" + "X|HA" + "CK)\\b"};
  for (const char* folder : {"src", "tests", "templates", "sample-jobs"}) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator{root / folder}) {
      if (!entry.is_regular_file() || entry.path().extension() == ".json") continue;
      std::ifstream in{entry.path(), std::ios::binary};
      std::stringstream text;
      text << in.rdbuf();
      CAPTURE(entry.path().string());
      CHECK_FALSE(std::regex_search(text.str(), open));
    }
  }
}

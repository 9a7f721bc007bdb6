// A name means one thing: to the linker, and to files that are compiled together.

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>

namespace {

struct Names {
  std::map<std::string, std::set<std::string>> shared;  ///< types that others may see, by name: where they are
  std::map<std::string, std::set<std::string>> kept;    ///< types and constants of one file, by room and name
};

/// What is defined at the left edge, as all that lies in a namespace here is.
Names names_in_src() {
  const std::filesystem::path src = std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src";
  const std::regex type{R"(^(?:struct|class|enum class) (\w+)(?: final)?(?: : .*)? \{)"};
  const std::regex constant{R"(^constexpr .*?\b(\w+)(?:\[\])?(?: = |\{))"};
  Names names;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{src}) {
    const auto extension = entry.path().extension();
    if (extension != ".h" && extension != ".cpp") continue;
    const std::string file = entry.path().lexically_relative(src).generic_string();
    const std::string room = std::filesystem::path{file}.parent_path().generic_string();
    std::ifstream in{entry.path()};
    bool is_kept = false;
    for (std::string line; std::getline(in, line);) {
      if (line == "namespace {") is_kept = true;
      if (line == "}  // namespace") is_kept = false;
      std::smatch match;
      const bool is_type = std::regex_search(line, match, type);
      if (!is_type && !(is_kept && std::regex_search(line, match, constant))) continue;
      if (is_kept) {
        names.kept[room + ": " + match[1].str()].insert(file);
      } else {
        names.shared[match[1]].insert(file);
      }
    }
  }
  return names;
}

}  // namespace

TEST_CASE("no two types have one name, and no two files of a room keep different things to themselves under one") {
  // [basic.def.odr]: of two different definitions of one class the linker may take either's functions for both.
  const Names names = names_in_src();
  REQUIRE(names.shared.size() > 300);
  REQUIRE(names.kept.size() > 300);
  for (const auto* all : {&names.shared, &names.kept}) {
    for (const auto& [name, files] : *all) {
      CAPTURE(name);
      CAPTURE(*files.begin());
      CHECK(files.size() == 1);
    }
  }
}

// A name means one thing: to the linker, and to files that are compiled together.

#include <doctest/doctest.h>

#include <cctype>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>

namespace {

/// Names with what they are a name in, and the files that say what it is.
using NamedIn = std::map<std::string, std::set<std::string>>;

struct Names {
  NamedIn shared;  ///< types that others may see, by program
  NamedIn kept;    ///< types, constants and functions of one file, by room
};

/// Whose names they are: of the program that is linked, and of what is compiled together in it.
struct Place {
  std::string program, room;
  bool overloads;  ///< may several files keep functions of one name?
};

/// What is defined at the left edge, as all that lies in a namespace here is.
void add_names(const std::filesystem::path& file, const Place& place, Names& names) {
  static const std::regex type{R"(^(?:struct|class|enum class) (\w+)(?: final)?(?: : .*)? \{)"};
  static const std::regex constant{R"(^(?:inline )?const(?:expr)? [^(]*?\b(\w+)(?:\[\])?(?: = |\{))"};
  static const std::regex function{R"(^[\w:<>,&* ]*[ &*](\w+)\()"};
  std::ifstream in{file};
  bool is_kept = false;
  for (std::string line; std::getline(in, line);) {
    if (line == "namespace {") is_kept = true;
    if (line == "}  // namespace") is_kept = false;
    std::smatch match;
    if (line.empty() || std::isalpha(static_cast<unsigned char>(line.front())) == 0) continue;
    if (std::regex_search(line, match, type)) {
      (is_kept ? names.kept[place.room + ": " + match[1].str()] : names.shared[place.program + ": " + match[1].str()])
          .insert(file);
    } else if (is_kept && (std::regex_search(line, match, constant) ||
                           (!place.overloads && std::regex_search(line, match, function)))) {
      names.kept[place.room + ": " + match[1].str()].insert(file);
    }
  }
}

/// Of src, one program in rooms, or of tests, where each folder is both.
Names names_in(const std::string& top) {
  const std::filesystem::path folder = std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / top;
  Names names;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{folder}) {
    const auto extension = entry.path().extension();
    if (extension != ".h" && extension != ".cpp") continue;
    const std::filesystem::path file = entry.path().lexically_relative(folder);
    const std::string first = *file.begin();
    if (top == "src") {
      add_names(entry.path(), {.program = top, .room = file.parent_path(), .overloads = true}, names);
    } else if (first != "speed") {  // programs of one file each
      add_names(entry.path(), {.program = first, .room = first, .overloads = false}, names);
    }
  }
  return names;
}

}  // namespace

TEST_CASE("no two types have one name, and no two files of a room keep different things to themselves under one") {
  // [basic.def.odr]: of two different definitions of one class the linker may take either's functions for both.
  struct Top {
    std::string folder;
    std::size_t shared, kept;  ///< so many there are at least
  };
  for (const Top& top : {Top{"src", 300, 300}, Top{"tests", 100, 700}}) {
    const Names names = names_in(top.folder);
    REQUIRE(names.shared.size() > top.shared);
    REQUIRE(names.kept.size() > top.kept);
    for (const NamedIn* all : {&names.shared, &names.kept}) {
      for (const auto& [name, files] : *all) {
        CAPTURE(name);
        CAPTURE(*files.begin());
        CHECK(files.size() == 1);
      }
    }
  }
}

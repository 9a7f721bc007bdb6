#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "read/words.h"
#include "temporary_folder.h"

namespace {

using Rooms = std::set<std::string>;

/// A folder of src, or a room of one, and which others it may see.
struct Room {
  std::string name;
  Rooms sees;
};

Rooms operator+(Rooms a, const Rooms& b) {
  a.insert(b.begin(), b.end());
  return a;
}

/// In the order in which values flow (DEVELOPERS.md): a room sees none but those before it. It may always see itself.
const std::vector<Room>& rooms() {
  static const Rooms facts{"measure", "diagnose", "entries", "read"};
  static const Rooms blank = facts + Rooms{"plan/tables", "plan/figure", "plan/part", "plan/wood"};
  static const Rooms order = blank + Rooms{"plan/process", "plan/routing", "plan/order"};
  static const Rooms plan = order + Rooms{"plan/shop", "plan/gate"};
  static const Rooms page{"sheet/mark", "sheet/paper", "sheet/frame"};
  static const std::vector<Room> all{
      {"measure", {}},
      {"diagnose", {"measure"}},
      {"entries", {"measure", "diagnose"}},
      {"read", {"measure", "diagnose", "entries"}},
      {"register", {"measure", "diagnose", "entries"}},
      {"plan/tables", facts},
      {"plan/figure", facts},
      {"plan/part", facts + Rooms{"plan/tables", "plan/figure"}},
      {"plan/wood", facts + Rooms{"plan/tables", "plan/figure", "plan/part"}},
      {"plan/process", blank},
      {"plan/routing", facts + Rooms{"plan/figure"}},
      {"plan/order", blank + Rooms{"plan/process", "plan/routing"}},
      {"plan/shop", order},
      {"plan/gate", order},
      {"sheet/mark", facts},
      {"sheet/paper", plan},
      {"sheet/frame", plan + Rooms{"sheet/mark", "sheet/paper"}},
      {"sheet/drawing", plan + page},
      {"sheet/tag", plan + page},
      {"sheet/sheet", plan + page + Rooms{"sheet/drawing", "sheet/tag"}},
      {"write", plan + Rooms{"sheet/mark", "sheet/paper"}},
      {"commands", plan + page + Rooms{"sheet/drawing", "sheet/tag", "sheet/sheet", "write", "register"}},
      {".", {"commands", "write"}},
  };
  return all;
}

const Room* room_called(const std::string& name) {
  const auto found = std::ranges::find(rooms(), name, &Room::name);
  return found == rooms().end() ? nullptr : &*found;
}

/// Which room alone may include a library's headers.
const std::map<std::string, Rooms>& library_homes() {
  static const std::map<std::string, Rooms> table{
      {"hb-", {"write"}},        {"qrcodegen", {"sheet/mark"}}, {"toml\\+\\+", {"read"}},
      {"CLI", {"commands"}},     {"boost", {"plan/part"}},      {"nlohmann", {"write"}},
      {"date/", {"measure"}},    {"ft2build", {"sheet/mark"}},  {"utf8proc", {"measure"}},
      {"sqlite3", {"register"}}, {"libpq-fe", {"register"}},    {"unistd|fcntl|sys/", {"write"}},
      {"cairo", {"write"}},      {"md4c", {"write"}},           {"zlib", {"entries", "write"}},
  };
  return table;
}

/// The room of a file, or of a header as it is included.
std::string room_of(const std::string& path) {
  const std::string parent = std::filesystem::path{path}.parent_path().generic_string();
  return parent.empty() ? "." : parent;
}

struct Include {
  std::string file, what;
};

std::vector<Include> read_includes() {
  const std::filesystem::path src = std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src";
  const std::regex line{R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])"};
  std::vector<Include> found;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{src}) {
    const auto extension = entry.path().extension();
    if (extension != ".h" && extension != ".cpp") continue;
    const auto relative = entry.path().lexically_relative(src);
    std::ifstream in{entry.path()};
    for (std::string text; std::getline(in, text);) {
      std::smatch match;
      if (text.find('#') == std::string::npos) continue;
      if (std::regex_search(text, match, line)) found.push_back({relative.generic_string(), match[1]});
    }
  }
  return found;
}

const std::vector<Include>& includes() {
  static const std::vector<Include> all = read_includes();
  return all;
}

/// Header and source of one name are one.
std::string name_of(const std::string& file) {
  return std::filesystem::path{file}.replace_extension().generic_string();
}

using Sees = std::map<std::string, std::set<std::string>>;

/// Takes away what leads out of every ring: files that see none of those left.
void take_ends_away(Sees& sees) {
  const auto is_end = [&](const auto& file) {
    return std::ranges::none_of(file.second, [&](const std::string& seen) { return sees.contains(seen); });
  };
  for (auto end = std::ranges::find_if(sees, is_end); end != sees.end(); end = std::ranges::find_if(sees, is_end)) {
    sees.erase(end);
  }
}

const std::string of_a_word = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_";

bool has_word(const std::string& text, const std::string& word) {
  for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const bool begins = at == 0 || of_a_word.find(text.at(at - 1)) == std::string::npos;
    const auto end = at + word.size();
    if (begins && (end == text.size() || of_a_word.find(text.at(end)) == std::string::npos)) return true;
  }
  return false;
}

Sees turned_round(const Sees& sees) {
  Sees seen_by;
  for (const auto& [file, all] : sees) {
    seen_by[file];
    for (const std::string& seen : all) {
      if (sees.contains(seen)) seen_by[seen].insert(file);
    }
  }
  return seen_by;
}

}  // namespace

TEST_CASE("arrows between rooms run one way") {
  Rooms before;
  for (const Room& room : rooms()) {
    CAPTURE(room.name);
    for (const std::string& seen : room.sees) CHECK_MESSAGE(before.contains(seen), seen);
    CHECK(before.insert(room.name).second);
  }
}

TEST_CASE("every include in src follows the direction of the data") {
  REQUIRE(includes().size() > 200);
  for (const Include& include : includes()) {
    CAPTURE(include.file);
    CAPTURE(include.what);
    CHECK(include.what.find("..") == std::string::npos);
    const Room* from = room_called(room_of(include.file));
    REQUIRE(from != nullptr);
    const std::string to = room_of(include.what);
    if (to == "." || to == from->name || room_called(to) == nullptr) continue;
    CHECK(from->sees.contains(to));
  }
}

TEST_CASE("no files of src include each other in a ring") {
  Sees sees;
  for (const Include& include : includes()) sees[name_of(include.file)];
  for (const Include& include : includes()) {
    const std::string file = name_of(include.file), seen = name_of(include.what);
    if (file != seen && sees.contains(seen)) sees[file].insert(seen);
  }
  take_ends_away(sees);
  Sees ring = turned_round(sees);  // and away with what only leads into one
  take_ends_away(ring);
  for (const auto& [file, seen_by] : ring) {
    for (const std::string& by : seen_by) {
      if (ring.contains(by)) FAIL_CHECK(by << " includes " << file << ", which leads back to it");
    }
  }
}

TEST_CASE("each library is included in the one room that needs it") {
  for (const auto& [library, homes] : library_homes()) {
    const std::regex header{"^(" + library + ")"};
    for (const Include& include : includes()) {
      if (!std::regex_search(include.what, header)) continue;
      CAPTURE(include.file);
      CAPTURE(include.what);
      CHECK(homes.contains(room_of(include.file)));
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
  std::set<std::string> printed;
  const std::string mark = "Word::";
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator{std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src"}) {
    if (entry.path().extension() != ".cpp" && entry.path().extension() != ".h") continue;
    const std::string source = blankwright::bytes_of(entry.path());
    for (auto at = source.find(mark); at != std::string::npos; at = source.find(mark, at + 1)) {
      const auto name = at + mark.size();
      printed.insert(source.substr(name, source.find_first_not_of(of_a_word, name) - name));
    }
  }
  using blankwright::Word;
  for (std::size_t i = 0; i < blankwright::word_keys.size(); ++i) {
    const bool day_or_month =
        i >= static_cast<std::size_t>(Word::monday) && i <= static_cast<std::size_t>(Word::december);
    if (day_or_month) continue;  // found by counting from the first
    const std::string word{blankwright::word_keys.at(i)};
    CAPTURE(word);
    CHECK(printed.contains(word));
  }
}

TEST_CASE("nothing in the project is left open or bears a machine's path") {
  const std::filesystem::path root{BLANKWRIGHT_SOURCE_DIR};
  // Put together here, so that this file does not find itself.
  const std::vector<std::string> marks{std::string{"TO"} + "DO", std::string{"FIX"} + "ME", std::string{"XX"} + "X",
                                       std::string{"HA"} + "CK"};
  for (const char* folder : {"src", "tests", "templates", "sample-jobs"}) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator{root / folder}) {
      const std::string kind = entry.path().extension().string();
      if (!entry.is_regular_file() || kind == ".json" || kind == ".png") continue;
      const std::string text = blankwright::bytes_of(entry.path());
      CAPTURE(entry.path().string());
      for (const std::string& mark : marks) CHECK_FALSE(has_word(text, mark));
    }
  }
}

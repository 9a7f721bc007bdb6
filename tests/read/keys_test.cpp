// Every key of every kind of file, from the one list of keys.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cctype>
#include <functional>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "diagnose/problem.h"
#include "measure/quantity_text.h"
#include "read/shape.h"
#include "texts.h"

using namespace blankwright;

namespace {

using Keys = std::vector<KeyInfo>;
using Path = std::vector<std::string>;

struct File {
  FileKind kind;
  Keys keys;
};

std::vector<File> files() {
  return {
      {FileKind::job, job_key_infos()}, {FileKind::shop, shop_key_infos()}, {FileKind::sheets, template_key_infos()}};
}

const Shape& inner(const Shape& shape) { return shape.type == Shape::Type::list ? *shape.item : shape; }

/// A table of a file: the way to it and its keys.
void each_table(const Keys& keys, const Path& path, const std::function<void(const Path&, const Keys&)>& visit) {
  visit(path, keys);
  for (const KeyInfo& key : keys) {
    Path below = path;
    below.push_back(key.name);
    if (inner(key.shape).type == Shape::Type::table) each_table(inner(key.shape).keys, below, visit);
  }
}

/// The members of a table: what has to be written, and in the table at the end of `path` the line `leaf` in place of
/// the keys in `without`.
std::string members(const Keys& keys, const Path& path, std::size_t depth, const std::string& leaf,
                    const std::set<std::string>& without, const std::string& separator) {
  std::string out;
  const auto add = [&](const std::string& line) {
    if (!line.empty()) out += (out.empty() ? "" : separator) + line;
  };
  const bool here = depth == path.size();
  for (const KeyInfo& key : keys) {
    if (!here && key.name == path.at(depth)) {
      const std::string table = "{" + members(inner(key.shape).keys, path, depth + 1, leaf, without, ", ") + "}";
      std::string list = key.shape.example;  // of two items where two are needed: the table goes between them
      const auto between = list.find("}, {");
      const bool many = key.shape.type == Shape::Type::list;
      if (many && between != std::string::npos) list.insert(between + 3, table + ", ");
      add(key.name + " = " + (!many ? table : between != std::string::npos ? list : "[" + table + "]"));
    } else if (key.required && !(here && without.contains(key.name))) {
      add(key.name + " = " + key.shape.example);
    }
  }
  if (here) add(leaf);
  return out;
}

std::string file_with(const File& file, const Path& path, const std::string& leaf,
                      const std::set<std::string>& without) {
  return members(file.keys, path, 0, leaf, without, "\n") + "\n";
}

/// The error, if there is one, other than what a file of so few keys cannot help.
const Diagnostic* unexpected_error(const Diagnostics& said) {
  for (const Diagnostic& d : said.all()) {
    const bool from_the_file_being_short =
        d.problem == Problem::bad_hours || d.problem == Problem::unknown_label_sheet ||
        d.problem == Problem::keys_disagree || d.problem == Problem::unknown_name ||
        (d.problem == Problem::missing_key && d.message_text().ends_with("has no time")) ||
        d.message_text().starts_with("labels of");
    if (d.severity == Severity::error && !from_the_file_being_short) return &d;
  }
  return nullptr;
}

/// Where a piece of the text stands. It stands there once.
std::ptrdiff_t code_points(const std::string& text) {
  return std::count_if(text.begin(), text.end(),
                       [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; });
}

/// Line and column, both from 1, the column in code points.
std::pair<int, int> place_of(const std::string& text, const std::string& piece) {
  // Not at the end of a longer word: `ons = ` stands in `stations = ` too.
  const auto next = [&](std::size_t from) {
    auto found = text.find(piece, from);
    while (found != std::string::npos && found > 0 &&
           std::isalpha(static_cast<unsigned char>(text[found - 1])) != 0) {
      found = text.find(piece, found + 1);
    }
    return found;
  };
  const auto at = next(0);
  REQUIRE(at != std::string::npos);
  REQUIRE(next(at + 1) == std::string::npos);
  const auto line_start = text.rfind('\n', at) + 1;
  return {1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n')),
          static_cast<int>(code_points(text.substr(line_start, at - line_start))) + 1};
}

bool has_error_at(const Diagnostics& said, std::pair<int, int> place) {
  return std::any_of(said.all().begin(), said.all().end(), [&](const Diagnostic& d) {
    return d.severity == Severity::error && std::pair{d.at.line, d.at.column} == place;
  });
}

std::string joined(const Path& path, const std::string& name) {
  return fmt::format("{}.{}", fmt::join(path, "."), name);
}

void each_key(const std::function<void(const File&, const Path&, const KeyInfo&)>& visit) {
  for (const File& file : files()) {
    each_table(file.keys, {}, [&](const Path& path, const Keys& keys) {
      for (const KeyInfo& key : keys) {
        CAPTURE(joined(path, key.name));
        visit(file, path, key);
      }
    });
  }
}

/// A number of SI units as a quantity of this kind is typed, or empty for kinds that no key has limits of.
std::string typed_si(double si, Kind kind) {
  switch (kind) {
    case Kind::length:
      return fmt::format("{:.9f} mm", si * 1e3);
    case Kind::duration:
      return fmt::format("{:.9f} s", si);
    case Kind::force:
      return fmt::format("{:.9f} N", si);
    case Kind::stress:
      return fmt::format("{:.9f} Pa", si);
    case Kind::share:
      return fmt::format("{:.9f} %", si * 100);
    case Kind::angle:
      return fmt::format("{:.12f} rad", si);
    case Kind::torque:
      return fmt::format("{:.9f} N m", si);
    case Kind::density:
      return fmt::format("{:.9f} kg/m3", si);
    case Kind::volume:
      return fmt::format("{:.12f} l", si * 1e3);
    case Kind::volume_flow:
      return fmt::format("{:.12f} l/min", si * 6e4);
    case Kind::rotational_speed:
      return fmt::format("{:.9f} rpm", si * 60);
    case Kind::temperature:
      return fmt::format("{:.9f} K", si);
    case Kind::absolute_pressure:
    case Kind::gauge_pressure:
      return fmt::format("{:.9f} Pa", si);
    case Kind::mass:
      return fmt::format("{:.9f} kg", si);
    case Kind::temperature_change:
      return {};
  }
  return {};
}

}  // namespace

TEST_CASE("every key, set to its example in the smallest file there is, reads without an error") {
  int tried = 0;
  each_key([&](const File& file, const Path& path, const KeyInfo& key) {
    const std::string text = file_with(file, path, key.name + " = " + key.shape.example, {key.name});
    CAPTURE(text);
    const Diagnostics said = said_of(file.kind, text);
    CHECK_MESSAGE(unexpected_error(said) == nullptr, rendered(said));
    ++tried;
  });
  CHECK(tried > 150);
}

TEST_CASE("every key, misspelt by one letter, is answered by its name") {
  each_key([&](const File& file, const Path& path, const KeyInfo& key) {
    if (path.empty() && key.name == "format") return;  // without it nothing else is read
    if (key.name.size() < 3) return;                   // a unit's own letters: nobody can guess which was meant
    for (const std::string& typed : {key.name.substr(0, key.name.size() - 1) + "z", key.name + "s"}) {
      const std::string text = file_with(file, path, typed + " = " + key.shape.example, {key.name});
      CAPTURE(text);
      const Diagnostics said = said_of(file.kind, text);
      const Diagnostic* unknown = find_problem(said, Problem::unknown_key);
      REQUIRE(unknown != nullptr);
      CHECK(unknown->message_text() == "unknown key `" + typed + "`");
      CHECK(unknown->hint_text().find("`" + key.name + "`") != std::string::npos);
      CHECK(std::pair{unknown->at.line, unknown->at.column} == place_of(text, typed + " = "));
    }
  });
}

TEST_CASE("every key with a value of the wrong type is refused at its value") {
  each_key([&](const File& file, const Path& path, const KeyInfo& key) {
    for (const std::string value :
         {"1979-05-27T07:32:00Z", "[[[-987654]]]", "{nested = {too = -98765.4}}", "-9876543.21"}) {
      const bool is_table = key.shape.type == Shape::Type::table || key.shape.type == Shape::Type::texts;
      if (value.front() == '{' && is_table) continue;
      const std::string text = file_with(file, path, key.name + " = " + value, {key.name});
      CAPTURE(text);
      const Diagnostics said = said_of(file.kind, text);
      const auto place = place_of(text, value);
      const bool at_item = value.front() == '[' && has_error_at(said, {place.first, place.second + 1});
      CHECK_MESSAGE((at_item || has_error_at(said, place)), rendered(said));
    }
  });
}

TEST_CASE("every required key that is missing is named, alone and with all others") {
  for (const File& file : files()) {
    each_table(file.keys, {}, [&](const Path& path, const Keys& keys) {
      std::set<std::string> required;
      for (const KeyInfo& key : keys) {
        if (key.required && key.name != "format") required.insert(key.name);
      }
      std::vector<std::set<std::string>> left_out{required};
      for (const std::string& name : required) left_out.push_back({name});
      for (const auto& names : left_out) {
        const std::string text = file_with(file, path, "", names);
        CAPTURE(text);
        const std::string said = rendered(said_of(file.kind, text));
        for (const std::string& name : names) {
          CAPTURE(joined(path, name));
          // Alone, or in one line with the others.
          CHECK(std::regex_search(said, std::regex{"error: [^\n]*`" + name + "`[^\n]* missing \\[missing-key\\]"}));
        }
      }
    });
  }
}

TEST_CASE("a file without a format, or of a newer one, is refused before anything else") {
  for (const File& file : files()) {
    const Diagnostics without = said_of(file.kind, "nonsense = 5\n");
    REQUIRE(without.all().size() == 1);
    CHECK(without.all().front().problem == Problem::format_missing);
    const Diagnostics newer = said_of(file.kind, "nonsense = 5\nformat = 2\n");
    REQUIRE(newer.all().size() == 1);
    CHECK(newer.all().front().problem == Problem::format_newer);
    CHECK(newer.all().front().at.line == 2);
  }
}

TEST_CASE("quantities at their limits are taken, those beyond are refused with the limits") {
  int tried = 0;
  each_key([&](const File& file, const Path& path, const KeyInfo& key) {
    const auto to = key.limits.find(" to ");
    if (key.shape.type != Shape::Type::quantity || key.limits.empty()) return;
    const Kind kind = key.shape.kind;
    const auto low = read_si(key.limits.substr(0, to), kind);
    const auto high = read_si(key.limits.substr(to + 4), kind);
    REQUIRE(low.has_value());
    REQUIRE(high.has_value());
    const double little = (*high - *low) / 1000;
    const auto answer = [&](double si) {
      const std::string typed = typed_si(si, kind);
      REQUIRE(!typed.empty());
      return said_of(file.kind, file_with(file, path, key.name + " = \"" + typed + "\"", {key.name}));
    };
    for (const double beyond : {*low - little, *high + little}) {
      const Diagnostics said = answer(beyond);
      const Diagnostic* refused = find_problem(said, Problem::out_of_range);
      REQUIRE(refused != nullptr);
      CHECK(refused->message_text().find("it has to be from " + key.limits) != std::string::npos);
    }
    for (const double inside : {*low + little, *high - little}) {
      const Diagnostics said = answer(inside);
      const Diagnostic* refused = find_problem(said, Problem::out_of_range);
      CHECK_MESSAGE((refused == nullptr || refused->message_text().find("it has to be") == std::string::npos),
                    rendered(said));
    }
    ++tried;
  });
  CHECK(tried > 40);
}

TEST_CASE("counts, texts and lists beyond their limits are refused") {
  each_key([&](const File& file, const Path& path, const KeyInfo& key) {
    if (key.limits.empty()) return;
    std::vector<std::string> beyond;
    const auto number_behind = [&](const std::string& word) {
      return std::stoi(key.limits.substr(key.limits.find(word) + word.size()));
    };
    if (key.shape.type == Shape::Type::count) {
      beyond = {std::to_string(std::stoi(key.limits) - 1), std::to_string(number_behind(" to ") + 1),
                "9223372036854775807", "-9223372036854775808"};
    } else if (key.shape.type == Shape::Type::text) {
      beyond = {"\"" + std::string(static_cast<std::size_t>(number_behind("at most ")) + 1, 'x') + "\""};
    } else if (key.shape.type == Shape::Type::list) {
      const int most = number_behind(key.limits.starts_with("at most") ? "at most " : " to ");
      std::string list;
      for (int i = 0; i <= most; ++i) list += (i == 0 ? "[" : ", ") + key.shape.item->example;
      beyond = {list + "]"};
    }
    for (const std::string& value : beyond) {
      const Diagnostics said = said_of(file.kind, file_with(file, path, key.name + " = " + value, {key.name}));
      CAPTURE(value.substr(0, 60));
      const bool is_format = key.name == "format";
      CHECK_MESSAGE((is_format ? said.has_errors() : find_problem(said, Problem::out_of_range) != nullptr),
                    rendered(said).substr(0, 500));
    }
  });
}

TEST_CASE("the hint for a bare number, pasted in its place, is accepted") {
  each_key([&](const File& file, const Path& path, const KeyInfo& key) {
    if (key.shape.type != Shape::Type::quantity) return;
    for (const std::string number : {"12", "3.5", "1e30", "nan", "-7"}) {
      const std::string bare = file_with(file, path, key.name + " = " + number, {key.name});
      const Diagnostics said = said_of(file.kind, bare);
      const Diagnostic* refused = find_problem(said, Problem::bare_number);
      REQUIRE(refused != nullptr);
      CAPTURE(refused->hint_text());
      const Diagnostics pasted = said_of(file.kind, file_with(file, path, refused->hint_text(), {key.name}));
      CHECK_MESSAGE(unexpected_error(pasted) == nullptr, rendered(pasted));
    }
  });
}

TEST_CASE("the hint for a missing key, pasted, is accepted") {
  for (const File& file : files()) {
    each_table(file.keys, {}, [&](const Path& path, const Keys& keys) {
      for (const KeyInfo& key : keys) {
        if (!key.required || key.name == "format" || key.shape.type == Shape::Type::table) continue;
        CAPTURE(joined(path, key.name));
        const Diagnostics said = said_of(file.kind, file_with(file, path, "", {key.name}));
        const Diagnostic* missing = find_problem(said, Problem::missing_key);
        REQUIRE(missing != nullptr);
        const Diagnostics pasted = said_of(file.kind, file_with(file, path, missing->hint_text(), {key.name}));
        CHECK_MESSAGE(unexpected_error(pasted) == nullptr, rendered(pasted));
      }
    });
  }
}

TEST_CASE("a key is never written twice in the lists, and says what it is") {
  for (const File& file : files()) {
    each_table(file.keys, {}, [&](const Path& path, const Keys& keys) {
      std::set<std::string> seen;
      for (const KeyInfo& key : keys) {
        CAPTURE(joined(path, key.name));
        CHECK(seen.insert(key.name).second);
      }
    });
  }
}

TEST_CASE("keys of an operation that have no effect together are not taken in silence") {
  const std::string shop =
      "format = 1\nname = \"Shop\"\nzone = \"Europe/Berlin\"\n[hours]\nmonday = [\"08:00-12:00\"]\n"
      "[[routing]]\nname = \"Cure\"\nwho = \"bath\"\nfixed = \"2 h\"\n";
  const auto said_with = [&](const std::string& keys) { return said_of(FileKind::shop, shop + keys); };
  CHECK(find_problem(said_with("hands_on = \"start\"\nmost = \"3 h\"\n"), Problem::keys_disagree) != nullptr);
  CHECK_FALSE(said_with("hands_on = \"start\"\nmay_run_long = true\nmost = \"3 h\"\n").has_errors());
  CHECK(find_problem(said_with("hands_on_time = \"10 min\"\n"), Problem::keys_disagree) != nullptr);
  CHECK_FALSE(said_with("hands_on = \"ends\"\nhands_on_time = \"10 min\"\n").has_errors());
}

TEST_CASE("whom a witness is for is not named where none is wanted") {
  const std::string job =
      "format = 1\nid = \"A-1\"\nclient = \"Nobody\"\nitem = \"awl\"\nquantity = 2\n"
      "[handle]\nstations = [{at = \"0 mm\", diameter = \"20 mm\"}, {at = \"90 mm\", diameter = \"20 mm\"}]\n"
      "[stud]\nthread = \"M6\"\nenters = \"12 mm\"\n[wood]\nspecies = \"European beech\"\n"
      "[treatment]\nresin = \"Clear\"\n";
  const auto said_with = [&](const std::string& keys) { return said_of(FileKind::job, job + keys); };
  CHECK(find_problem(said_with("witness_for = \"load\"\n"), Problem::keys_disagree) != nullptr);
  CHECK_FALSE(said_with("witness = true\nwitness_for = \"load\"\n").has_errors());
  CHECK_FALSE(said_with("").has_errors());
}

TEST_CASE("stretches of a day that overlap, and clocks that are none, are refused") {
  const auto said_with = [&](const std::string& hours) {
    return said_of(FileKind::shop, "format = 1\nname = \"Shop\"\nzone = \"Europe/Berlin\"\n[hours]\nmonday = [" +
                                       hours +
                                       "]\n[[routing]]\nname = \"Turn\"\nwho = \"turner\"\nfixed = \"2 h\"\n");
  };
  CHECK_FALSE(said_with("\"08:00-12:00\", \"12:00-17:00\"").has_errors());
  for (const char* wrong : {"\"08:00-12:00\", \"11:00-17:00\"", "\"8:00-12:00\"", "\"08:5-12:00\"",
                            "\"71582789:00-12:00\"", "\"08:00-24:01\"", "\"12:00-08:00\""}) {
    CAPTURE(wrong);
    CHECK(find_problem(said_with(wrong), Problem::bad_hours) != nullptr);
  }
}

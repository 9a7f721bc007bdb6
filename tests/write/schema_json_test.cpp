#include "write/schema_json.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>
#include <string>

using namespace blankwright;
using Json = nlohmann::json;

namespace {

struct File {
  std::string name;
  std::vector<KeyInfo> keys;
};

std::vector<File> files() {
  return {{"job", job_key_infos()}, {"shop", shop_key_infos()}, {"template", template_key_infos()}};
}

const Json& inner(const Json& schema) { return schema.contains("items") ? schema.at("items") : schema; }
const Shape& inner(const Shape& shape) { return shape.type == Shape::Type::list ? *shape.item : shape; }

void check_object(const Json& object, const std::vector<KeyInfo>& keys) {
  CHECK(object.at("type") == "object");
  CHECK(object.at("additionalProperties") == false);  // an unknown key is a mistake
  CHECK(object.at("properties").size() == keys.size());
  const auto required = object.at("required").get<std::set<std::string>>();
  for (const KeyInfo& key : keys) {
    CAPTURE(key.name);
    REQUIRE(object.at("properties").contains(key.name));
    const Json& property = object.at("properties").at(key.name);
    CHECK(required.contains(key.name) == key.required);
    CHECK(property.contains("description"));
    if (key.shape.type == Shape::Type::word) CHECK(property.at("enum") == key.shape.words);
    if (inner(key.shape).type == Shape::Type::table) check_object(inner(property), inner(key.shape).keys);
  }
}

std::string file_text(const std::filesystem::path& path) {
  std::ifstream in{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

/// The keys that a file of ours writes, with the table that they stand in: "stud.thread". Enough of TOML for the
/// samples, which write a key a line and inline tables only in `stations`.
std::set<std::string> keys_written(const std::string& text) {
  std::set<std::string> keys;
  std::istringstream in{text};
  std::string table;
  const std::regex header{R"(^\[+([a-z_]+)\]+.*)"}, pair{R"(^([A-Za-z_0-9]+) *=.*)"};
  for (std::string line; std::getline(in, line);) {
    std::smatch match;
    if (std::regex_match(line, match, header)) table = match[1].str() + ".";
    if (std::regex_match(line, match, pair)) keys.insert(table + match[1].str());
  }
  return keys;
}

bool has_key(const Json& schema, const std::string& dotted) {
  const auto dot = dotted.find('.');
  const Json& properties = schema.at("properties");
  const std::string name = dotted.substr(0, dot);
  if (!properties.contains(name)) return false;
  return dot == std::string::npos || has_key(inner(properties.at(name)), dotted.substr(dot + 1));
}

}  // namespace

TEST_CASE("the schema of each file is JSON Schema 2020-12 and tells every key") {
  for (const File& file : files()) {
    CAPTURE(file.name);
    const Json schema = Json::parse(schema_json("Blankwright " + file.name + " file", file.keys));
    CHECK(schema.at("$schema") == "https://json-schema.org/draft/2020-12/schema");
    CHECK(schema.at("title") == "Blankwright " + file.name + " file");
    check_object(schema, file.keys);
  }
}

TEST_CASE("the keys of the sample files and of the shipped templates stand in the schema") {
  const std::filesystem::path source{BLANKWRIGHT_SOURCE_DIR};
  const auto check_file = [&](const std::filesystem::path& path, const std::vector<KeyInfo>& keys) {
    CAPTURE(path.string());
    const Json schema = Json::parse(schema_json("", keys));
    const auto written = keys_written(file_text(path));
    CHECK(written.size() >= 3);
    for (const std::string& key : written) {
      CAPTURE(key);
      CHECK(has_key(schema, key));
    }
  };
  int samples = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{source / "sample-jobs"}) {
    const bool wrong_on_purpose = entry.path().parent_path().filename() == "mistakes";
    if (entry.path().extension() != ".toml" || wrong_on_purpose) continue;
    const auto name = entry.path().filename();
    check_file(entry.path(), name == "shop.toml"     ? shop_key_infos()
                             : name == "sheets.toml" ? template_key_infos()
                                                     : job_key_infos());
    ++samples;
  }
  CHECK(samples >= 5);
  check_file(source / "templates/standard.toml", template_key_infos());
  check_file(source / "templates/letter.toml", template_key_infos());
}

TEST_CASE("the table of keys has a row for every key, those of tables below their own") {
  for (const File& file : files()) {
    const std::string table = key_table(file.keys);
    CAPTURE(table);
    for (const KeyInfo& key : file.keys) {
      CAPTURE(key.name);
      CHECK(table.find("| `" + key.name + "` |") != std::string::npos);
      if (inner(key.shape).type != Shape::Type::table) continue;
      const std::string prefix = key.name + (key.shape.type == Shape::Type::list ? "[]." : ".");
      for (const KeyInfo& below : inner(key.shape).keys)
        CHECK(table.find("| `" + prefix + below.name + "` |") != std::string::npos);
    }
  }
}

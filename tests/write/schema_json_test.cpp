#include "write/schema_json.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <toml++/toml.h>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "paper.h"
#include "temporary_folder.h"

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

/// What an independent validator, Debian's python3-jsonschema, says of TOML files, read by toml++ and written as
/// JSON; nothing where all of them keep to the schema.
std::string against_schema(const std::string& schema, const std::vector<std::filesystem::path>& files) {
  const TemporaryFolder folder;
  put_bytes(folder / "schema.json", schema);
  std::string command = "PYTHONWARNINGS=ignore /usr/bin/jsonschema";  // its newer versions tell of others
  for (std::size_t n = 0; n < files.size(); ++n) {
    const std::string json = folder / fmt::format("{}.json", n);
    const toml::table table = toml::parse_file(files.at(n).string());
    std::ofstream out{json};
    out << toml::json_formatter{table};
    out.close();
    command += " -i " + json;
  }
  const ToolRun ran = run_tool(command + " " + folder / "schema.json" + " 2>&1");
  CHECK((ran.status == 0) == ran.out.empty());
  return ran.out;
}

std::vector<std::filesystem::path> with_ending(const std::filesystem::path& folder, const std::string& ending) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{folder}) {
    if (entry.path().string().ends_with(ending)) files.push_back(entry.path());
  }
  return files;
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

TEST_CASE("an independent validator finds nothing in the samples, and every mistake that a schema can tell") {
  const std::filesystem::path source{BLANKWRIGHT_SOURCE_DIR};
  std::vector<std::filesystem::path> jobs, shops;
  for (const auto& file : with_ending(source / "sample-jobs", ".toml")) {
    const std::string name = file.filename().string();
    if (file.parent_path().filename() == "mistakes" || name == "sheets.toml") continue;
    (name == "shop.toml" ? shops : jobs).push_back(file);
  }
  REQUIRE(jobs.size() >= 4);
  REQUIRE(shops.size() >= 3);
  CHECK(against_schema(schema_json("job", job_key_infos()), jobs).empty());
  CHECK(against_schema(schema_json("shop", shop_key_infos()), shops).empty());
  CHECK(against_schema(schema_json("template", template_key_infos()),
                       {source / "templates/standard.toml", source / "templates/letter.toml",
                        source / "sample-jobs/german/sheets.toml"})
            .empty());
  const std::string wrong =
      against_schema(schema_json("job", job_key_infos()), {source / "sample-jobs/mistakes/job.toml"});
  for (const char* mistake : {"'drawig' was unexpected", "is not of type 'integer'", "is not one of"}) {
    CAPTURE(mistake);
    CHECK_MESSAGE(wrong.find(mistake) != std::string::npos, wrong);
  }
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

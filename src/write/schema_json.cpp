#include "write/schema_json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

namespace blankwright {
namespace {

using Json = nlohmann::ordered_json;

/// What a key is where it is left out, and where that comes from.
std::string standard_of(const KeyInfo& k) {
  return k.source.empty() ? k.standard : fmt::format("{} ({})", k.standard, k.source);
}

Json schema_of(const Shape& shape);

Json object_of(const std::vector<KeyInfo>& keys) {
  Json properties = Json::object();
  Json required = Json::array();
  for (const KeyInfo& k : keys) {
    Json property = schema_of(k.shape);
    std::string says = k.says;
    if (!k.limits.empty()) says += "; " + k.limits;
    if (!k.standard.empty()) says += "; when left out: " + standard_of(k);
    property["description"] = says;
    properties[k.name] = std::move(property);
    if (k.required) required.push_back(k.name);
  }
  return {{"type", "object"}, {"additionalProperties", false}, {"required", required}, {"properties", properties}};
}

Json schema_of(const Shape& shape) {
  switch (shape.type) {
    case Shape::Type::quantity:
      return {{"type", "string"}, {"examples", {std::string{example(shape.kind)}}}};
    case Shape::Type::text:
      return {{"type", "string"}};
    case Shape::Type::count:
      return {{"type", "integer"}};
    case Shape::Type::truth:
      return {{"type", "boolean"}};
    case Shape::Type::date:
      return {{"type", "string"}, {"format", "date"}};
    case Shape::Type::word:
      return {{"enum", shape.words}};
    case Shape::Type::list:
      return {{"type", "array"}, {"items", schema_of(*shape.item)}};
    case Shape::Type::table:
      return object_of(shape.keys);
    case Shape::Type::texts:
      return {{"type", "object"}, {"additionalProperties", {{"type", "string"}}}};
  }
  return {};
}

std::string kind_of(const Shape& shape) {
  switch (shape.type) {
    case Shape::Type::quantity:
      return std::string{kind_name(shape.kind)};
    case Shape::Type::text:
      return "text";
    case Shape::Type::count:
      return "whole number";
    case Shape::Type::truth:
      return "true or false";
    case Shape::Type::date:
      return "date";
    case Shape::Type::word:
      return fmt::format("{}", fmt::join(shape.words, ", "));
    case Shape::Type::list:
      return "list of: " + kind_of(*shape.item);
    case Shape::Type::table:
    case Shape::Type::texts:
      return "table";
  }
  return {};
}

const Shape& inner(const Shape& shape) { return shape.type == Shape::Type::list ? *shape.item : shape; }

void add_rows(const std::vector<KeyInfo>& keys, const std::string& prefix, std::string& out) {
  for (const KeyInfo& k : keys) {
    const bool table = inner(k.shape).type == Shape::Type::table;
    const bool many = k.shape.type == Shape::Type::list;
    std::string says = fmt::format("{}{}: {}", kind_of(k.shape), k.required ? ", **required**" : "", k.says);
    if (!k.limits.empty()) says += "; " + k.limits;
    if (!k.standard.empty() && !table) says += ". Left out: " + standard_of(k);
    out += fmt::format("| `{}{}` | {} |\n", prefix, k.name, says);
    if (table) add_rows(inner(k.shape).keys, prefix + k.name + (many ? "[]." : "."), out);
  }
}

}  // namespace

std::string schema_json(const std::string& title, const std::vector<KeyInfo>& keys) {
  Json root{{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", title}};
  root.update(object_of(keys));
  return root.dump(2) + "\n";
}

std::string key_table(const std::vector<KeyInfo>& keys) {
  std::string out = "| key | what it is |\n|---|---|\n";
  add_rows(keys, "", out);
  return out;
}

}  // namespace blankwright

#pragma once

#include <memory>
#include <string>
#include <vector>

#include "measure/units.h"

namespace blankwright {

/// A key of a table: what it is, and what its value looks like. Enough for the schema, the manual's table, messages
/// and the test of every key.
struct KeyInfo {
  /// Inside, because a table's shape holds keys: its members are first made when both are complete.
  struct Shape {
    /// `texts` is a table of texts whose names are those of a list that is not of keys.
    enum class Type { quantity, text, count, truth, date, word, list, table, texts };
    Type type = Type::text;
    Kind kind = Kind::length;          ///< of a quantity
    std::string example{};             ///< a value that is accepted, as TOML
    std::vector<std::string> words{};  ///< that may stand for a word
    std::vector<KeyInfo> keys{};       ///< of a table
    std::shared_ptr<Shape> item{};     ///< of a list
  };

  std::string name;
  bool required = false;
  std::string says;      ///< what it is, for people
  std::string limits;    ///< "0 mm to 10 m", or empty
  std::string standard;  ///< what holds when it is left out, as TOML; or empty
  std::string source;    ///< whose the standard value is
  Shape shape;
};

using Shape = KeyInfo::Shape;

/// The three kinds of file.
std::vector<KeyInfo> job_key_infos();
std::vector<KeyInfo> shop_key_infos();
std::vector<KeyInfo> template_key_infos();

}  // namespace blankwright

#pragma once

#include <algorithm>
#include <fstream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

#include "diagnose/diagnostics.h"
#include "read/order.h"
#include "read/shop.h"
#include "read/template.h"

namespace blankwright {

inline std::string file_text(const std::string& path) {
  std::ifstream in{std::string{BLANKWRIGHT_SOURCE_DIR "/"} + path, std::ios::binary};
  if (!in) throw std::runtime_error{path + " is not there"};
  return {std::istreambuf_iterator<char>{in}, {}};
}

inline Source text_source(std::string text, std::string name = "file.toml") {
  return std::make_shared<const SourceText>(SourceText{std::move(name), std::move(text)});
}

inline const Template& shipped_template() {
  static const Template standard = [] {
    Diagnostics out;
    auto read = read_template(text_source(file_text("templates/standard.toml")), Template{}, out);
    if (!read) throw std::runtime_error{rendered(out)};
    return std::move(*read);
  }();
  return standard;
}

enum class FileKind { job, shop, sheets };

/// Reads a text as a file of that kind, and answers what there is to say.
inline Diagnostics said_of(FileKind kind, std::string text) {
  Diagnostics out;
  const Source source = text_source(std::move(text));
  if (kind == FileKind::job) read_order(source, out);
  if (kind == FileKind::shop) read_shop(source, out);
  if (kind == FileKind::sheets) read_template(source, shipped_template(), out);
  return out;
}

inline const Diagnostic* find_problem(const Diagnostics& said, Problem problem) {
  const auto& all = said.all();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Diagnostic& d) { return d.problem == problem; });
  return found == all.end() ? nullptr : &*found;
}

/// A job that reads without a word, with one piece of it replaced.
inline std::string job_with(std::string_view piece = {}, std::string_view instead = {}) {
  std::string text =
      "format = 1\n"
      "id = \"A-1\"\n"
      "client = \"Nobody\"\n"
      "item = \"awl handle\"\n"
      "quantity = 6\n"
      "[handle]\n"
      "stations = [{at = \"0 mm\", diameter = \"24 mm\"}, {at = \"90 mm\", diameter = \"20 mm\"}]\n"
      "[stud]\n"
      "thread = \"M8\"\n"
      "enters = \"14 mm\"\n"
      "[wood]\n"
      "species = \"European beech\"\n"
      "moisture = \"9 %\"\n";
  if (piece.empty()) return text;
  const auto at = text.find(piece);
  if (at == std::string::npos) throw std::runtime_error{"no such piece: " + std::string{piece}};
  return text.replace(at, piece.size(), instead);
}

}  // namespace blankwright

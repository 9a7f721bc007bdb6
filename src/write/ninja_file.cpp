#include "write/ninja_file.h"

#include <fmt/format.h>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// In single quotes, which the shell leaves alone.
std::string in_quotes(std::string_view word) {
  std::string out = "'";
  for (const char c : word) out += c == '\'' ? std::string{R"('\'')"} : std::string{c};
  return out + "'";
}

std::string with_dollars(std::string_view text) {
  std::string out;
  for (const char c : text) out += c == '$' ? std::string{"$$"} : std::string{c};
  return out;
}

}  // namespace

std::string ninja_path(std::string_view path) {
  std::string out;
  for (const char c : path) {
    if (c == '\n' || c == '\r') throw WorldError{std::string{path}, "has a line break, which Ninja cannot be told"};
    if (c == '$' || c == ' ' || c == ':') out += '$';
    out += c;
  }
  return out;
}

std::string ninja_edge(std::span<const std::string> makes, const std::string& pages) {
  std::string out = "build";
  for (const std::string& one : makes) out += " " + ninja_path(one);
  return fmt::format("{}: print {} | $program\n", out, ninja_path(pages));
}

std::string ninja_file(const std::string& program, std::span<const std::string> parts) {
  // In a value a blank needs no dollar but where it comes first, and a path from the root begins with none.
  static_cast<void>(ninja_path(program));
  std::string out = fmt::format(
      "# What `ninja -f print.ninja` prints here, written by `blankwright compile --print-later`.\n"
      "program = {}\nrule print\n  command = {} print-pages --quiet $in\n  description = print $in\n",
      with_dollars(program), with_dollars(in_quotes(program)));
  for (const std::string& part : parts) out += fmt::format("subninja {}\n", ninja_path(part));
  return out;
}

std::string no_ninja_edge() { return "# printed by a compile\n"; }

}  // namespace blankwright

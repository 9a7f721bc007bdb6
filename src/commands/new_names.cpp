#include "commands/new_names.h"

#include <fmt/format.h>

#include <algorithm>

namespace blankwright {

std::vector<std::string> new_names(Register& known, std::span<const Entry> entries) {
  std::vector<std::string> lines;
  for (const Entry& entry : entries) {
    for (const Field field : {Field::bath, Field::load}) {
      const std::string name = entry.text(field);
      if (name.empty()) continue;
      std::string line = fmt::format("{} {}: new", facts_of(field).name, name);
      const bool is_told = std::ranges::find(lines, line) != lines.end();
      if (!is_told && !known.knows(field, name)) lines.push_back(std::move(line));
    }
  }
  return lines;
}

}  // namespace blankwright

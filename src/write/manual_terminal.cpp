#include <algorithm>

#include "measure/utf8.h"
#include "write/manual.h"

namespace blankwright {
namespace {

using Look = ManualWords::Look;

constexpr int narrowest = 40;
constexpr int indent_step = 4;

/// Puts words into lines between two margins.
class Wrapping {
 public:
  Wrapping(int width, bool looks) : width_{std::max(width, narrowest)}, looks_{looks} {}

  /// A line of words, its further lines at `hanging`.
  void put(const ManualLine& line, int indent, int hanging, std::string_view lead = {}) {
    out += std::string(static_cast<std::size_t>(indent), ' ') + std::string{lead};
    column_ = indent + static_cast<int>(lead.size());
    hanging_ = hanging;
    fresh_ = true;
    bool glued = true;
    for (const ManualWords& words : line) {
      const bool ticks = !looks_ && words.look == Look::code;  // what is typed is known without bold, too
      put_words(ticks ? "`" + words.text + "`" : words.text, words.look, glued);
      if (!words.leads_to.empty() && words.leads_to != words.text) {
        put_words(" (manual " + words.leads_to + ")", Look::plain, glued);
      }
    }
    out += "\n";
  }
  void put_as_it_is(std::string_view text, int indent) {
    while (!text.empty()) {
      const std::string_view line = text.substr(0, text.find('\n'));
      if (!line.empty()) out += std::string(static_cast<std::size_t>(indent), ' ');
      out += std::string{line} + "\n";
      text.remove_prefix(std::min(text.size(), line.size() + 1));
    }
  }

  std::string out;

 private:
  void put_words(std::string_view text, Look look, bool& glued) {
    while (!text.empty()) {
      const auto space = text.find(' ');
      const std::string_view word = text.substr(0, space);
      if (!word.empty()) put_word(word, look, glued);
      glued = space == std::string_view::npos;
      if (glued) return;
      text.remove_prefix(space + 1);
    }
  }
  void put_word(std::string_view word, Look look, bool glued) {
    const int columns = static_cast<int>(code_point_count(word));
    const bool apart = !glued && !fresh_;
    if (!fresh_ && column_ + columns + (apart ? 1 : 0) > width_) {
      out += "\n" + std::string(static_cast<std::size_t>(hanging_), ' ');
      column_ = hanging_;
    } else if (apart) {
      out += " ";
      ++column_;
    }
    const bool marked = looks_ && look != Look::plain;
    out += (marked ? "\x1b[1m" : "") + std::string{word} + (marked ? "\x1b[0m" : "");
    column_ += columns;
    fresh_ = false;
  }

  int width_;
  bool looks_;
  int column_ = 0, hanging_ = 0;
  bool fresh_ = true;
};

ManualLine bold(ManualLine line) {
  for (ManualWords& words : line) words.look = Look::strong;
  return line;
}

void put_table(const ManualBlock& table, Wrapping& to) {
  const auto& head = table.rows.front();
  for (std::size_t i = 1; i < table.rows.size(); ++i) {
    const auto& row = table.rows.at(i);
    to.put(bold(row.front()), indent_step, 2 * indent_step);
    for (std::size_t column = 1; column < row.size(); ++column) {
      ManualLine line = row.at(column);
      if (line.empty()) continue;
      if (row.size() > 2) {
        line.insert(line.begin(), {head.at(column).front().text + ": ", Look::plain, {}});
      }
      to.put(line, 2 * indent_step, 2 * indent_step);
    }
  }
}

}  // namespace

std::string manual_as_text(const ManualPage& page, int width, bool looks) {
  Wrapping to{width, looks};
  ManualBlock::Type before = ManualBlock::Type::heading;
  for (const ManualBlock& block : page.blocks) {
    using Type = ManualBlock::Type;
    const bool item_of_list = block.type == Type::item && before == Type::item;
    if (!to.out.empty() && !item_of_list) to.out += "\n";
    const int indent = indent_step * (1 + block.level);
    switch (block.type) {
      case Type::heading:
        to.put(bold(block.line), block.level > 2 ? 2 : 0, 2);
        break;
      case Type::paragraph:
        to.put(block.line, indent, indent);
        break;
      case Type::item:
        to.put(block.line, indent, indent + 2, "- ");
        break;
      case Type::example:
        to.put_as_it_is(block.example, 2 * indent_step);
        break;
      case Type::table:
        put_table(block, to);
        break;
    }
    before = block.type;
  }
  return to.out;
}

}  // namespace blankwright

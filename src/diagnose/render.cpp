#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <string_view>
#include <tuple>

#include "diagnose/diagnostics.h"
#include "diagnose/problem.h"
#include "measure/printable.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

constexpr int widest_shown = 160;  // columns of a source line; a longer one is shown around its mark

/// In colours that are read on a dark and on a light ground; yellow and cyan are not.
std::string_view severity_word(Severity severity, bool colour) {
  switch (severity) {
    case Severity::error:
      return colour ? "\x1b[1;31merror\x1b[0m" : "error";
    case Severity::warning:
      return colour ? "\x1b[1;35mwarning\x1b[0m" : "warning";
    case Severity::note:
      return colour ? "\x1b[1mnote\x1b[0m" : "note";
  }
  return {};
}

/// Words on one line. What a file made very long is cut: nobody reads it.
std::string one_line(std::string_view words) {
  constexpr std::size_t longest = 2000;  // characters; the list of all words of a template finds room
  const std::u32string all = code_points(words.substr(0, 4 * longest));
  return all.size() <= longest && words.size() <= 4 * longest
             ? harmless(std::u32string_view{all})
             : harmless(std::u32string_view{all}.substr(0, longest)) + " …";
}

std::string_view line_of(const SourceText& source, int wanted) {
  std::string_view rest = source.text;
  if (rest.starts_with("\uFEFF")) rest.remove_prefix(3);  // a byte order mark takes no column
  for (int line = 1; line < wanted; ++line) {
    const auto end = rest.find('\n');
    if (end == std::string_view::npos) return {};
    rest.remove_prefix(end + 1);
  }
  std::string_view line = rest.substr(0, rest.find('\n'));
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

struct Underline {
  Place at;
  char mark;
  std::string says;
};

bool begins_a_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }

/// `count` characters of a line, from the one at the column `from` on.
std::string_view characters(std::string_view line, int from, int count) {
  const auto byte_of = [line](int n) {
    std::size_t at = 0;
    for (; at < line.size(); ++at) {
      if (begins_a_character(line[at]) && n-- == 0) break;
    }
    return at;
  };
  const std::size_t begin = byte_of(from - 1);
  return line.substr(begin, byte_of(from - 1 + count) - begin);
}

/// The line with its mark below, both cut to a window around the mark.
std::string excerpt(const Underline& under) {
  const std::string_view all = line_of(*under.at.source, under.at.line);
  const int width = static_cast<int>(std::count_if(all.begin(), all.end(), begins_a_character));
  const int column = std::clamp(under.at.column, 1, width + 1);
  const int from = width <= widest_shown ? 1 : std::max(1, column - widest_shown / 4);
  const int to = std::min(width, from + widest_shown - 1);
  const std::string line = harmless(characters(all, from, to - from + 1));
  const int length = std::clamp(under.at.length, 1, std::max(1, to - column + 1));
  const std::string blank(static_cast<std::size_t>(column - from), ' ');
  const std::string marks(static_cast<std::size_t>(length), under.mark);
  return fmt::format("{:>5} | {}\n      | {}{}{}{}\n", under.at.line, line, blank, marks,
                     under.says.empty() ? "" : " ", one_line(under.says));
}

std::string place_text(const Place& at) {
  if (at.source == nullptr) return "blankwright";
  const std::string name = one_line(at.source->name);
  return at.line == 0 ? name : fmt::format("{}:{}:{}", name, at.line, at.column);
}

void render_one(const Diagnostic& d, bool colour, std::string& out) {
  fmt::format_to(std::back_inserter(out), "{}: {}: {} [{}]\n", place_text(d.at), severity_word(d.severity, colour),
                 one_line(d.message_text()), problem_name(d.problem));
  std::vector<Underline> lines;
  if (d.at.source != nullptr && d.at.line > 0) lines.push_back({d.at, '^', ""});
  std::vector<Diagnostic::Label> elsewhere;
  for (const Diagnostic::Label& label : d.labels) {
    if (d.at.source != nullptr && label.at.source->name == d.at.source->name) {
      lines.push_back({label.at, '-', text(label.says)});
    } else {
      elsewhere.push_back(label);
    }
  }
  std::stable_sort(lines.begin(), lines.end(), [](const Underline& a, const Underline& b) {
    return std::tie(a.at.line, a.at.column) < std::tie(b.at.line, b.at.column);
  });
  for (const Underline& line : lines) out += excerpt(line);
  for (const Diagnostic::Label& label : elsewhere) {
    fmt::format_to(std::back_inserter(out), "   {}: {}\n", place_text(label.at), one_line(text(label.says)));
    out += excerpt({label.at, '-', ""});
  }
  if (d.way_out) fmt::format_to(std::back_inserter(out), "   hint: {}\n", one_line(d.hint_text()));
}

}  // namespace

std::string rendered(const Diagnostics& diagnostics, bool colour) {
  std::map<std::string, std::size_t> file_order;
  for (const Diagnostic& d : diagnostics.all()) {
    if (d.at.source != nullptr) file_order.try_emplace(d.at.source->name, file_order.size() + 1);
  }
  const auto key = [&](const Diagnostic& d) {
    const std::size_t file = d.at.source == nullptr ? 0 : file_order.at(d.at.source->name);
    return std::tuple{file, d.at.line, d.at.column};
  };
  std::vector<const Diagnostic*> sorted;
  for (const Diagnostic& d : diagnostics.all()) sorted.push_back(&d);
  std::stable_sort(sorted.begin(), sorted.end(),
                   [&](const Diagnostic* a, const Diagnostic* b) { return key(*a) < key(*b); });
  std::string out;
  for (const Diagnostic* d : sorted) render_one(*d, colour, out);
  return out;
}

}  // namespace blankwright

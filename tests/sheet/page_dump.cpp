#include "page_dump.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <variant>

namespace blankwright {
namespace {

/// What rounds to nothing has no sign.
std::string rounded(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  const bool nothing = text.find_first_not_of("-0.") == std::string::npos;
  return nothing && text.front() == '-' ? text.substr(1) : text;
}

std::string length(Length value) { return rounded(value / mm, 1); }
/// Of a line, or of a module's side: not more decimals than it needs.
std::string width(Length value) { return fmt::format("{:g}", std::round(value / mm * 1000) / 1000); }
std::string spot(Spot at) { return length(at.x) + " " + length(at.y); }

std::string in_quotes(std::string_view words) {
  std::string text = "\"";
  for (const char letter : words) {
    if (letter == '"' || letter == '\\') text += '\\';
    text += letter;
  }
  return text + '"';
}

std::string corners(const std::vector<Path>& paths) {
  constexpr std::size_t told_each = 6;
  std::size_t count = 0;
  Spot low = paths.front().front(), high = low;
  for (const Path& path : paths) {
    count += path.size();
    for (const Spot& s : path) {
      low = {std::min(low.x, s.x), std::min(low.y, s.y)};
      high = {std::max(high.x, s.x), std::max(high.y, s.y)};
    }
  }
  if (count > told_each) {
    return fmt::format("{} corners in {} {} {}", count, spot(low), length(high.x - low.x), length(high.y - low.y));
  }
  std::string text;
  for (const Path& path : paths) {
    if (!text.empty()) text += " /";
    for (const Spot& corner : path) text += (text.empty() ? "" : " ") + spot(corner);
  }
  return text;
}

std::string_view word(Dash dash) {
  switch (dash) {
    case Dash::solid:
      break;
    case Dash::hidden:
      return " hidden";
    case Dash::centre:
      return " centre";
    case Dash::phantom:
      return " phantom";
    case Dash::tear:
      return " tear";
  }
  return "";
}

struct LineOf {
  std::string operator()(const Text& text) const {
    const Length point = inch / 72;
    std::string line =
        fmt::format("text {} {}pt {}", spot(text.at), rounded(text.size / point, 1), in_quotes(text.words));
    if (text.face == Face::bold) line += " bold";
    if (text.face == Face::narrow) line += " narrow";
    if (text.turn != Angle{}) line += " turn " + rounded(text.turn / degree, 1);
    return line;
  }
  std::string operator()(const Stroke& stroke) const {
    return fmt::format("line {} {}{}{}", corners(stroke.paths), width(stroke.width), word(stroke.dash),
                       stroke.closed ? " closed" : "");
  }
  std::string operator()(const Fill& fill) const {
    return fmt::format("fill {}{}", corners(fill.paths),
                       fill.ink == Ink::black  ? ""
                       : fill.ink == Ink::grey ? " grey"
                                               : " white");
  }
  std::string operator()(const Ellipse& ellipse) const {
    const std::string box = fmt::format("{} {} {}", spot({ellipse.box.x, ellipse.box.y}), length(ellipse.box.width),
                                        length(ellipse.box.height));
    if (ellipse.width == Length{}) return "ellipse " + box + " filled";
    return fmt::format("ellipse {} {}{}", box, width(ellipse.width), word(ellipse.dash));
  }
  std::string operator()(const Matrix& matrix) const {
    return fmt::format("matrix {} {}x{} {} {} black", spot(matrix.at), matrix.side, matrix.side, width(matrix.module),
                       std::count(matrix.black.begin(), matrix.black.end(), true));
  }
  std::string operator()(const Image& image) const {
    return fmt::format("image {} {} {} {}x{}", spot({image.box.x, image.box.y}), length(image.box.width),
                       length(image.box.height), image.pixels->width, image.pixels->height);
  }
};

}  // namespace

std::string page_dump(std::span<const Page> pages) {
  std::string text;
  for (const Page& page : pages) {
    text += fmt::format("page {} {} {} {}\n", in_quotes(page.label), page.paper.name, length(page.paper.width),
                        length(page.paper.height));
    for (const Item& item : page.items) text += std::visit(LineOf{}, item.mark) + "\n";
    for (const Link& link : page.links) {
      text += fmt::format("link {} {} {} {}\n", spot({link.box.x, link.box.y}), length(link.box.width),
                          length(link.box.height), in_quotes(link.to));
    }
  }
  return text;
}

}  // namespace blankwright

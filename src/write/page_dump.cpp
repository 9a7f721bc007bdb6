#include "write/page_dump.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <variant>

namespace blankwright {
namespace {

/// With `least` to 3 decimals; what rounds to nothing has no sign.
std::string number(double value, std::size_t least) {
  std::string text = fmt::format("{:.3f}", std::abs(value) < 0.0005 ? 0.0 : value);
  const std::size_t point = text.find('.');
  while (text.back() == '0' && text.size() > point + 1 + least) text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string length(Length value) { return number(value / mm, 1); }
std::string spot(Spot at) { return length(at.x) + " " + length(at.y); }

std::string quoted(std::string_view words) {
  std::string text = "\"";
  for (const char letter : words) {
    if (letter == '"' || letter == '\\') text += '\\';
    text += letter;
  }
  return text + '"';
}

std::string corners(const std::vector<Path>& paths) {
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
    case Dash::tear:
      return " tear";
  }
  return "";
}

struct LineOf {
  std::string operator()(const Text& text) const {
    const Length point = inch / 72;
    std::string line =
        fmt::format("text {} {}pt {}", spot(text.at), number(text.size / point, 0), quoted(text.words));
    if (text.face == Face::bold) line += " bold";
    if (text.turn != Angle{}) line += " turn " + number(text.turn / degree, 1);
    return line;
  }
  std::string operator()(const Stroke& stroke) const {
    return fmt::format("line {} {}{}{}", corners(stroke.paths), number(stroke.width / mm, 1), word(stroke.dash),
                       stroke.closed ? " closed" : "");
  }
  std::string operator()(const Fill& fill) const {
    return fmt::format("fill {}{}", corners(fill.paths), fill.white ? " white" : "");
  }
  std::string operator()(const Ellipse& ellipse) const {
    const std::string box = fmt::format("{} {} {}", spot({ellipse.box.x, ellipse.box.y}), length(ellipse.box.width),
                                        length(ellipse.box.height));
    if (ellipse.width == Length{}) return "ellipse " + box + " filled";
    return fmt::format("ellipse {} {}{}", box, number(ellipse.width / mm, 1), word(ellipse.dash));
  }
  std::string operator()(const Matrix& matrix) const {
    return fmt::format("matrix {} {}x{} {} {} black", spot(matrix.at), matrix.side, matrix.side,
                       length(matrix.module), std::count(matrix.black.begin(), matrix.black.end(), true));
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
    text += fmt::format("page {} {} {} {}\n", quoted(page.label), page.paper.name, length(page.paper.width),
                        length(page.paper.height));
    for (const Item& item : page.items) text += std::visit(LineOf{}, item.mark) + "\n";
    for (const Link& link : page.links) {
      text += fmt::format("link {} {} {} {}\n", spot({link.box.x, link.box.y}), length(link.box.width),
                          length(link.box.height), quoted(link.to));
    }
  }
  return text;
}

}  // namespace blankwright

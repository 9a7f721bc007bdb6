#include <fmt/format.h>

#include <algorithm>

#include "write/escaped_html.h"
#include "write/manual.h"

namespace blankwright {
namespace {

using Look = ManualWords::Look;

constexpr std::string_view style = R"(
:root { color-scheme: light dark; }
body { font: 16px/1.5 system-ui, sans-serif; max-width: 60rem; margin: 0 auto; padding: 1rem; }
pre { padding: .6rem .8rem; overflow-x: auto; border-left: 3px solid; }
code, pre { font-family: ui-monospace, monospace; font-size: .92em; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .25rem .6rem .25rem 0; border-bottom: 1px solid #8888; }
td:first-child code { overflow-wrap: anywhere; }
section { border-top: 2px solid; margin-top: 3rem; }
)";

std::string html_of(const ManualLine& line) {
  std::string out;
  for (const ManualWords& words : line) {
    std::string text = escaped_html(words.text);
    if (words.look == Look::code) text = "<code>" + text + "</code>";
    if (words.look == Look::strong) text = "<strong>" + text + "</strong>";
    if (!words.leads_to.empty()) text = fmt::format("<a href=\"#{}\">{}</a>", escaped_html(words.leads_to), text);
    out += text;
  }
  return out;
}

std::string table_html(const ManualBlock& table) {
  std::string out = "<table>\n";
  for (const auto& row : table.rows) {
    const std::string_view cell = &row == &table.rows.front() ? "th" : "td";
    out += "<tr>";
    for (const ManualLine& line : row) out += fmt::format("<{0}>{1}</{0}>", cell, html_of(line));
    out += "</tr>\n";
  }
  return out + "</table>\n";
}

std::string page_html(const ManualPage& page) {
  using Type = ManualBlock::Type;
  std::string out = fmt::format("<section id=\"{}\">\n", escaped_html(page.name));
  bool in_list = false;
  for (const ManualBlock& block : page.blocks) {
    const bool item = block.type == Type::item;
    if (item != in_list) out += item ? "<ul>\n" : "</ul>\n";
    in_list = item;
    switch (block.type) {
      case Type::heading:
        out += fmt::format("<h{0}>{1}</h{0}>\n", block.level, html_of(block.line));
        break;
      case Type::paragraph:
        out += "<p>" + html_of(block.line) + "</p>\n";
        break;
      case Type::item:
        out += "<li>" + html_of(block.line) + "</li>\n";
        break;
      case Type::example:
        out += "<pre>" + escaped_html(block.example) + "</pre>\n";
        break;
      case Type::table:
        out += table_html(block);
        break;
    }
  }
  return out + (in_list ? "</ul>\n" : "") + "</section>\n";
}

}  // namespace

std::string manual_as_html(const std::vector<ManualPage>& pages, std::string_view version) {
  std::string out = fmt::format(
      "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width\">\n<title>{0}: the manual</title>\n<style>{1}</style>\n"
      "</head>\n<body>\n<p>{0}: the manual</p>\n<nav><ul>\n",
      escaped_html(version), style);
  for (const ManualPage& page : pages) {
    out += fmt::format("<li><a href=\"#{0}\">{0}</a>: {1}</li>\n", escaped_html(page.name), escaped_html(page.says));
  }
  out += "</ul></nav>\n";
  for (const ManualPage& page : pages) out += page_html(page);
  return out + "</body>\n</html>\n";
}

}  // namespace blankwright

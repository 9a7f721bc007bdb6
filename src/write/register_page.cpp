#include "write/register_page.h"

#include <fmt/format.h>

#include <map>
#include <nlohmann/json.hpp>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

using Json = nlohmann::ordered_json;

/// Text within an element or an attribute in double quotes.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

/// JSON within a script element: no "<" in it, so that nothing can end the element.
std::string script_json(const Json& json) {
  std::string out;
  for (const char c : json.dump()) out += c == '<' ? std::string{"\\u003c"} : std::string(1, c);
  return out;
}

std::string without_hyphens(std::string_view id) {
  std::string out;
  for (const char c : id) out += c == '-' ? "" : std::string(1, c);
  return out;
}

Json blank_json(const PageBlank& blank) {
  Json facts = Json::array();
  for (const auto& [name, value] : blank.facts) facts.push_back({name, value});
  Json gates = Json::array();
  for (const PageGate& gate : blank.gates) gates.push_back({{"words", gate.words}, {"holds", gate.holds}});
  Json history = Json::array();
  for (const PageEntry& entry : blank.history) {
    history.push_back(
        {{"when", entry.when}, {"what", entry.what}, {"says", entry.says}, {"by", entry.by}, {"holds", entry.holds}});
  }
  return {
      {"id", blank.id}, {"facts", std::move(facts)}, {"gates", std::move(gates)}, {"history", std::move(history)}};
}

std::string order_section(const PageOrder& order, const std::vector<const PageBlank*>& blanks, std::size_t number) {
  const std::string words = fmt::format("{} {} {}", order.id, order.client, order.item);
  std::string out = fmt::format("<section class=\"order\" data-words=\"{}\" aria-labelledby=\"order-{}\">\n",
                                escaped(words), number);
  out += fmt::format("<h2 id=\"order-{}\">{}</h2>\n", number, escaped(order.id));
  const std::string due = order.due.empty() ? "" : fmt::format(", due {}", order.due);
  const std::string pieces = order.quantity > 0 ? fmt::format("{} × ", order.quantity) : "";
  out += fmt::format("<p>{}{} for {}{}</p>\n", pieces, escaped(order.item), escaped(order.client), escaped(due));
  out +=
      "<table>\n<thead><tr><th scope=\"col\">Blank</th><th scope=\"col\">Stage</th><th scope=\"col\">Place</th>"
      "<th scope=\"col\">Gate</th></tr></thead>\n<tbody>\n";
  for (const PageBlank* blank : blanks) {
    bool holds = false;
    for (const PageGate& gate : blank->gates) holds = holds || gate.holds;
    out += fmt::format("<tr data-id=\"{}\"><td><a href=\"#{}\">{}</a></td><td>{}</td><td>{}</td><td>{}</td></tr>\n",
                       escaped(without_hyphens(blank->id)), escaped(blank->id), escaped(blank->id),
                       escaped(blank->stage), escaped(blank->place), holds ? "<strong>hold</strong>" : "");
  }
  return out + "</tbody>\n</table>\n</section>\n";
}

/// The text with each @name@ replaced; what is put in is not looked at again.
std::string filled(std::string_view text, const std::map<std::string, std::string, std::less<>>& values) {
  std::string out;
  while (!text.empty()) {
    const std::size_t mark = text.find('@');
    out += text.substr(0, mark);
    if (mark == std::string_view::npos) break;
    const std::size_t end = text.find('@', mark + 1);
    BW_EXPECT(end != std::string_view::npos);
    const auto value = values.find(text.substr(mark + 1, end - mark - 1));
    BW_EXPECT(value != values.end());
    out += value->second;
    text.remove_prefix(end + 1);
  }
  return out;
}

}  // namespace

std::string register_page(const RegisterPage& page, const PageParts& parts) {
  std::map<std::string, std::vector<const PageBlank*>> by_order;
  Json blanks = Json::array();
  for (const PageBlank& blank : page.blanks) {
    by_order[blank.order].push_back(&blank);
    blanks.push_back(blank_json(blank));
  }
  std::string orders;
  for (std::size_t i = 0; i < page.orders.size(); ++i) {
    orders += order_section(page.orders.at(i), by_order[page.orders.at(i).id], i);
  }
  const Json data{{"title", page.title}, {"blanks", std::move(blanks)}};
  return filled(parts.html, {{"title", escaped(page.title)},
                             {"entry", escaped(page.entry)},
                             {"made", escaped(page.made)},
                             {"css", std::string{parts.css}},
                             {"js", std::string{parts.js}},
                             {"orders", std::move(orders)},
                             {"data", script_json(data)}});
}

}  // namespace blankwright

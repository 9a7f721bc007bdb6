#include "write/register_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

using Json = nlohmann::ordered_json;

/// Text within an element or an attribute in double quotes.
std::string escaped_html(std::string_view text) {
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
void add_script_json(std::string& out, const Json& json) {
  for (const char c : json.dump()) {
    if (c == '<') {
      out += "\\u003c";
    } else {
      out += c;
    }
  }
}

std::string without_hyphens(std::string_view id) {
  std::string out;
  for (const char c : id) {
    if (c != '-') out += c;
  }
  return out;
}

bool is_held(const PageBlank& blank) {
  return std::ranges::any_of(blank.gates, [](const PageGate& gate) { return gate.holds; });
}

/// "6 × file handle for Brackwater Forge, due 2027-06-18", with what is known of it.
std::string gist_of(const PageOrder& order) {
  std::string out = order.quantity > 0 ? fmt::format("{} × {}", order.quantity, order.item) : order.item;
  if (!order.client.empty()) out += fmt::format("{}for {}", out.empty() ? "" : " ", order.client);
  if (!order.due.empty()) out += fmt::format("{}due {}", out.empty() ? "" : ", ", order.due);
  return out;
}

Json details_of(const PageBlank& blank) {
  Json facts = Json::array(), gates = Json::array(), history = Json::array();
  for (const auto& [name, value] : blank.facts) facts.push_back({name, value});
  for (const PageGate& gate : blank.gates) gates.push_back({gate.words, gate.holds});
  for (const PageEntry& entry : blank.history) {
    history.push_back({entry.when, entry.what, entry.says, entry.by, entry.holds});
  }
  return {{"facts", std::move(facts)}, {"gates", std::move(gates)}, {"history", std::move(history)}};
}

/// An order and its blanks, by their places in the page.
struct Section {
  PageOrder order;
  std::vector<std::size_t> blanks;
};

/// Every blank stands in one of them: where the page lacks its order, in a last one.
std::vector<Section> sections_of(const RegisterPage& page) {
  std::vector<Section> sections;
  std::map<std::string_view, std::size_t> places;
  for (const PageOrder& order : page.orders) {
    places.emplace(order.id, sections.size());
    sections.push_back({order, {}});
  }
  Section rest{{"Of no order on this page", "", "", "", 0}, {}};
  for (std::size_t i = 0; i < page.blanks.size(); ++i) {
    const auto place = places.find(page.blanks.at(i).order);
    (place == places.end() ? rest : sections.at(place->second)).blanks.push_back(i);
  }
  if (!rest.blanks.empty()) sections.push_back(std::move(rest));
  return sections;
}

std::string html_of(const Section& section, const std::vector<PageBlank>& blanks, std::size_t number) {
  std::string out =
      fmt::format("<section class=\"order\" aria-labelledby=\"order-{0}\">\n<h2 id=\"order-{0}\">{1}</h2>\n", number,
                  escaped_html(section.order.id));
  out += fmt::format("<p>{}</p>\n", escaped_html(gist_of(section.order)));
  out +=
      "<table>\n<thead><tr><th scope=\"col\">Blank</th><th scope=\"col\">Stage</th><th scope=\"col\">Place</th>"
      "<th scope=\"col\">Gate</th></tr></thead>\n<tbody>\n";
  for (const std::size_t place : section.blanks) {
    const PageBlank& blank = blanks.at(place);
    out += fmt::format("<tr data-id=\"{}\"><td><a href=\"#{}\">{}</a></td><td>{}</td><td>{}</td><td>{}</td></tr>\n",
                       escaped_html(without_hyphens(blank.id)), escaped_html(blank.id), escaped_html(blank.id),
                       escaped_html(blank.stage), escaped_html(blank.place),
                       is_held(blank) ? "<strong>hold</strong>" : "");
  }
  return out + "</tbody>\n</table>\n</section>\n";
}

/// What the list is made of: orders as [id, gist, words to find it by, its blanks' places], blanks as
/// [id, stage, place, held].
std::string list_json(const RegisterPage& page, const std::vector<Section>& sections) {
  Json orders = Json::array(), blanks = Json::array();
  for (const auto& [order, places] : sections) {
    orders.push_back({order.id, gist_of(order), fmt::format("{} {} {}", order.id, order.client, order.item), places});
  }
  for (const PageBlank& blank : page.blanks) {
    blanks.push_back({blank.id, blank.stage, blank.place, is_held(blank)});
  }
  std::string out;
  add_script_json(out, {{"title", page.title}, {"orders", std::move(orders)}, {"blanks", std::move(blanks)}});
  return out;
}

/// Facts, gates and history, a line a blank, so that the page need not take apart more than the one it shows.
std::string details_json(const std::vector<PageBlank>& blanks) {
  std::string out = "[";
  for (const PageBlank& blank : blanks) {
    out += out.size() == 1 ? "\n" : ",\n";
    add_script_json(out, details_of(blank));
  }
  return out + "\n]";
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
  const std::vector<Section> sections = sections_of(page);
  std::string orders;
  if (page.blanks.size() <= most_in_html) {
    for (std::size_t i = 0; i < sections.size(); ++i) orders += html_of(sections.at(i), page.blanks, i);
  }
  const std::string without_script =
      page.blanks.size() <= most_in_html
          ? "Search and histories need JavaScript; the orders below are complete without it."
          : fmt::format("The {} blanks of this register are too many to be shown without JavaScript.",
                        page.blanks.size());
  return filled(parts.html, {{"title", escaped_html(page.title)},
                             {"entry", escaped_html(page.entry)},
                             {"made", escaped_html(page.made)},
                             {"css", std::string{parts.css}},
                             {"js", std::string{parts.js}},
                             {"without_script", without_script},
                             {"orders", std::move(orders)},
                             {"list", list_json(page, sections)},
                             {"details", details_json(page.blanks)}});
}

}  // namespace blankwright

#include "write/register_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "diagnose/failure.h"
#include "write/escaped_html.h"

namespace blankwright {
namespace {

using Json = nlohmann::ordered_json;

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

/// The gate that speaks most strongly, of several the first; where all let it pass, the last. None where none asks.
const PageGate* gate_of(const PageBlank& blank) {
  const PageGate* found = nullptr;
  for (const PageGate& gate : blank.gates) {
    if (found == nullptr || gate.answer < found->answer || found->answer == PageAnswer::pass) found = &gate;
  }
  return found;
}

bool is_held(const PageBlank& blank) {
  const PageGate* gate = gate_of(blank);
  return gate != nullptr && gate->answer == PageAnswer::hold;
}

std::string_view word_of(PageAnswer answer) {
  switch (answer) {
    case PageAnswer::hold:
      return "HOLD";
    case PageAnswer::wait:
      return "wait";
    case PageAnswer::pass:
      return "go on";
  }
  return {};
}

/// "resin: HOLD".
std::string gate_text(const PageBlank& blank) {
  const PageGate* gate = gate_of(blank);
  return gate == nullptr ? "nothing to check" : fmt::format("{}: {}", gate->name, word_of(gate->answer));
}

/// "6 × file handle for Brackwater Forge, due 2027-06-18, late by 2 d 5 h", with what is known of it.
std::string gist_of(const PageOrder& order) {
  std::string out = order.quantity > 0 ? fmt::format("{} × {}", order.quantity, order.item) : order.item;
  if (!order.client.empty()) out += fmt::format("{}for {}", out.empty() ? "" : " ", order.client);
  if (!order.due.empty()) out += fmt::format("{}due {}", out.empty() ? "" : ", ", order.due);
  if (!order.late.empty()) out += fmt::format("{}late by {}", out.empty() ? "" : ", ", order.late);
  return out;
}

Json details_of(const PageBlank& blank) {
  Json facts = Json::array(), gates = Json::array(), history = Json::array();
  for (const auto& [name, value] : blank.facts) facts.push_back({name, value});
  std::vector<PageGate> strongest_first = blank.gates;
  std::ranges::stable_sort(strongest_first, {}, &PageGate::answer);
  for (const PageGate& gate : strongest_first)
    gates.push_back({gate.name, gate.words, gate.answer == PageAnswer::hold});
  for (const PageEntry& entry : blank.history) {
    history.push_back({entry.when, entry.what, entry.says, entry.by, entry.valid});
  }
  return {{"facts", std::move(facts)}, {"gates", std::move(gates)}, {"history", std::move(history)}};
}

/// An order and its blanks, by their places in the page: first those on HOLD.
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
  Section rest{{"No order on this page", "", "", "", "", 0}, {}};
  for (std::size_t i = 0; i < page.blanks.size(); ++i) {
    const auto place = places.find(page.blanks.at(i).order);
    (place == places.end() ? rest : sections.at(place->second)).blanks.push_back(i);
  }
  if (!rest.blanks.empty()) sections.push_back(std::move(rest));
  for (Section& section : sections)
    std::ranges::stable_partition(section.blanks, [&](std::size_t place) { return is_held(page.blanks.at(place)); });
  return sections;
}

/// A row that is a link as a whole. `whose`: a line below, where its order is not named beside it.
std::string row_html(const PageBlank& blank, std::string_view whose) {
  const std::string gate = escaped_html(gate_text(blank));
  std::string out = fmt::format(
      "<li><a class=\"row\" data-id=\"{}\" href=\"#{}\"><b>{}</b> <span>{}</span> <span>{}</span> <span>{}</span>",
      escaped_html(without_hyphens(blank.id)), escaped_html(blank.id), escaped_html(blank.id),
      escaped_html(blank.stage), escaped_html(blank.place),
      is_held(blank) ? fmt::format("<strong>{}</strong>", gate) : gate);
  if (!whose.empty()) out += fmt::format(" <span class=\"whose\">{}</span>", escaped_html(whose));
  return out + "</a></li>\n";
}

constexpr std::string_view heads =
    "<p class=\"row heads\" aria-hidden=\"true\"><span>Blank</span><span>Stage</span><span>Place</span>"
    "<span>Check</span></p>\n";

std::string html_of(const Section& section, const std::vector<PageBlank>& blanks, std::size_t number) {
  std::string out = fmt::format(
      "<section class=\"order\" aria-labelledby=\"order-{0}\">\n<h2 id=\"order-{0}\">{1}</h2>\n<p>{2}</p>\n", number,
      escaped_html(section.order.id), escaped_html(gist_of(section.order)));
  out += fmt::format("{}<ul>\n", heads);
  for (const std::size_t place : section.blanks) out += row_html(blanks.at(place), {});
  return out + "</ul>\n</section>\n";
}

/// What is on HOLD, then what is late; empty where nothing is.
std::string first_html(const RegisterPage& page, const std::vector<Section>& sections) {
  std::string held, late;
  std::size_t held_count = 0, late_count = 0;
  for (const auto& [order, places] : sections) {
    for (const std::size_t place : places) {
      if (!is_held(page.blanks.at(place))) break;
      held += row_html(page.blanks.at(place), fmt::format("{}: {}", order.id, gist_of(order)));
      ++held_count;
    }
    if (order.late.empty()) continue;
    late += fmt::format("<li><b>{}</b> {}</li>\n", escaped_html(order.id), escaped_html(gist_of(order)));
    ++late_count;
  }
  std::string out;
  if (held_count > 0) out += fmt::format("<h2>On HOLD: {}</h2>\n{}<ul>\n{}</ul>\n", held_count, heads, held);
  if (late_count > 0) out += fmt::format("<h2>Late: {}</h2>\n<ul class=\"late\">\n{}</ul>\n", late_count, late);
  return out;
}

std::string stages_html(const RegisterPage& page) {
  std::string out;
  for (const auto& [stage, count] : page.stages)
    out += fmt::format("<li><b>{}</b> {}</li>\n", count, escaped_html(stage));
  return out;
}

/// Whose a blank of this order is and for when, as names and values.
Json facts_of(const PageOrder& order) {
  Json facts = Json::array();
  const auto add = [&](const char* name, const std::string& value) {
    if (!value.empty()) facts.push_back({name, value});
  };
  add("Order", order.id);
  add("Client", order.client);
  add("Item", order.item);
  add("Due", order.due);
  add("Late by", order.late);
  return facts;
}

/// What the list is made of: orders as [id, gist, facts, its blanks' places], blanks as [id, stage, place, gate,
/// held].
std::string list_json(const RegisterPage& page, const std::vector<Section>& sections) {
  Json orders = Json::array(), blanks = Json::array();
  for (const auto& [order, places] : sections) {
    orders.push_back({order.id, gist_of(order), facts_of(order), places});
  }
  for (const PageBlank& blank : page.blanks) {
    blanks.push_back({blank.id, blank.stage, blank.place, gate_text(blank), is_held(blank)});
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
                             {"stages", stages_html(page)},
                             {"first", first_html(page, sections)},
                             {"orders", std::move(orders)},
                             {"list", list_json(page, sections)},
                             {"details", details_json(page.blanks)}});
}

}  // namespace blankwright

#include "write/today_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <utility>

#include "measure/printable.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array columns{
    std::pair{"time", &TodayRow::time},   std::pair{"step", &TodayRow::step},   std::pair{"what", &TodayRow::what},
    std::pair{"where", &TodayRow::where}, std::pair{"order", &TodayRow::order}, std::pair{"note", &TodayRow::note},
};

std::size_t width(const std::string& text) { return code_points(text).size(); }

}  // namespace

std::string today_as_text(const TodayFacts& facts) {
  std::string out = harmless(today_title(facts)) + "\n";
  for (const TodaySection& section : today_sections(facts)) {
    out += fmt::format("\n{}\n", harmless(section.title));
    std::array<std::size_t, columns.size()> widths{};
    for (const TodayRow& row : section.rows) {
      for (std::size_t i = 0; i < columns.size(); ++i)
        widths.at(i) = std::max(widths.at(i), width(row.*columns.at(i).second));
    }
    for (const TodayRow& row : section.rows) {
      std::string line;
      for (std::size_t i = 0; i < columns.size(); ++i) {
        if (widths.at(i) == 0) continue;
        const std::string& cell = row.*columns.at(i).second;
        line += "  " + harmless(cell) + std::string(widths.at(i) - width(cell), ' ');
      }
      line.erase(line.find_last_not_of(' ') + 1);
      out += line + "\n";
    }
  }
  return out;
}

std::string today_as_json(const TodayFacts& facts) {
  Json sections = Json::array();
  for (const TodaySection& section : today_sections(facts)) {
    Json rows = Json::array();
    for (const TodayRow& row : section.rows) {
      Json one = Json::object();
      for (const auto& [key, member] : columns) {
        if (!(row.*member).empty()) one[key] = row.*member;
      }
      const Zone& zone = facts.shop.zone.value;
      if (row.from) one["from"] = local_text(zone, *row.from);
      if (row.to) one["to"] = local_text(zone, *row.to);
      if (row.count > 0) one["count"] = row.count;
      if (!row.ids.empty()) one["ids"] = row.ids;
      rows.push_back(std::move(one));
    }
    sections.push_back({{"section", section.key}, {"title", section.title}, {"rows", std::move(rows)}});
  }
  return Json{{"at", local_text(facts.shop.zone.value, facts.at)},
              {"entry", facts.last_entry},
              {"sections", std::move(sections)}}
             .dump(2) +
         "\n";
}

}  // namespace blankwright

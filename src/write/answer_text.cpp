#include "write/answer_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "diagnose/failure.h"
#include "measure/printable.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

std::string padded(std::string_view text, std::size_t width) {
  const std::size_t has = code_point_count(text);
  return std::string{text} + std::string(has < width ? width - has : 0, ' ');
}

std::string line(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) out += padded(harmless(cells.at(i)), widths.at(i)) + "  ";
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out + "\n";
}

bool is_plain_number(std::string_view text) {
  if (text.starts_with('-') || text.starts_with('+')) text.remove_prefix(1);
  return !text.empty() && text.find_first_not_of("0123456789.") == std::string_view::npos;
}

std::string csv_cell(std::string_view text) {
  std::string cell{text};
  const bool formula = !cell.empty() && std::string_view{"=+-@\t\r"}.find(cell.front()) != std::string_view::npos;
  if (formula && !is_plain_number(cell)) cell.insert(0, 1, '\'');
  if (cell.find_first_of(",;\"\r\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + "\"";
}

std::string csv_row(const std::vector<std::string>& cells) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) out += (i > 0 ? "," : "") + csv_cell(cells.at(i));
  return out + "\r\n";
}

}  // namespace

std::string answer_as_text(const Answer& answer) {
  std::string out;
  std::size_t name_width = 0;
  for (const auto& [name, value] : answer.facts) name_width = std::max(name_width, code_point_count(name));
  for (const auto& [name, value] : answer.facts) out += line({name, value}, {name_width, 0});
  if (answer.columns.empty()) return out;
  if (!out.empty()) out += "\n";
  std::vector<std::size_t> widths;
  for (const std::string& column : answer.columns) widths.push_back(code_point_count(column));
  for (const auto& row : answer.rows) {
    BW_EXPECT(row.size() == answer.columns.size());
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths.at(i) = std::max(widths.at(i), code_point_count(harmless(row.at(i))));
    }
  }
  out += line(answer.columns, widths);
  for (const auto& row : answer.rows) out += line(row, widths);
  if (answer.rows.empty()) out += "(none)\n";
  return out;
}

std::string answer_as_csv(const Answer& answer) {
  std::string out = csv_row(answer.columns);
  for (const auto& row : answer.rows) out += csv_row(row);
  return out;
}

std::string answer_as_json(const Answer& answer) {
  using Json = nlohmann::ordered_json;
  Json facts = Json::object();
  for (const auto& [name, value] : answer.facts) {
    facts[name] = facts.contains(name) ? facts[name].get<std::string>() + "; " + value : value;
  }
  Json rows = Json::array();
  for (const auto& row : answer.rows) {
    Json object = Json::object();
    for (std::size_t i = 0; i < row.size(); ++i) object[answer.columns.at(i)] = row.at(i);
    rows.push_back(std::move(object));
  }
  return Json{{"facts", std::move(facts)}, {"rows", std::move(rows)}}.dump(2) + "\n";
}

std::string answer_as(std::string_view form, const Answer& answer) {
  return form == "json" ? answer_as_json(answer) : form == "csv" ? answer_as_csv(answer) : answer_as_text(answer);
}

}  // namespace blankwright

#include "sheets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "program.h"
#include "units.h"

namespace simulated {
namespace {

/// The first figure with this unit behind it: "at most 14.4 lbf in" with "lbf".
double figure_before(const std::string& text, std::string_view unit) {
  for (std::size_t at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1)) {
    std::size_t begin = at;
    while (begin > 0 && text[begin - 1] == ' ') --begin;
    const std::size_t end = begin;
    while (begin > 0 && (std::isdigit(static_cast<unsigned char>(text[begin - 1])) != 0 || text[begin - 1] == '.'))
      --begin;
    if (begin < end) return number_in(text.substr(begin, end - begin));
  }
  return none;
}

double torque_in(const std::string& text) {
  const double metric = figure_before(text, "N m");
  return std::isnan(metric) ? figure_before(text, "lbf in") * Nm_per_lbf_in : metric;
}

double temperature_in(const std::string& text) {
  const double metric = figure_before(text, "°C");
  return std::isnan(metric) ? (figure_before(text, "°F") - 32) * 5 / 9 : metric;
}

double hours_in(const std::string& text) {
  const double hours = figure_before(text, "h");
  const double minutes = figure_before(text, "min");
  if (std::isnan(hours) && std::isnan(minutes)) return none;
  return (std::isnan(hours) ? 0 : hours) + (std::isnan(minutes) ? 0 : minutes / 60);
}

double gauge_in(const std::string& text) {
  const double metric = figure_before(text, "kPa");
  return std::isnan(metric) ? figure_before(text, "inHg") * kPa_per_inHg : metric;
}

/// Every length of a line, one after the other: "2 in (2.000) 1.895 in" are two.
std::vector<double> lengths_in(const std::string& text) {
  std::vector<double> out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const double length_mm = length_mm_in(text.substr(at));
    if (!std::isnan(length_mm)) out.push_back(length_mm);
    at = end + 1;
  }
  return out;
}

/// Five limits beside each other: the number at the head of each, its words, the figure below them.
void read_checks(const PrintedPage& page, Sheets& out) {
  const Word* head = page.find("Before turning");
  const Word* next = page.find("Caliper settings");
  if (head == nullptr || next == nullptr) return;
  std::array<const Word*, 6> numbers{};
  for (const Word& word : page.words)
    if (word.text.size() == 1 && word.text[0] >= '1' && word.text[0] <= '5' && word.middle() > head->bottom &&
        word.middle() < head->bottom + 20)
      numbers.at(static_cast<std::size_t>(word.text[0] - '0')) = &word;
  const auto right_of = [&](std::size_t n) {
    return n < 5 && numbers.at(n + 1) != nullptr ? numbers.at(n + 1)->left - 3 : 10000;
  };
  const auto value = [&](std::size_t n) {
    if (numbers.at(n) == nullptr) return none;
    const Word& number = *numbers.at(n);
    for (const Word& word : page.words)
      if (!std::isnan(number_in(word.text)) && word.bottom - word.top > 15 && word.left > number.left - 1 &&
          word.right < right_of(n) && word.middle() > number.bottom + 6 && word.bottom < next->top)
        return length_mm_in(page.within(word.left - 1, word.middle() - 5, right_of(n), word.middle() + 5));
    return none;
  };
  out.axis_limit_mm = value(1);
  const std::string lean =
      numbers[2] == nullptr ? "" : page.within(numbers[2]->left, head->bottom, right_of(2), next->top);
  out.lean_limit_mm_per_100mm = value(2) * (lean.find("per 4") != std::string::npos ? 100 / (4 * mm_per_in) : 1);
  out.projection_mm = value(4);
  out.embedded_mm = value(5);
}

/// One row of the caliper table, from its number on; the table stands in two or three columns side by side.
CaliperRow caliper_row(const PrintedPage& page, const Word& number, const std::array<double, 5>& columns,
                       double unit_mm) {
  const auto cell = [&](std::size_t column) {
    return page.within(columns.at(column) - 6, number.middle() - 4, columns.at(column + 1) - 6, number.middle() + 4);
  };
  CaliperRow row;
  row.number = static_cast<int>(number_in(number.text));
  row.at_mm = number_in(cell(0)) * unit_mm;
  row.diameter_mm = number_in(cell(1)) * unit_mm;
  row.least_mm = number_in(cell(2)) * unit_mm;
  row.most_mm = number_in(cell(3)) * unit_mm;
  return row;
}

void read_calipers(const PrintedPage& page, Sheets& out, double unit_mm) {
  const Word* table = page.find("Caliper settings");
  if (table == nullptr) return;
  for (int nth = 0;; ++nth) {
    const Word* head = page.find("From seat", nth);
    if (head == nullptr) break;
    const double line = head->middle();
    const auto column = [&](std::string_view name) {
      double left = 10000;
      for (const Word& word : page.words)
        if (word.text == name && std::abs(word.middle() - line) < 2 && word.left > head->left)
          left = std::min(left, word.left);
      return left;
    };
    double number_left = 0, next_table = 10000;
    for (const Word& word : page.words) {
      if (word.text != "No." || std::abs(word.middle() - line) > 2) continue;
      if (word.left < head->left)
        number_left = std::max(number_left, word.left);
      else
        next_table = std::min(next_table, word.left);
    }
    std::array<double, 5> columns{head->left, column("Diameter"), 0, 0, next_table};
    for (const Word& word : page.words)
      if (word.text == "At" && std::abs(word.middle() - line) < 2 && word.left > columns[1] && word.left < columns[4])
        columns[columns[2] < 1 ? 2 : 3] = word.left;
    if (columns[3] < columns[2]) std::swap(columns[2], columns[3]);
    for (const Word& word : page.words)
      if (std::abs(word.left - number_left) < 6 && word.middle() > head->bottom &&
          !std::isnan(number_in(word.text)) && word.right < head->left)
        out.calipers.push_back(caliper_row(page, word, columns, unit_mm));
  }
  std::ranges::sort(out.calipers, {}, &CaliperRow::number);
}

void read_turner(const PrintedPage& page, Sheets& out, double unit_mm) {
  constexpr std::string_view tighten = "On the client's part: tighten to at most";
  out.tighten_most_Nm = page.find(tighten) != nullptr ? torque_in(page.below(tighten, 40)) : none;
  out.spindle_rpm = figure_before(page.below("Spindle no faster than"), "rpm");
  out.depth_stop_mm = length_mm_in(page.below("Depth stop"));
  const std::string round = page.below("Round first to Ø", 60);
  out.round_to_mm = length_mm_in(round);
  const std::size_t centres = round.find("at most ");
  out.centres_off_mm = centres == std::string::npos ? none : length_mm_in(round.substr(centres + 8));
  out.squared_section_mm = length_mm_in(page.below("Section, squared"));
  out.squared_length_mm = length_mm_in(page.below("Length, squared"));
  read_checks(page, out);
  read_calipers(page, out, unit_mm);
}

void read_ladder(const PrintedPage& page, Sheets& out) {
  const std::string title = page.behind("Expected mass,");
  const double unit_g = title.find("(oz)") != std::string::npos   ? g_per_oz
                        : title.find("(lb)") != std::string::npos ? 16 * g_per_oz
                                                                  : 1;
  const Word* table = page.find("Dry mass");
  const Word* end = page.find("Between two rows:");
  if (table == nullptr || end == nullptr) return;
  for (const auto& line : page.lines()) {
    if (line.front().middle() < table->bottom || line.front().middle() > end->top) continue;
    std::vector<double> figures;
    for (const Word& word : line)
      if (const double figure = number_in(word.text); !std::isnan(figure)) figures.push_back(figure * unit_g);
    for (std::size_t i = 0; i + 4 <= figures.size(); i += 4)
      out.ladder.push_back({figures[i], figures[i + 1], figures[i + 2], figures[i + 3]});
  }
  std::ranges::sort(out.ladder, {}, &LadderRow::dry_g);
}

void read_routing(const PrintedPage& page, Sheets& out, Moment printed) {
  const auto sizes = [&](std::string_view name, BlankSizes& into) {
    const std::vector<double> found = lengths_in(page.behind(name));
    if (found.size() >= 3 && into.sawn_mm == 0) into = {found[0], found[1], found[2]};
  };
  sizes("Section", out.section);
  sizes("Length", out.length);
  const Word* takes = page.find("Takes");
  const Word* planned = page.find("Planned");
  if (takes == nullptr || planned == nullptr) return;
  const auto is_person = [&](const Word& word) {
    return word.left >= takes->left - 2 && word.right <= planned->left - 3 &&
           (word.text == "shop" || word.text == "turner");
  };
  // A row is its number at the left; how long it takes stands below who does it, before its bounds.
  for (const Word& word : page.words) {
    if (word.left >= 75 || word.middle() <= takes->bottom || word.text.size() > 3 || std::isnan(number_in(word.text)))
      continue;
    double below_person = word.middle() - 26;  // what stands above is the row before
    for (const Word& person : page.words)
      if (is_person(person) && person.middle() <= word.middle() + 1)
        below_person = std::max(below_person, person.bottom - 1);
    std::string length = page.within(takes->left - 2, below_person, planned->left - 3, word.middle() + 26);
    length = length.substr(0, length.find(';'));
    const std::string name = page.within(word.right, word.middle() - 9, takes->left - 3, word.middle() + 9);
    const double hours = hours_in(length);
    // What is done in several goes says nothing of one of them.
    if (std::isnan(hours) || length.find("×") != std::string::npos) continue;
    out.runs.push_back({name, printed, after(printed, hours)});
  }
}

/// A figure in its box below a caption; boxes are higher where a card has room.
double figure_below(const PrintedPage& page, std::string_view caption, double (*reads)(const std::string&),
                    int nth = 0) {
  for (const double height : {26., 36., 48., 64., 80.})
    if (const double figure = reads(page.below(caption, height, nth)); !std::isnan(figure)) return figure;
  return none;
}

void read_bath_card(const PrintedPage& page, Sheets& out) {
  out.gauge_kPa = figure_below(page, "Vacuum gauge, at least", gauge_in);
  out.soak_least_hours = figure_below(page, "Then soak, at least", hours_in);
  const Word* check = page.find("Soak:");
  if (!std::isnan(out.soak_least_hours) || check == nullptr) return;
  // Where the card has no room for the figure it stands in its line of the checks, over a few lines of a narrow box.
  out.soak_least_hours =
      hours_in(page.within(check->left - 16, check->top - 1, check->left + 85, check->bottom + 34));
}

void read_drying(const PrintedPage& page, Sheets& out) {
  for (const auto& line : page.lines())
    if (const std::string text = joined(line); text.starts_with("Dial ")) out.dial_dry_C = temperature_in(text);
  out.dry_least_hours = hours_in(page.below("Dry for at least", 20));
  out.cool_hours = hours_in(page.below("Cool for", 20));
}

void read_oven_card(const PrintedPage& page, Sheets& out) {
  for (int nth = 0; nth < 3; ++nth) {
    const double dial_C = figure_below(page, "Dial", temperature_in, nth);
    if (!std::isnan(dial_C)) out.dial_cure_C = dial_C;
  }
  for (int nth = 0; page.find("In the oven at least", nth) != nullptr; ++nth) {
    const double least = figure_below(page, "In the oven at least", hours_in, nth);
    if (std::isnan(least)) continue;
    out.oven_least_hours = least;
    ++out.loads;
  }
}

}  // namespace

double tightening_on_card(const PrintedPage& page) { return torque_in(page.below("Tighten to at most", 40)); }

Sheets read_sheets(const std::vector<PrintedPage>& pages, Moment printed) {
  Sheets out;
  for (const PrintedPage& page : pages) {
    const double unit_mm = page.find("Inches") != nullptr ? mm_per_in : 1;
    if (page.find("Turner's sheet") != nullptr) read_turner(page, out, unit_mm);
    if (page.find("Routing") != nullptr || page.find("Routing, continued") != nullptr)
      read_routing(page, out, printed);
    if (page.find("Expected mass,") != nullptr) read_ladder(page, out);
    if (page.find("Before the bath,") != nullptr) read_drying(page, out);
    if (page.find("Vacuum gauge, at least") != nullptr && out.gauge_kPa == 0) read_bath_card(page, out);
    if (page.find("In the oven at least") != nullptr) read_oven_card(page, out);
  }
  return out;
}

std::vector<ListedBlank> listed_blanks(const std::string& csv) {
  std::vector<ListedBlank> out;
  std::vector<std::string> heads;
  for (const std::string& line : lines_of(csv)) {
    std::vector<std::string> cells{""};
    bool quoted = false;
    for (const char c : line) {
      if (c == '"')
        quoted = !quoted;
      else if (c == ',' && !quoted)
        cells.emplace_back();
      else
        cells.back() += c;
    }
    if (heads.empty()) {
      heads = cells;
      continue;
    }
    const auto cell = [&](std::string_view head) -> const std::string& {
      return cells.at(static_cast<std::size_t>(std::ranges::find(heads, head) - heads.begin()));
    };
    const auto number = [&](std::string_view head) { return cell(head).empty() ? 0 : std::stoi(cell(head)); };
    out.push_back({cell("blank"), cell("order"), cell("role"), number("bath"), number("load")});
  }
  return out;
}

}  // namespace simulated

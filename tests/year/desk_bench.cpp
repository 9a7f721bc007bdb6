#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "bench.h"
#include "desk.h"

namespace simulated {
namespace {

/// What the bench asks for, in its order: what is said once stands before the blank, each figure on a line behind it.
struct Asked {
  std::vector<std::string> once, figures;
};

const std::map<std::string, Asked>& asked_at_the_bench() {
  static const std::vector<std::string> sizes = {"width", "depth", "length"};
  static const std::vector<std::string> rod = {"face_1", "face_2", "face_3", "face_4", "lean_1", "lean_2", "over"};
  static const std::map<std::string, Asked> list = {
      {"sawn", {{"board"}, {}}},
      {"measured", {{}, sizes}},
      {"weighed", {{}, {"mass"}}},
      {"into-drying", {{"load"}, {}}},
      {"out-of-drying", {}},
      {"sealed", {}},
      {"opened", {}},
      {"into-bath", {{"bath"}, {}}},
      {"vacuum-on", {{"bath"}, {}}},
      {"bubbling-ended", {{"bath"}, {}}},
      {"released", {{"bath"}, {}}},
      {"out-of-bath", {}},
      {"drained", {}},
      {"into-oven", {{"load"}, {}}},
      {"oven-temperature", {{"load"}, {"temperature"}}},
      {"core-temperature", {{"load", "in_blank"}, {"temperature"}}},
      {"out-of-oven", {}},
      {"witness-cut", {{"filled", "hard"}, {}}},
      {"graded", {{"verdict"}, {}}},
      {"squared", {{}, sizes}},
      {"bored", {{}, rod}},
      {"glued", {}},
      {"stud-measured", {{}, rod}},
      {"turned", {}},
      {"sent", {}},
  };
  return list;
}

/// The lines that somebody types or scans for one entry.
std::vector<std::string> lines_for(const Entry& entry) {
  const Asked& asked = asked_at_the_bench().at(entry.kind);
  std::string first = entry.kind;
  for (const std::string& field : asked.once)
    if (const std::string value = entry.value(field); !value.empty()) first += " " + value;
  if (!entry.blank.empty()) first += " " + entry.blank;
  std::vector<std::string> out{first};
  for (const std::string& field : asked.figures) {
    if (out.size() == 1 && field == asked.figures.front())
      out.front() += " " + entry.value(field);
    else
      out.push_back(entry.value(field));
  }
  return out;
}

}  // namespace

/// At the bench each thing is entered when it is done, and nothing can be added to what it asks for.
bool Desk::can_be_scanned(const std::vector<Entry>& entries) const {
  return std::ranges::all_of(entries, [&](const Entry& entry) {
    const auto asked = asked_at_the_bench().find(entry.kind);
    return asked != asked_at_the_bench().end() && entry.replaces == 0 && entry.override_why.empty() &&
           entry.at >= last_entered_ && date_text(entry.at) == date_text(entries.front().at);
  });
}

/// Enters one after the other until one is refused; what is left is for the terminal.
void Desk::scan(std::vector<Entry>& entries) {
  Bench bench{program_, entries.front().at};
  std::size_t done = 0;
  for (; done < entries.size(); ++done) {
    Entry& entry = entries.at(done);
    std::string answer;
    bool refused = false;
    for (const std::string& line : lines_for(entry)) {
      answer = bench.say(entry.at, line);
      refused = answer.starts_with("NO ") && answer.find(" | entered") == std::string::npos;
      if (refused) break;
    }
    if (refused) break;
    entry.entered = entry.at;
    last_entered_ = entry.at;
    std::vector<std::string>& heard = heard_[entry.subject()];
    heard = parts_of(answer, " | ");
    heard_at_[entry.subject()] = entry.at;
    count_check(entry.subject(), answer);
  }
  scanned_ += static_cast<int>(done);
  number({entries.begin(), entries.begin() + static_cast<std::ptrdiff_t>(done)});
  entries.erase(entries.begin(), entries.begin() + static_cast<std::ptrdiff_t>(done));
}

/// The bench tells no numbers; the day's list has them.
void Desk::number(std::vector<Entry> entries) {
  if (entries.empty()) return;
  const Answer list =
      program_.run(last_entered_, {"ask", "daybook", "--at", date_text(last_entered_), "--as", "csv"});
  std::map<std::string, long> numbers;
  for (const std::string& line : lines_of(list.text)) {
    const std::size_t comma = line.find(',');
    if (line.empty() || line.front() < '0' || line.front() > '9' || line.find("\"no,") != std::string::npos) continue;
    std::size_t end = comma;
    for (int cell = 0; cell < 3; ++cell) end = line.find(',', end + 1);
    numbers[line.substr(comma + 1, end - comma - 1)] = std::stol(line);
  }
  for (Entry& entry : entries) {
    entry.number = numbers[fmt::format("{},{},{}", text(entry.at), entry.blank, entry.kind)];
    remember(entry);
  }
}

}  // namespace simulated

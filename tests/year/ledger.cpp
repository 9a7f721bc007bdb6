#include "ledger.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>

#include "units.h"

namespace simulated {
namespace {

std::string without_dash(const std::string& id) { return id.substr(0, 3) + (id.size() > 4 ? id.substr(4) : ""); }

bool stands(const Entry& entry, const std::string& line) {
  const std::string when = text(entry.at);
  const std::string begin = fmt::format(R"({{"entry":{},"kind":"{}","at":"{}T{}:00{}")", entry.number, entry.kind,
                                        when.substr(0, 10), when.substr(11), offset_text(entry.at));
  if (!line.starts_with(begin)) return false;
  if (!entry.blank.empty() &&
      line.find(fmt::format(R"("blank":"{}")", without_dash(entry.blank))) == std::string::npos)
    return false;
  const std::string mass = entry.value("mass");
  if (mass.empty()) return true;
  const std::size_t at = line.find(R"("mass":)");
  return at != std::string::npos &&
         std::abs(std::strtod(line.c_str() + at + 7, nullptr) * 1000 - mass_g_in(mass)) < 0.001 * mass_g_in(mass);
}

}  // namespace

std::vector<std::string> lost_entries(Program& program, const std::vector<Entry>& taken, Moment now) {
  std::vector<std::string> out;
  const Answer answer = program.run(now, {"export", "exported.jsonl"});
  if (!answer.well()) return {"the register cannot be exported: " + answer.text};
  std::map<long, std::string> lines;
  std::ifstream in{program.folder() / "exported.jsonl"};
  for (std::string line; std::getline(in, line);)
    if (line.starts_with(R"({"entry":)")) lines[std::stol(line.substr(9))] = line;
  for (const Entry& entry : taken)
    if (!stands(entry, lines[entry.number]))
      out.push_back(fmt::format("entry {}, {} {} at {}: the register has {}", entry.number, entry.kind,
                                entry.subject(), text(entry.at), lines[entry.number]));
  return out;
}

}  // namespace simulated

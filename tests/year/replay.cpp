#include "replay.h"

#include <algorithm>
#include <set>

#include "program.h"

namespace simulated {
namespace {

std::vector<std::string> typed(const Entry& entry) {
  std::vector<std::string> out{"enter", entry.kind};
  if (!entry.blank.empty()) out.push_back(entry.blank);
  for (const auto& [field, value] : entry.says) out.push_back(field + "=" + value);
  if (entry.at != entry.entered) {
    out.emplace_back("--at");
    out.push_back(text(entry.at));
  }
  if (entry.replaces > 0) {
    out.emplace_back("--replaces");
    out.push_back(std::to_string(entry.replaces));
  }
  if (!entry.override_why.empty()) {
    out.emplace_back("--override");
    out.push_back(entry.override_why);
  }
  return out;
}

}  // namespace

std::vector<std::string> replay(const std::vector<std::string>& compiled, const std::vector<Entry>& entries,
                                const std::string& blank, Moment asked) {
  std::set<std::string> groups, companions;
  const auto groups_of = [](const Entry& entry) {
    std::set<std::string> out;
    if (const std::string bath = entry.value("bath"); !bath.empty()) out.insert("bath " + bath);
    if (const std::string load = entry.value("load"); !load.empty()) out.insert("load " + load);
    return out;
  };
  for (const Entry& entry : entries)
    if (entry.blank == blank) groups.merge(groups_of(entry));
  for (const Entry& cut : entries) {
    if (cut.kind != "witness-cut") continue;
    const bool shared = std::ranges::any_of(entries, [&](const Entry& entry) {
      return entry.blank == cut.blank &&
             std::ranges::any_of(groups_of(entry), [&](const std::string& name) { return groups.contains(name); });
    });
    if (shared) companions.insert(cut.blank);
  }
  std::vector<std::string> out = compiled;
  for (const Entry& entry : entries) {
    const bool own = entry.blank == blank;
    const bool group = entry.blank.empty() && std::ranges::any_of(groups_of(entry), [&](const std::string& name) {
                         return groups.contains(name);
                       });
    // Of a witness only what puts it into the same bath and load, and what was seen in it.
    const bool witness =
        companions.contains(entry.blank) &&
        (entry.kind == "witness-cut" || entry.kind.starts_with("into-") || entry.kind.starts_with("out-of-"));
    if (own || group || witness) out.push_back("[" + text(entry.entered) + "] " + as_typed(typed(entry)));
  }
  out.push_back("[" + text(asked) + "] " + as_typed({"ask", "blank", blank}));
  return out;
}

}  // namespace simulated

#include <algorithm>

#include "life.h"

namespace simulated {
namespace {

bool is_held(const std::vector<std::string>& lines) {
  return std::ranges::any_of(lines, [](const std::string& line) {
    return line.find("HOLD") != std::string::npos && line.find("against") == std::string::npos;
  });
}

std::string joined_lines(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& line : lines) out += (out.empty() ? "" : " | ") + line;
  return out.empty() ? "nothing" : out;
}

}  // namespace

/// Whoever asks another way has to hear the same: one of them is asked for, and now and then all are looked up on the
/// register's page.
void Life::ask_elsewhere(const Group& group) {
  if (group.empty()) return;
  const Blank& one = *chance_.one_of(group);
  const bool fresh = desk_.has_just_heard(one.id, now_);
  const std::vector<std::string> told = desk_.heard(one.id);
  const std::vector<std::string> asked = desk_.ask(now_, one.id);
  if (fresh) {
    judge_.count("answers held against ask");
    if (is_held(told) != is_held(asked))
      add_wrong("contradiction", one.id, "told " + joined_lines(told) + "; ask says " + joined_lines(asked));
  }
  // With many blanks it costs more than all the rest.
  if (blanks_made_ > 150 || !chance_.yes(0.03)) return;
  const std::map<std::string, bool> page = held_on_page();
  for (const Blank* blank : group) {
    const std::vector<std::string>& lines = desk_.ask(now_, blank->id);
    judge_.count("answers held against the page");
    const auto shown = page.find(blank->id);
    if (shown == page.end() || shown->second != says_hold(lines))
      add_wrong("contradiction", blank->id,
                std::string{"the page says "} +
                    (shown == page.end() ? "nothing"
                     : shown->second     ? "hold"
                                         : "no hold") +
                    "; ask says " + joined_lines(lines));
  }
}

/// What a phone shows in the list of blanks.
std::map<std::string, bool> Life::held_on_page() {
  std::map<std::string, bool> out;
  program_.run(now_, {"page", "--out", "register.html"});
  constexpr std::string_view row = "<li><a class=\"row\" data-id=\"";
  for (const std::string& line : lines_of(file_text(program_.folder() / "register.html"))) {
    if (!line.starts_with(row)) continue;
    const std::string id = line.substr(row.size(), line.find('"', row.size()) - row.size());
    out[id.substr(0, 3) + "-" + id.substr(3)] = line.find("HOLD</strong>") != std::string::npos;
  }
  return out;
}

}  // namespace simulated

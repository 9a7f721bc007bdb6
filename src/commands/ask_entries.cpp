#include <fmt/format.h>

#include "commands/ask_parts.h"
#include "commands/gates.h"
#include "read/entry_text.h"

namespace blankwright {
namespace {

std::string says_in_full(const Asked& asked, const Entry& entry) {
  std::string says = says_text(entry, asked.at.units());
  if (entry.replaces) says += fmt::format("{}replaces entry {}", says.empty() ? "" : ", ", *entry.replaces);
  if (!entry.overridden.empty()) says += fmt::format(", overridden: {}", entry.overridden);
  return says;
}

std::string valid_text(Asked& asked, const Entry& entry) {
  const auto by = asked.at.known.replaced_by(entry.number);
  return by ? fmt::format("no, see {}", *by) : "yes";
}

}  // namespace

Answer history(Asked& asked, Gates& gates, const std::vector<Entry>& entries) {
  Answer answer;
  answer.columns = {"entry", "when", "what", "says", "by", "valid"};
  for (const Entry& entry : entries) {
    std::string says = says_in_full(asked, entry);
    if (const std::string against = gates.against_in_words(entry); !against.empty())
      says += fmt::format(", {}", against);
    answer.rows.push_back({std::to_string(entry.number), asked.when(entry.at), std::string{name_of(entry.kind)}, says,
                           entry.person, valid_text(asked, entry)});
  }
  return answer;
}

/// What was entered on a day, whenever it had happened, so that one that is wrong can be found and replaced.
Answered about_daybook(Asked& asked, std::string&) {
  const Zone& zone = asked.at.zone();
  const Date day = date_of(zone, asked.day);
  const Date next{std::chrono::sys_days{day} + std::chrono::days{1}};
  Answer answer;
  answer.facts = {{"entered on", text(day)}, {"lists", "what was entered that day, whenever it happened"}};
  answer.columns = {"entry", "when", "blank", "what", "says", "by", "valid"};
  for (const Entry& entry : asked.at.known.entered(instant_of(zone, day, {}), instant_of(zone, next, {}))) {
    answer.rows.push_back({std::to_string(entry.number), asked.when(entry.at),
                           entry.blank ? entry.blank->shown() : "", std::string{name_of(entry.kind)},
                           says_in_full(asked, entry), entry.person, valid_text(asked, entry)});
  }
  return answer;
}

}  // namespace blankwright

#include <fmt/format.h>

#include "commands/ask_parts.h"
#include "commands/page_check.h"

namespace blankwright {

/// The pages that were printed of an issue, and which of them still say what the newest issue does.
Answered about_page(Asked& asked, std::string& wrong) {
  const auto code = read_page_code(asked.name);
  if (!code) {
    wrong = fmt::format("\"{}\" is no code of a page; one says order and issue, such as H-0201/2", asked.name);
    return std::nullopt;
  }
  const auto checked = checked_issue(asked.at.known, asked.at.inputs.shop, asked.around, *code, asked.now, wrong);
  if (!checked) return std::nullopt;
  Answer answer;
  answer.facts = {
      {"order", code->order},
      {"issue", fmt::format("{}, printed {}", code->issue, asked.when(checked->asked.made))},
      {"newest issue", fmt::format("{}, printed {}", checked->newest.number, asked.when(checked->newest.made))}};
  answer.columns = {"page", "shows", "still right", "page of the newest issue"};
  for (std::size_t n = 0; n < checked->pages.size(); ++n) {
    const IssuedPage& page = checked->pages.at(n);
    const auto& same = checked->same.at(n);
    answer.rows.push_back({std::to_string(page.number), page.holds,
                           checked->has_old_times.at(n) ? "no: times have moved"
                           : same                       ? "yes"
                           : checked->says_others.at(n) ? "in use, other blanks in the bath: ask bath"
                           : checked->in_use.at(n)      ? "in use"
                                                        : "no",
                           same ? std::to_string(same->number) : std::string{}});
  }
  return answer;
}

}  // namespace blankwright

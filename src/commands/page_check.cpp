#include "commands/page_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "commands/job_files.h"
#include "commands/prints_on_paper.h"

namespace blankwright {

std::optional<PageCode> read_page_code(std::string_view code) {
  const auto stroke = code.rfind('/');
  if (stroke == std::string_view::npos || stroke == 0) return std::nullopt;
  const std::string_view number = code.substr(stroke + 1);
  PageCode out{std::string{code.substr(0, stroke)}, 0};
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), out.issue);
  if (error != std::errc{} || end != number.data() + number.size() || out.issue < 1) return std::nullopt;
  return out;
}

std::vector<IssuedPage> CheckedIssue::wrong() const {
  std::vector<IssuedPage> out;
  for (std::size_t n = 0; n < pages.size(); ++n) {
    if (!same.at(n) && !in_use.at(n)) out.push_back(pages.at(n));
  }
  return out;
}

std::optional<CheckedIssue> checked_issue(Register& known, const Shop& shop, const Surroundings& around,
                                          const PageCode& code, std::string& wrong) {
  const auto asked = known.print_of_order(code.order, code.issue);
  const auto newest = known.print_of_order(code.order);
  if (!newest) {
    wrong = known.no_such(Field::order, code.order);
    return std::nullopt;
  }
  if (!asked) {
    wrong = fmt::format("order {} has no issue {}; its newest is {}", code.order, code.issue, newest->print.number);
    return std::nullopt;
  }
  const std::string& shop_file = shop.source->name;
  const std::string job = job_file_of(around.disk, shop_file, shop, code.order);
  PrintsOnPaper prints{known, shop_file, around};
  const auto pages = prints.handed_out(*asked, job);
  const auto now = prints.pages(*newest, job);
  const bool is_newest = code.issue == newest->print.number;
  if (!is_newest && (!pages || !now)) {
    wrong = fmt::format("order {}: issue {} cannot be laid out as it was; its newest is {}", code.order,
                        pages ? newest->print.number : code.issue, newest->print.number);
    return std::nullopt;
  }
  CheckedIssue out{asked->print, newest->print, {}, {}};
  if (!pages || !now) return out;
  out.pages = *pages;
  for (const IssuedPage& page : *pages) {
    const auto same = std::ranges::find(*now, page.marks, &IssuedPage::marks);
    out.same.push_back(same == now->end() ? std::nullopt : std::optional{*same});
    out.in_use.push_back(same == now->end() && is_in_use(page, *now));
  }
  return out;
}

std::string in_a_line(const CheckedIssue& checked) {
  const std::string code = fmt::format("{}/{}", checked.asked.order_id, checked.asked.number);
  if (checked.asked.number == checked.newest.number) return fmt::format("{} is the newest issue", code);
  const auto wrong = checked.wrong();
  std::string stands = "no longer right: " + page_list(wrong);
  if (wrong.size() == checked.pages.size()) stands = "none of its pages is right any more";
  if (wrong.empty()) stands = "all of its pages are still right";
  return fmt::format("{}: the newest is issue {}; {}", code, checked.newest.number, stands);
}

}  // namespace blankwright

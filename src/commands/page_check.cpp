#include "commands/page_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "commands/inputs.h"
#include "commands/job_files.h"
#include "commands/old_times.h"
#include "commands/open_shop.h"
#include "commands/prints_on_paper.h"

namespace blankwright {
namespace {

/// Which sheets of an order's print show times that have moved; none of an order that is open no more.
std::set<SheetKind> old_sheets(const Shop& shop, const LastPrint& print, Instant now) {
  Diagnostics ignored;
  const OpenShop open = plan_open_shop(place_of_register(shop, shop.source->name), shop, now, ignored);
  const auto order = std::ranges::find(open.planned.orders, print.print.order_id, &PlannedOrder::id);
  const auto before = read_kept_plan(print.plan);
  if (order == open.planned.orders.end() || before.empty()) return {};
  const OrderTimes& times = open.times.at(static_cast<std::size_t>(order - open.planned.orders.begin()));
  return sheets_with_old_times(moved_since(before, times), times, shop.zone.value);
}

/// Is it a page of cards whose blanks have been bathed? What is on the card then is over, or stays.
bool are_bathed(Register& known, const IssuedPage& page) {
  return !page.cards.empty() && std::ranges::all_of(page.cards, [&](const IssuedCard& card) {
    return std::ranges::any_of(card.blanks, [&](const BlankId& id) { return !known.blank(id)->bath.empty(); });
  });
}

}  // namespace

bool shows_old_times(Register& known, const IssuedPage& page, const std::set<SheetKind>& old) {
  const bool shows = std::ranges::any_of(page.sheets, [&](SheetKind kind) { return old.contains(kind); });
  return shows && !are_bathed(known, page);
}

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
    if ((!same.at(n) && !in_use.at(n)) || has_old_times.at(n)) out.push_back(pages.at(n));
  }
  return out;
}

std::optional<CheckedIssue> checked_issue(Register& known, const Shop& shop, const Surroundings& around,
                                          const PageCode& code, Instant now, std::string& wrong) {
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
  const auto laid_out = prints.pages(*newest, job);
  const bool is_newest = code.issue == newest->print.number;
  if (!is_newest && (!pages || !laid_out)) {
    wrong = fmt::format("order {}: issue {} cannot be laid out as it was; its newest is {}", code.order,
                        pages ? newest->print.number : code.issue, newest->print.number);
    return std::nullopt;
  }
  CheckedIssue out{asked->print, newest->print, {}, {}};
  if (!pages || !laid_out) return out;
  const std::set<SheetKind> old = old_sheets(shop, *newest, now);
  out.pages = *pages;
  for (const IssuedPage& page : *pages) {
    const auto same = std::ranges::find(*laid_out, page.marks, &IssuedPage::marks);
    out.same.push_back(same == laid_out->end() ? std::nullopt : std::optional{*same});
    out.in_use.push_back(same == laid_out->end() && is_in_use(page, *laid_out));
    out.says_others.push_back(out.in_use.back() && says_other_blanks(page, *laid_out));
    out.has_old_times.push_back(shows_old_times(known, page, old));
  }
  return out;
}

std::string in_a_line(const CheckedIssue& checked) {
  const std::string code = fmt::format("{}/{}", checked.asked.order_id, checked.asked.number);
  const auto wrong = checked.wrong();
  if (checked.asked.number == checked.newest.number) {
    return fmt::format("{} is the newest issue{}", code,
                       wrong.empty() ? "" : "; times have moved on " + page_list(wrong));
  }
  std::string stands = "no longer right: " + page_list(wrong);
  if (wrong.size() == checked.pages.size()) stands = "none of its pages is right any more";
  if (wrong.empty()) stands = "all of its pages are still right";
  return fmt::format("{}: the newest is issue {}; {}", code, checked.newest.number, stands);
}

}  // namespace blankwright

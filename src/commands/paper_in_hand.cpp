#include "commands/paper_in_hand.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include "commands/output.h"
#include "sheet/sheet/part_asked.h"
#include "write/pdf_content.h"

namespace blankwright {
namespace {

std::string marks_of(const Page& page) {
  UsedCharacters characters;
  UsedImages images;
  std::string marks = pdf_content(page, characters, images);
  for (const auto& picture : images.all()) {
    marks += fmt::format("{}x{}", picture->width, picture->height);
    marks.append(picture->grey.begin(), picture->grey.end());
  }
  return marks;
}

std::vector<IssuedCard> cards_of(const TravellerPage& sheet, const std::vector<BlankId>& of_order) {
  std::vector<IssuedCard> cards;
  const auto is_others = [&](const BlankId& id) { return std::ranges::find(of_order, id) == of_order.end(); };
  for (const PartOnPage& part : sheet.parts) {
    if (part.number == 0 || part.names.empty()) return {};
    cards.push_back({part.kind, part.names.front(), part.blanks});
    std::erase_if(cards.back().blanks, is_others);
  }
  return cards;
}

std::set<SheetKind> kinds_of(const TravellerPage& sheet) {
  std::set<SheetKind> kinds;
  for (const PartOnPage& part : sheet.parts) kinds.insert(part.kind);
  return kinds;
}

std::map<BlankId, BathedThen> bathed_blanks(const Dossier& d) {
  std::map<BlankId, BathedThen> out;
  for (const auto& [id, state] : d.seen) {
    const bool is_wet = state.stage == Stage::in_bath || state.stage == Stage::wet || state.stage == Stage::in_oven;
    if (!state.bath.empty()) out.emplace(id, BathedThen{state.bath, is_wet});
  }
  return out;
}

/// The order's blanks on a card lie, or lay, in one bath; on a bath's card all of those that do.
bool is_as_bathed(const IssuedCard& card, const std::map<BlankId, BathedThen>& bathed) {
  std::set<std::string> baths;
  for (const BlankId& id : card.blanks) {
    const auto found = bathed.find(id);
    baths.insert(found == bathed.end() ? std::string{} : found->second.bath);
  }
  if (baths.size() != 1) return false;
  return card.kind != SheetKind::bath || std::ranges::all_of(bathed, [&](const auto& one) {
           return one.second.bath != *baths.begin() || std::ranges::find(card.blanks, one.first) != card.blanks.end();
         });
}

}  // namespace

bool is_in_use(const IssuedPage& page, const std::vector<IssuedPage>& issue) {
  if (page.cards.empty() || issue.empty()) return false;
  return std::ranges::all_of(page.cards, [&](const IssuedCard& card) {
    const auto has_it = [&](const IssuedPage& other) {
      return std::ranges::find(other.cards, card.name, &IssuedCard::name) != other.cards.end();
    };
    const auto is_bathed = [&](const BlankId& id) { return issue.front().bathed.contains(id); };
    return 2 * std::ranges::count_if(card.blanks, is_bathed) >= std::ssize(card.blanks) &&
           std::ranges::none_of(issue, has_it);
  });
}

bool says_other_blanks(const IssuedPage& page, const std::vector<IssuedPage>& issue) {
  if (!is_in_use(page, issue)) return false;
  const auto& bathed = issue.front().bathed;
  const auto is_wet = [&](const BlankId& id) { return bathed.contains(id) && bathed.at(id).is_wet; };
  return std::ranges::any_of(page.cards, [&](const IssuedCard& card) {
    return std::ranges::any_of(card.blanks, is_wet) && !is_as_bathed(card, bathed);
  });
}

PagesOfIssue pages_of_issue(Dossier d) {
  const int issue = d.issue;
  // What is on every page of an issue is no difference between two of them.
  d.at = {};
  d.issue = 1;
  PagesOfIssue out{traveller_sheets(d, sheet_fonts().metrics), {}};
  const auto bathed = bathed_blanks(d);
  int number = 0;
  for (const TravellerPage& sheet : out.sheets) {
    const bool is_empty = sheet.page.items.empty();
    out.pages.push_back({issue, is_empty ? 0 : ++number, holds_text(sheet, d.sheet_template.words),
                         is_empty ? std::string{} : marks_of(sheet.page), cards_of(sheet, d.blanks), bathed,
                         kinds_of(sheet)});
  }
  return out;
}

bool ComparedPages::is_all_in_hand() const {
  return wrong.empty() && std::ranges::find(in_hand, false) == in_hand.end();
}

ComparedPages compared(const std::vector<IssuedPage>& in_hand, const std::vector<IssuedPage>& issue) {
  ComparedPages out{{}, {}, {}, in_hand};
  for (const IssuedPage& page : issue) {
    const auto same = std::ranges::find(out.wrong, page.marks, &IssuedPage::marks);
    const bool is_there = page.number == 0 || same != out.wrong.end();
    out.in_hand.push_back(is_there);
    if (page.number == 0 || !is_there) continue;
    out.right.push_back(*same);
    out.wrong.erase(same);
  }
  const auto stays = [&](const IssuedPage& page) { return is_in_use(page, issue); };
  std::ranges::copy_if(out.wrong, std::back_inserter(out.in_use), stays);
  std::erase_if(out.wrong, stays);
  return out;
}

void add_printed(std::vector<IssuedPage>& in_hand, std::vector<IssuedPage> printed) {
  std::erase_if(in_hand, [&](const IssuedPage& old) {
    return std::ranges::find(printed, old.holds, &IssuedPage::holds) != printed.end();
  });
  std::ranges::move(printed, std::back_inserter(in_hand));
}

std::string page_list(const std::vector<IssuedPage>& pages) {
  std::string out;
  for (std::size_t n = 0; n < pages.size();) {
    std::size_t last = n;
    while (last + 1 < pages.size() && pages.at(last + 1).holds == pages.at(n).holds &&
           pages.at(last + 1).number == pages.at(last).number + 1) {
      ++last;
    }
    const int from = pages.at(n).number, to = pages.at(last).number;
    out += fmt::format("{}{}{} ({})", out.empty() ? "" : ", ", from, from == to ? "" : fmt::format("-{}", to),
                       pages.at(n).holds);
    n = last + 1;
  }
  return out;
}

std::string page_list_by_issue(const std::vector<IssuedPage>& pages) {
  std::map<int, std::vector<IssuedPage>> issues;
  for (const IssuedPage& page : pages) issues[page.issue].push_back(page);
  std::string out;
  for (auto& [issue, some] : issues) {
    std::ranges::sort(some, {}, &IssuedPage::number);
    out += fmt::format("{}issue {}: {}", out.empty() ? "" : "; ", issue, page_list(some));
  }
  return out;
}

}  // namespace blankwright

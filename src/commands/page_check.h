#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "commands/paper_in_hand.h"
#include "commands/surroundings.h"
#include "read/shop.h"
#include "register/register.h"

namespace blankwright {

/// An order and the number of an issue, as the code on each page of it says them: "TA-0147/2".
struct PageCode {
  std::string order;
  int issue = 1;
};
/// None where it is no such code. An order's id has no stroke in it.
std::optional<PageCode> read_page_code(std::string_view code);

/// Does a page show times of sheets on which they have moved? Not where its cards' blanks have been bathed.
bool shows_old_times(Register& known, const IssuedPage& page, const std::set<SheetKind>& old);

/// An issue that somebody has pages of, held against the newest one and against the plan as it is now.
struct CheckedIssue {
  Print asked, newest;
  std::vector<IssuedPage> pages;                ///< that were printed of the one that was asked about
  std::vector<std::optional<IssuedPage>> same;  ///< of each: the page of the newest issue that says the same
  std::vector<bool> in_use{};                   ///< of each: a card whose blanks are in the bath or were
  std::vector<bool> says_others{};              ///< of each: such a card, with other blanks than lie in the bath
  std::vector<bool> has_old_times{};            ///< of each: it shows times that have moved since the newest issue
  std::vector<IssuedPage> wrong() const;        ///< with old times, or not in use and not in the newest issue
};
/// None, with a word in `wrong`, where there is no such issue, or it cannot be laid out as it was.
std::optional<CheckedIssue> checked_issue(Register& known, const Shop& shop, const Surroundings& around,
                                          const PageCode& code, Instant now, std::string& wrong);

/// "TA-0147/2: the newest is issue 3; no longer right: 1 (Routing)", "TA-0147/3 is the newest issue; times have moved
/// on 1 (Routing)".
std::string in_a_line(const CheckedIssue& checked);

}  // namespace blankwright

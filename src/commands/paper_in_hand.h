#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "entries/blank_id.h"
#include "sheet/sheet/traveller.h"

namespace blankwright {

/// A bath's or a load's card on a page.
struct IssuedCard {
  SheetKind kind{};
  std::string name;             ///< as entries name the bath or the load
  std::vector<BlankId> blanks;  ///< of the order
};

/// Where a blank had been when an issue was made.
struct BathedThen {
  std::string bath;  ///< that it was in last
  bool is_wet = false;
};

/// A page of an issue of a traveller.
struct IssuedPage {
  int issue = 1;
  int number = 0;                   ///< as its foot says; 0 of an empty side
  std::string holds;                ///< "Cutting plan, List of blanks"
  std::string marks;                ///< all that stands on it, but issue, moment and foot: equal ones say the same
  std::vector<IssuedCard> cards{};  ///< where it holds nothing else
  std::map<BlankId, BathedThen> bathed{};  ///< of the order's blanks those that had been in a bath
  std::set<SheetKind> sheets{};            ///< what kinds of sheet it holds
};

/// Is it a page of cards of which at least half the blanks have gone into a bath, and of which the issue has none any
/// more? What its people go by then is that page.
bool is_in_use(const IssuedPage& page, const std::vector<IssuedPage>& issue);

/// Do other blanks of the order lie in its bath, or are wet from it, than a page of cards in use says?
bool says_other_blanks(const IssuedPage& page, const std::vector<IssuedPage>& issue);

/// What of an order's paper was printed last, page by page.
struct PaperInHand {
  std::optional<int> print;       ///< the newest; none where the order was never printed
  bool is_known = true;           ///< not where a print of before cannot be laid out as it was
  std::vector<IssuedPage> pages;  ///< of different issues, where only a part was printed again
  std::vector<BlankId> tagged;    ///< blanks that have their tags
  bool is_right = false;          ///< all that is looked at for what changed says what it would now
  bool can_be_compared() const { return print && is_known; }
};

/// All pages of the issue that a dossier makes, empty sides among them, as they can be compared with another's.
struct PagesOfIssue {
  std::vector<TravellerPage> sheets;
  std::vector<IssuedPage> pages;  ///< of each
};
PagesOfIssue pages_of_issue(Dossier dossier);

/// How the pages of an issue stand against those in hand.
struct ComparedPages {
  std::vector<bool> in_hand;      ///< of each of the issue: one that says the same is there
  std::vector<IssuedPage> right;  ///< those in hand that say what the issue does
  std::vector<IssuedPage> in_use;
  std::vector<IssuedPage> wrong;  ///< the others in hand
  bool is_all_in_hand() const;
};
ComparedPages compared(const std::vector<IssuedPage>& in_hand, const std::vector<IssuedPage>& issue);

/// Puts pages that were printed among those in hand: they take the places of those that hold the same.
void add_printed(std::vector<IssuedPage>& in_hand, std::vector<IssuedPage> printed);

/// "1 (Routing), 5-8 (Targets)", of one issue.
std::string page_list(const std::vector<IssuedPage>& pages);
/// The same of several: "issue 1: 1 (Routing); issue 2: 5-8 (Targets)".
std::string page_list_by_issue(const std::vector<IssuedPage>& pages);

}  // namespace blankwright

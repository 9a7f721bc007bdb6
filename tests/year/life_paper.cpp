#include <cmath>
#include <set>

#include "life.h"

namespace simulated {
namespace {

/// The IDs that stand on pages, as people read them: K7T-4X54.
std::set<std::string> ids_on(const std::vector<PrintedPage>& pages) {
  std::set<std::string> out;
  for (const PrintedPage& page : pages)
    for (const Word& word : page.words)
      if (word.text.size() == 8 && word.text[3] == '-' &&
          word.text.find_first_not_of("-0123456789ABCDEFGHJKLMNPQRSTUVWXYZ") == std::string::npos)
        out.insert(word.text);
  return out;
}

}  // namespace

/// Each blank of the list has its tag, and nothing else has one.
void Life::judge_tags(const Order& order) {
  const std::set<std::string> printed =
      ids_on(printed_pages(program_.paper(program_.folder() / "sheets" / order.id / "tags.pdf")));
  std::set<std::string> listed;
  for (const Blank& blank : blanks_)
    if (blank.order == order.id) listed.insert(blank.id);
  judge_.count("tags read", static_cast<int>(printed.size()));
  if (printed != listed)
    add_wrong("sheet", order.id, std::to_string(printed.size()) + " tags for " + std::to_string(listed.size()));
}

/// The client's record: a card for each piece that was sent, and the tightening that its turner's sheet has.
void Life::judge_cards(const Order& order) {
  std::set<std::string> sent;
  for (const Blank& blank : blanks_) {
    if (blank.order != order.id || !blank.sent) continue;
    if (desk_.evidence({blank.id}, {"sent"}) != Evidence::right) return;  // the register may not know of it yet
    sent.insert(blank.id);
  }
  if (sent.empty()) return;
  if (const Answer answer = program_.run(now_, {"cards", order.id}); !answer.well())
    return add_wrong("sheet", order.id, answer.text);
  const std::vector<PrintedPage> pages =
      printed_pages(program_.paper(program_.folder() / "sheets" / order.id / "cards.pdf"));
  judge_.count("cards read", static_cast<int>(sent.size()));
  if (ids_on(pages) != sent)
    add_wrong("sheet", order.id,
              std::to_string(ids_on(pages).size()) + " cards for " + std::to_string(sent.size()) + " pieces sent");
  const double most_Nm = sheets_.at(order.id).tighten_most_Nm;
  for (const PrintedPage& page : pages) {
    const double card_Nm = tightening_on_card(page);
    if (!std::isnan(most_Nm) && !std::isnan(card_Nm) && card_Nm > most_Nm * 1.02)
      return add_wrong("sheet", order.id,
                       "the card lets tighten to " + std::to_string(card_Nm) + " N m, the turner's sheet to " +
                           std::to_string(most_Nm));
  }
}

}  // namespace simulated

#include "commands/chosen_paper.h"

#include <fmt/format.h>

#include <algorithm>

#include "commands/output.h"
#include "measure/utf8.h"
#include "sheet/sheet/part_asked.h"

namespace blankwright {
namespace {

/// "Bath card 1" as a part of a file's name: "bath-card-1".
std::string in_file_name(const std::string& what) {
  std::string out;
  for (const char c : ascii_lower(what)) {
    const bool is_plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '_';
    if (is_plain) out += c;
    if (c == ' ') out += '-';
  }
  return out;
}

std::string line(std::string_view what, const std::string& pages) {
  return pages.empty() ? std::string{} : fmt::format("  {}: {}\n", what, pages);
}

std::string cannot_be_laid_out(const PaperInHand& in_hand) {
  return fmt::format("  issue {} cannot be laid out as it was: which of its pages are right is not known\n",
                     *in_hand.print);
}

/// The pages of an issue for which `is_it` holds, by their places; without empty sides.
template <class Is>
std::vector<IssuedPage> some(const std::vector<IssuedPage>& issue, Is is_it) {
  std::vector<IssuedPage> out;
  for (std::size_t n = 0; n < issue.size(); ++n) {
    if (issue.at(n).number != 0 && is_it(n)) out.push_back(issue.at(n));
  }
  return out;
}

int without_tag(const Dossier& d, const PaperInHand& in_hand) {
  return static_cast<int>(std::ranges::count_if(
      d.blanks, [&](const BlankId& id) { return std::ranges::find(in_hand.tagged, id) == in_hand.tagged.end(); }));
}

std::string told_of_tags(const Dossier& d, const CompileFlags& flags, const PaperInHand& in_hand) {
  if (d.draft || (wants(flags, "tags") && !flags.changed)) return {};
  const int without = without_tag(d, in_hand);
  if (without == 0) return line("left out", "tags, since every blank has one");
  const std::string of_new = counted(without, "blank") + " without one";
  return wants(flags, "tags") ? line("tags", "of " + of_new) : line("left out", "tags, of " + of_new);
}

/// Cards that are in use, with other blanks than lie in their bath.
std::string told_of_other_blanks(const ComparedPages& how, const std::vector<IssuedPage>& issue) {
  std::vector<IssuedPage> pages = how.in_use;
  std::erase_if(pages, [&](const IssuedPage& page) { return !says_other_blanks(page, issue); });
  return line("correct the blanks by hand, as `ask bath` has them", page_list_by_issue(pages));
}

/// Which of the pages of before the issue takes the place of, since they say something else.
std::string told_of_wrong(const Dossier& d, const PaperInHand& in_hand) {
  if (!in_hand.print) return {};
  if (!in_hand.is_known) return cannot_be_laid_out(in_hand);
  const std::vector<IssuedPage> issue = pages_of_issue(d).pages;
  const ComparedPages how = compared(in_hand.pages, issue);
  return line("throw away", page_list_by_issue(how.wrong)) + told_of_other_blanks(how, issue);
}

std::string told_of_pages(const Dossier& d, const PagesOfIssue& issue, const std::vector<bool>& wanted,
                          const PaperInHand& in_hand) {
  const ComparedPages how = compared(in_hand.pages, issue.pages);
  const auto left_out = [&](bool is_there) {
    return some(issue.pages, [&](std::size_t n) { return !wanted.at(n) && how.in_hand.at(n) == is_there; });
  };
  const std::string printed = page_list(some(issue.pages, [&](std::size_t n) { return wanted.at(n); }));
  if (d.draft) return line("pages", printed) + line("left out", page_list(left_out(false)));
  std::vector<IssuedPage> still_right = how.in_use;
  std::erase_if(still_right, [&](const IssuedPage& page) { return says_other_blanks(page, issue.pages); });
  for (const IssuedPage& page : how.right) {
    const auto at = std::ranges::find(issue.pages, page.marks, &IssuedPage::marks) - issue.pages.begin();
    if (!wanted.at(static_cast<std::size_t>(at))) still_right.push_back(page);
  }
  return line(fmt::format("pages of issue {}", d.issue), printed.empty() ? "none" : printed) +
         line("keep", page_list_by_issue(still_right)) +
         line("left out, though changed", page_list(left_out(false))) +
         line("throw away", page_list_by_issue(how.wrong)) + told_of_other_blanks(how, issue.pages) +
         (in_hand.is_known ? "" : cannot_be_laid_out(in_hand));
}

}  // namespace

ChosenPaper chosen_paper(const Dossier& d, const CompileFlags& flags, const PaperInHand* in_hand) {
  ChosenPaper out;
  if (wants(flags, "traveller")) out.sheets = traveller_sheets(d, sheet_fonts().metrics);
  if (in_hand == nullptr) return out;
  if (!flags.changed && flags.pages.empty()) {
    out.told = told_of_wrong(d, *in_hand);
    return out;
  }
  if (flags.changed && !in_hand->can_be_compared()) {
    out.told = in_hand->print ? cannot_be_laid_out(*in_hand) : "  all pages: nothing was printed before\n";
    return out;
  }
  if (flags.changed) {
    out.tagged = in_hand->tagged;
    out.tags = without_tag(d, *in_hand) == 0 ? "" : "tags-new";
  }
  if (!out.sheets.empty()) {
    const PagesOfIssue issue = pages_of_issue(d);
    if (flags.changed) {
      out.traveller += "-changed";
      out.pages = compared(in_hand->pages, issue.pages).in_hand;
      out.pages->flip();
    } else {
      out.traveller += "-" + in_file_name(flags.pages);
      out.pages = pages_asked(out.sheets, flags.pages, d.sheet_template.words);
    }
    out.told = told_of_pages(d, issue, *out.pages, *in_hand);
  }
  out.told += told_of_tags(d, flags, *in_hand);
  return out;
}

bool is_in_hand(const Dossier& d, const CompileFlags& flags, const PaperInHand& in_hand) {
  if (d.draft || !in_hand.can_be_compared()) return false;
  if (wants(flags, "tags") && without_tag(d, in_hand) > 0) return false;
  return !wants(flags, "traveller") || compared(in_hand.pages, pages_of_issue(d).pages).is_all_in_hand();
}

}  // namespace blankwright

#include "commands/prints_on_paper.h"

#include <algorithm>
#include <utility>

#include "commands/again.h"
#include "commands/calendars.h"
#include "commands/inputs.h"
#include "commands/order_on_paper.h"
#include "commands/paper_record.h"
#include "sheet/sheet/part_asked.h"

namespace blankwright {
namespace {

std::vector<BlankId> issued_by(const RegisterContents& contents, const std::string& order, EntryNumber last) {
  std::vector<BlankId> out;
  for (const Entry& entry : contents.entries) {
    if (entry.kind == EntryKind::issued && entry.number <= last && entry.text(Field::order) == order)
      out.push_back(*entry.blank);
  }
  return out;
}

/// A print of a chain, and what of it went on paper.
struct PrintOfChain {
  LastPrint print;
  PaperRecord record;
};

/// The prints since the last one of the whole traveller, that one first.
std::vector<PrintOfChain> chain_of(Register& known, const LastPrint& newest) {
  std::vector<PrintOfChain> chain;
  for (int number = newest.print.number; number >= 1; --number) {
    auto print = number == newest.print.number ? newest : known.print_of_order(newest.print.order_id, number);
    if (!print) break;
    PaperRecord record = read_record(print->plan);
    const bool is_whole = record.pages == PaperRecord::all;
    chain.push_back({std::move(*print), std::move(record)});
    if (is_whole) break;
  }
  std::ranges::reverse(chain);
  return chain;
}

/// The newest print that printed tags: those of all blanks that were issued by then.
std::vector<BlankId> tagged_by(Register& known, const RegisterContents& contents, const LastPrint& newest) {
  const std::string& order = newest.print.order_id;
  for (int number = newest.print.number; number >= 1; --number) {
    const auto print = known.print_of_order(order, number);
    if (print && read_record(print->plan).tags) return issued_by(contents, order, print->print.last_entry);
  }
  return {};
}

/// Puts what a print of changed pages was to those in hand before.
void add_changed(std::vector<IssuedPage>& in_hand, const std::vector<IssuedPage>& issue) {
  const ComparedPages how = compared(in_hand, issue);
  in_hand = how.right;
  in_hand.insert(in_hand.end(), how.in_use.begin(), how.in_use.end());
  for (std::size_t n = 0; n < issue.size(); ++n) {
    if (!how.in_hand.at(n)) in_hand.push_back(issue.at(n));
  }
}

}  // namespace

std::map<std::string, std::string> job_files_of(const ReadRun& read, const PlannedTogether& planned) {
  std::map<std::string, std::string> files;
  for (const PlannedOrder& order : planned.own()) files.emplace(order.id, read.jobs.at(*order.job).file);
  return files;
}

struct PrintsOnPaper::RunThen {
  std::vector<PrintOfJob> prints;
  std::optional<PrintedRun> run;  ///< none where its texts cannot be read any more
  std::optional<PlannedTogether> planned;
  std::vector<IssuedOrder> issued;
  std::vector<IssuedTo> to_bathe;
};

PrintsOnPaper::PrintsOnPaper(Register& known, std::string shop_file, const Surroundings& around,
                             std::map<std::string, std::string> job_files)
    : known_{known},
      shop_file_{std::move(shop_file)},
      around_{around},
      job_files_{std::move(job_files)},
      contents_{known.contents()} {}

PrintsOnPaper::~PrintsOnPaper() = default;

const PrintsOnPaper::RunThen* PrintsOnPaper::run_then(const LastPrint& print, const std::string& job_file) {
  const auto is_it = [&](const PrintOfJob& one) {
    return one.print.print.order_id == print.print.order_id && one.print.print.number == print.print.number;
  };
  for (const auto& known : runs_) {
    if (std::ranges::any_of(known->prints, is_it)) return known->run ? known.get() : nullptr;
  }
  auto then = std::make_unique<RunThen>();
  then->prints.push_back({print, job_file});
  for (const Print& other : contents_.prints) {
    const bool is_of_run =
        other.made == print.print.made && other.at == print.print.at && other.last_entry == print.print.last_entry;
    const auto file = job_files_.find(other.order_id);
    if (!is_of_run || other.order_id == print.print.order_id || file == job_files_.end()) continue;
    if (auto beside = known_.print_of_order(other.order_id, other.number))
      then->prints.push_back({std::move(*beside), file->second});
  }
  CompileFlags flags;
  flags.only = {"traveller"};
  flags.threads = 1;
  Diagnostics ignored;
  then->run = run_of_prints({flags, {}}, then->prints, contents_, shop_file_, around_, ignored);
  if (then->run) {
    then->planned = planned_as_printed(*then->run, ignored);
    then->issued = issued_as_printed(*then->run, *then->planned);
    then->to_bathe = blanks_to_bathe(then->run->read, *then->planned, blanks_of(then->issued));
    then->run->then.reset();
  }
  runs_.push_back(std::move(then));
  return runs_.back()->run ? runs_.back().get() : nullptr;
}

std::optional<std::vector<IssuedPage>> PrintsOnPaper::pages(const LastPrint& print, const std::string& job_file,
                                                            const std::string& what) {
  if (print.print.program_version != program_version()) return std::nullopt;  // it may have computed otherwise
  const RunThen* then = run_then(print, job_file);
  if (then == nullptr) return std::nullopt;
  const auto of_run = then->planned->own();
  const auto place = std::ranges::find(of_run, print.print.order_id, &PlannedOrder::id);
  if (place == of_run.end()) return std::nullopt;
  const auto number = static_cast<std::size_t>(place - of_run.begin());
  const auto on_paper =
      order_on_paper({then->run->read, *then->planned, number, then->issued.at(number)}, then->to_bathe);
  if (on_paper == nullptr) return std::nullopt;
  PagesOfIssue issue = pages_of_issue(on_paper->dossier());
  const auto asked = pages_asked(issue.sheets, what, on_paper->dossier().sheet_template.words);
  std::vector<IssuedPage> out;
  for (std::size_t n = 0; n < issue.pages.size(); ++n) {
    if (issue.pages.at(n).number != 0 && (what.empty() || asked.at(n))) out.push_back(std::move(issue.pages.at(n)));
  }
  return out;
}

std::optional<std::vector<IssuedPage>> PrintsOnPaper::handed_out(const LastPrint& print,
                                                                 const std::string& job_file) {
  const PaperRecord record = read_record(print.plan);
  if (record.pages == PaperRecord::none) return std::vector<IssuedPage>{};
  auto out = pages(print, job_file, record.is_part() ? record.pages : std::string{});
  if (!out || record.pages != PaperRecord::changed) return out;
  const PaperInHand before = in_hand(print.print.order_id, job_file, print.print.number);
  std::erase_if(*out, [&](const IssuedPage& page) {
    return std::ranges::find(before.pages, page.marks, &IssuedPage::marks) != before.pages.end();
  });
  return out;
}

PaperInHand PrintsOnPaper::in_hand(const std::string& order, const std::string& job_file, std::optional<int> before) {
  PaperInHand out;
  const auto newest = known_.print_of_order(order, before ? std::optional{*before - 1} : std::nullopt);
  if (!newest) return out;
  out.print = newest->print.number;
  out.tagged = tagged_by(known_, contents_, *newest);
  for (const PrintOfChain& link : chain_of(known_, *newest)) {
    const std::string& what = link.record.pages;
    if (what == PaperRecord::none) continue;
    auto printed = pages(link.print, job_file, link.record.is_part() ? what : std::string{});
    if (!printed) return {out.print, false, {}, {}};
    if (what == PaperRecord::changed) {
      add_changed(out.pages, *printed);
    } else {
      add_printed(out.pages, std::move(*printed));
    }
  }
  return out;
}

}  // namespace blankwright

#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "commands/paper_in_hand.h"
#include "commands/surroundings.h"
#include "register/register.h"

namespace blankwright {

struct ReadRun;
struct PlannedTogether;

/// The job files of a run's orders, by their ids.
std::map<std::string, std::string> job_files_of(const ReadRun& read, const PlannedTogether& planned);

/// Prints of before, laid out again from what the register has of them.
class PrintsOnPaper {
 public:
  /// All outlive this. `shop_file`: beside it lie the templates that it names. `job_files`: those of the orders, by
  /// their ids, whose prints are asked for one after the other; prints of one run are planned once then.
  PrintsOnPaper(Register& known, std::string shop_file, const Surroundings& around,
                std::map<std::string, std::string> job_files = {});
  ~PrintsOnPaper();
  PrintsOnPaper(const PrintsOnPaper&) = delete;
  PrintsOnPaper& operator=(const PrintsOnPaper&) = delete;

  /// What of an order's paper was printed last; with `before`, before that print of it. `job_file`: the name of its
  /// job's file, beside which a template of its own lies.
  PaperInHand in_hand(const std::string& order, const std::string& job_file, std::optional<int> before = {});
  /// The pages that went on paper with a print; none as with pages().
  std::optional<std::vector<IssuedPage>> handed_out(const LastPrint& print, const std::string& job_file);
  /// All pages of a print, without empty sides; with `what` those that were asked for so. None where its texts cannot
  /// be read any more, or another version made it, which may have computed otherwise.
  std::optional<std::vector<IssuedPage>> pages(const LastPrint& print, const std::string& job_file,
                                               const std::string& what = {});

 private:
  /// A run of before, planned as it was.
  struct RunThen;
  /// None where its texts cannot be read any more.
  const RunThen* run_then(const LastPrint& print, const std::string& job_file);

  Register& known_;
  std::string shop_file_;
  const Surroundings& around_;
  std::map<std::string, std::string> job_files_;
  RegisterContents contents_;
  std::vector<std::unique_ptr<const RunThen>> runs_;
};

}  // namespace blankwright

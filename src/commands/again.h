#pragma once

#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "commands/compile_steps.h"
#include "register/register.h"

namespace blankwright {

/// The register as it was when something was printed, in a file of its own that goes with it.
class RegisterOfThen {
 public:
  /// Throws WorldError where the file cannot be made.
  RegisterOfThen(const RegisterContents& contents, Instant now);
  ~RegisterOfThen();
  RegisterOfThen(const RegisterOfThen&) = delete;
  RegisterOfThen& operator=(const RegisterOfThen&) = delete;
  std::string file() const { return folder_ + "/then.register"; }

 private:
  void remove() const;
  std::string folder_;
};

/// What a print was made from: everything that a compile needs to make it again.
struct PrintedRun {
  ReadRun read;
  std::vector<int> numbers;        ///< of each job's print
  Instant at;                      ///< the moment that it was planned from
  std::set<std::string> with;      ///< the orders that were printed in that run
  std::set<std::string> were_new;  ///< those of them that had no blanks before
  std::unique_ptr<RegisterOfThen> then;
};

/// A print, and the name of its job's file.
struct PrintOfJob {
  LastPrint print;
  std::string job_file;
};

/// The run that made these prints, one at least, from what the register holds now. What is wrong with the texts of
/// then is told; then there is none.
std::optional<PrintedRun> run_of_prints(const Wanted& wanted, std::span<const PrintOfJob> prints,
                                        const RegisterContents& now, const std::string& shop_file,
                                        const Surroundings& around, Diagnostics& out);

/// Finds the print that is asked for of the one job's order, the newest where no number is asked for. What is in the
/// way is told; then there is none.
std::optional<PrintedRun> printed_run(const Wanted& wanted, const std::string& shop_file, Surroundings& around,
                                      Diagnostics& out);

/// What was planned in that run, the orders of its jobs first.
PlannedTogether planned_as_printed(const PrintedRun& run, Diagnostics& out);
/// What it had issued: the orders' blanks, under the prints' numbers.
std::vector<IssuedOrder> issued_as_printed(const PrintedRun& run, const PlannedTogether& planned);

}  // namespace blankwright

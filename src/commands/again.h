#pragma once

#include <memory>
#include <optional>
#include <set>
#include <string>

#include "commands/compile_steps.h"

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
  int number = 1;                  ///< of the print
  Instant at;                      ///< the moment that it was planned from
  std::set<std::string> with;      ///< the orders that were printed in that run
  std::set<std::string> were_new;  ///< those of them that had no blanks before
  std::unique_ptr<RegisterOfThen> then;
};

/// Finds the print that is asked for of the one job's order, the newest where no number is asked for. What is in the
/// way is told; then there is none.
std::optional<PrintedRun> printed_run(const Wanted& wanted, const std::string& shop_file, Surroundings& around,
                                      Diagnostics& out);

}  // namespace blankwright

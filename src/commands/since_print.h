#pragma once

#include <set>
#include <string>
#include <vector>

#include "commands/compile_steps.h"
#include "register/register.h"

namespace blankwright {

/// Which of the texts that a job is compiled from are not those of a print: "the job file", "the shop file".
std::vector<std::string> changed_texts(const LastPrint& print, const ReadRun& read, std::size_t job);

/// What entries name that belongs to an order: its blanks, the baths and loads that these were in, its boards.
struct OwnThings {
  std::string order;
  std::set<BlankId> blanks;
  std::set<std::string> baths, loads, boards;
  bool are_of(const Entry& entry) const;
};
/// `job`: null where the order is not of the run.
OwnThings own_things(Register& known, const std::string& order, const Order* job);

}  // namespace blankwright

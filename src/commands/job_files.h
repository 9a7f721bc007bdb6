#pragma once

#include <string>
#include <vector>

#include "commands/inputs.h"
#include "entries/entry.h"

namespace blankwright {

/// The job files of the shop's open orders, and what may be one: a file that is no TOML or too large, or a job
/// without an id. To compile it tells what is wrong with it.
struct OpenJobs {
  std::vector<std::string> files;
  std::vector<std::string> told;  ///< lines about orders without a file, and about files of orders never compiled
};

/// Looks for the job files of all orders that are open in the register, in the folder that the shop file names for
/// them, or beside it. The shop's own file, templates and whatever else is no job are passed over.
OpenJobs open_jobs(const Files& disk, const std::string& shop_file, const ShopInputs& inputs,
                   const RegisterPlace& register_place);

/// The job file of an order, there; where none has its id, what it would be named.
std::string job_file_of(const Files& disk, const std::string& shop_file, const Shop& shop, const std::string& order);

}  // namespace blankwright

#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "commands/commands.h"
#include "commands/output.h"
#include "commands/past.h"
#include "commands/prepare.h"
#include "diagnose/failure.h"
#include "plan/shop/plan_shop.h"
#include "sheet/paper/shop_days.h"

namespace blankwright {

/// What is kept of an order between planning and layout: little, so that the number of orders costs no memory. The
/// layout plans it again, which is quick and gives the same.
struct Job {
  Source source;
  Diagnostics said;
  std::string id;
  Place id_at;
  OrderToMake to_make;
  OrderGist gist;
  int to_start = 0;                  ///< blanks, the witnesses among them
  int witnesses = 0;                 ///< of these
  Tally so_far;                      ///< of the blanks that are meant for it
  std::optional<std::int64_t> kept;  ///< moment of its last compile, if nothing changed since
  bool good = false;
  std::optional<ShopDays> days;  ///< its own, where the shop's are wanted and it was written
  std::vector<BlankId> blanks;
  std::unique_ptr<const NamedTemplate> own_sheets;  ///< where the job names a template
  std::unique_ptr<const Record> record;             ///< where something was entered of its blanks
  std::string done;                                 ///< the line that tells what was written
  std::string world;                                ///< what was in the way of writing it
};

struct Compile {
  const CompileFlags& flags;
  Surroundings& around;
  const ShopInputs& inputs;
  std::string register_file;
  std::string version;  ///< of the program
  std::vector<Job>& jobs;
  Wanted wanted;
  ShopPast past{};  ///< as of before the run
};

/// The orders of a run that can be planned, together.
struct Run {
  std::vector<std::size_t> jobs;  ///< as the plan numbers them
  std::vector<OrderToMake> orders;
  ShopPlan plan;
  ShopTime time;
};

/// What an order's compile depends on; the register keeps it.
CompileInputs inputs_of(const Compile& c, const Job& job);
const Template& sheets_of(const Compile& c, const Job& job);

/// Plans each order by itself, with what the register knows of it. Those that can be planned are good from then on.
/// Where the register's series is not the one that the shop file names, that is said in `out`, and none is good.
void plan_each(Compile& c, Diagnostics& out);
/// Orders whose folders would be one on some systems are no longer good.
void refuse_same_ids(std::vector<Job>& jobs);
/// The moment of an earlier compile, if that was the last one of all these orders and nothing changed since.
std::optional<Instant> kept_moment(const std::vector<Job>& jobs);
/// Plans the orders together. One that cannot be planned so is left out, and the others are planned again without it.
Run plan_together(const Compile& c, Instant at, Diagnostics& out);
/// Gives the orders' blanks their IDs, in a register that is made on first use and announced then. Throws WorldError,
/// with nothing issued, where the tables in the output folder have IDs that the register never gave out: it is new,
/// or an old copy, and would give those IDs to other wood or know nothing of blanks that are about.
void issue_all(const Compile& c, const Run& run);
/// Lays out all orders and writes what was asked for, several at once.
void write_all(const Compile& c, Run& run);
/// The lines that tell what was written, or what was in the way; both empty where nothing was to be written.
struct WeekWritten {
  std::string done, world;
};
/// Writes what is to be done for all orders that were written, together.
WeekWritten write_week(Compile& c, const Run& run);

}  // namespace blankwright

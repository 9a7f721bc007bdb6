#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "commands/commands.h"
#include "commands/inputs.h"
#include "commands/output.h"
#include "commands/paper_in_hand.h"
#include "entries/fate.h"
#include "entries/record.h"
#include "entries/stored_order.h"
#include "plan/order/order_material.h"
#include "plan/shop/plan_shop.h"
#include "sheet/paper/shop_days.h"
#include "write/schedule_ics.h"

namespace blankwright {

// A compile is four values, each made from those before it: what was read, planned, issued, written. `check` and
// `explain` go the same way as far as they go.

/// A job file, read.
struct ReadJob {
  std::string file;                                 ///< as it was named
  Source source;                                    ///< null where the file cannot be read
  std::optional<Order> order;                       ///< none where it has mistakes
  Diagnostics said;                                 ///< of the order
  std::unique_ptr<const NamedTemplate> own_sheets;  ///< where the job names a template
  Diagnostics said_of_sheets;
  bool has_its_sheets() const { return !order->sheet_template || own_sheets != nullptr; }
};
ReadJob read_job(const Files& disk, const std::string& file);
/// Which of the outputs the sheets are read for: labels that a printer cannot print fully are told with tags alone.
enum class ReadFor { tags, no_tags };
/// The same of several jobs, with the sheets that they name; without a shop their own mistakes are told all the same.
std::vector<ReadJob> read_jobs(const Files& disk, const std::vector<std::string>& files, const ShopInputs* inputs,
                               ReadFor outputs, int threads);

/// The ids of their orders, planned or not.
std::vector<std::string> ids_of(const std::vector<ReadJob>& jobs);

/// What a compile was asked for and has read.
struct ReadRun {
  Wanted wanted;
  ShopInputs inputs;
  std::vector<ReadJob> jobs;
  RegisterPlace register_place;
  std::string program;  ///< with its version
};

/// An order planned by itself: little is kept of it, since there may be many. The layout plans it again, which is
/// quick and gives the same.
struct PlannedOrder {
  std::optional<std::size_t> job;  ///< of those read; none for an open order that only holds its place
  std::string id;
  OrderGist gist;
  int to_start = 0;   ///< blanks, the witnesses among them
  int witnesses = 0;  ///< of these
  Tally so_far{};     ///< of the blanks that are meant for it
  OrderMaterial material{};
  Record record;  ///< what its plan knew of the past
};
struct PlannedJob {
  struct Good {
    PlannedOrder order;
    OrderToMake to_make;
  };
  std::optional<Good> good;  ///< none where it cannot be planned
  std::string id;            ///< of its order; empty where that can never be planned
  Diagnostics said;
};
const Template& sheets_of(const ReadJob& job, const ShopInputs& inputs);
/// What is kept of an order's plan.
PlannedJob::Good kept_of(std::optional<std::size_t> job, const Order& order, const Shop& shop, const OrderPlan& plan,
                         Record record);
/// Plans each order by itself, with what the register knows of it; its gates are judged at that moment. Where the
/// register's series is not the one that the shop file names, that is said in `out`, and none is good; neither are
/// orders whose folders would be one on some systems.
std::vector<PlannedJob> plan_each(const ReadRun& read, Instant at, Diagnostics& out);

/// The ids of those that can be planned.
std::vector<std::string> ids_of(const std::vector<PlannedJob>& jobs);

/// Gives each order what was planned for it when it was printed last, in which it stays; nothing where it never was.
void take_plans_printed(const RegisterPlace& register_place, std::span<PlannedJob> jobs);

/// Plans the open orders of a register without those that are planned as jobs, from their jobs as they were compiled
/// last: so an order whose job has a mistake holds its places, too. One that cannot be planned any more is told.
std::vector<PlannedJob::Good> plan_open_orders(const RegisterPlace& register_place, const Shop& shop,
                                               std::span<const std::string> without, Diagnostics& out);

/// What of an order's paper there is before it is issued, where only a part of it is to be printed, or it is to be
/// told what is no longer right.
struct PaperBefore {
  bool is_left_out = false;  ///< nothing differs from what was handed out: nothing is issued or written of it
  std::string told;          ///< that, in a line
  PaperInHand in_hand;
};

/// The orders of a run that can be planned, and the shop's other open ones, together.
struct PlannedTogether {
  std::vector<PlannedOrder> orders;  ///< as the plan numbers them: those of the run first
  std::vector<OrderToMake> to_make;  ///< of each
  ShopPlan plan;
  ShopTime time;
  std::vector<std::string> ids;   ///< of each job that was read, as PlannedJob has it
  std::vector<Diagnostics> said;  ///< likewise
  Diagnostics said_of_shop;
  std::size_t of_run = 0;          ///< how many of the orders are of the run
  std::vector<PaperBefore> paper;  ///< of each of these; none where none of it was looked at
  bool is_left_out(std::size_t order) const { return order < paper.size() && paper.at(order).is_left_out; }
  /// Null where it was not looked at.
  const PaperInHand* in_hand(std::size_t order) const {
    return order < paper.size() ? &paper.at(order).in_hand : nullptr;
  }
  std::span<const PlannedOrder> own() const { return std::span{orders}.first(of_run); }
};
/// Plans the orders together. One that cannot be planned so is left out, and the others are planned again without it.
PlannedTogether plan_together(std::vector<PlannedJob> jobs, std::vector<PlannedJob::Good> open, const Shop& shop,
                              Instant at);

/// What each of the orders still takes of wood and studs.
std::vector<OrderMaterial> materials_of(const PlannedTogether& planned);

/// What was printed of each order before: of those that changed since, or where only a part of the paper is asked for
/// of all (with `again`, before that print), and which of them have nothing new. None, with a word, where no order
/// has the pages that are asked for.
std::optional<std::vector<PaperBefore>> paper_before(const ReadRun& read, const PlannedTogether& planned,
                                                     Surroundings& around, std::optional<int> again = {});

/// What an order has once its IDs are given out.
struct IssuedOrder {
  std::vector<BlankId> blanks;  ///< pieces, then witnesses
  Tally so_far;                 ///< with those that were added
  int issue = 1;                ///< number of the traveller's issue
};
/// The calendars of a run.
struct RunCalendars {
  std::vector<Task> tasks;                           ///< of all orders of the plan, as the shop does them
  std::vector<std::vector<CalendarEntry>> of_order;  ///< of each order of the run
  /// What was planned for orders that are open no more, cancelled; where the shop's days are wanted.
  std::vector<CalendarEntry> gone;
};
/// What a run has once IDs are given out.
struct IssuedRun {
  std::vector<IssuedOrder> orders;
  RunCalendars calendars;
};
/// Gives the orders' blanks their IDs, in a register that is made on first use and announced then. Throws WorldError,
/// with nothing issued, where the tables in the output folder have IDs that the register never gave out: it is new,
/// or an old copy, and would give those IDs to other wood or know nothing of blanks that are about.
IssuedRun issue_all(const ReadRun& read, const PlannedTogether& planned, Surroundings& around);
/// What each order of the run had before.
std::vector<IssuedOrder> issued_so_far(const PlannedTogether& planned);
/// The same, with its calendars: for a draft, and to print again.
IssuedRun issued_before(const ReadRun& read, const PlannedTogether& planned);

/// What became of an order that was to be written.
struct WrittenOrder {
  bool is_good = false;
  std::string done;   ///< the line that tells what was written
  std::string world;  ///< what was in the way of writing it
  Diagnostics said;
  std::vector<OrderInDays> in_days;  ///< itself, where the shop's days are wanted and it is among them
};
/// Lays out all orders and writes what was asked for, several at once.
std::vector<WrittenOrder> write_all(const ReadRun& read, const PlannedTogether& planned, const IssuedRun& issued,
                                    Surroundings& around);

/// The lines that tell what was written, or what was in the way; both empty where nothing was to be written.
struct WrittenForAll {
  std::string done, world;
};
/// Writes what is to be done for all orders that were written, together.
WrittenForAll write_week(const ReadRun& read, const PlannedTogether& planned, const RunCalendars& calendars,
                         const std::vector<WrittenOrder>& written, Files& disk);

/// Writes what prints all that was laid out for later, where that is asked for.
WrittenForAll write_print_file(const CompileFlags& flags, Surroundings& around);

/// What an order's compile depends on; the register keeps it. It points into what was read.
CompileInputs inputs_of(const ReadRun& read, std::size_t job);

}  // namespace blankwright

#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "commands/compile_steps.h"
#include "sheet/paper/on_paper.h"

namespace blankwright {

/// An order of the run, in what the steps before gave.
struct OrderOfRun {
  const ReadRun& read;
  const PlannedTogether& run;
  std::size_t number;
  const IssuedOrder& issued;
  const CompileFlags& flags() const { return read.wanted.flags; }
  const PlannedOrder& planned() const { return run.orders.at(number); }
  const ReadJob& job() const { return read.jobs.at(*planned().job); }
  const std::string& id() const { return planned().id; }
};

/// An order planned again as it was issued, and the dossier of that, which points into it.
class OrderOnPaper {
 public:
  OrderOnPaper(OrderPlan plan, Diagnostics to_list, const OrderOfRun& o, std::span<const IssuedTo> issued);
  OrderOnPaper(const OrderOnPaper&) = delete;
  OrderOnPaper& operator=(const OrderOnPaper&) = delete;
  const Dossier& dossier() const { return dossier_; }
  const OrderTimes& times() const { return times_; }
  const Diagnostics& said() const { return said_; }        ///< of its times
  const Diagnostics& to_list() const { return to_list_; }  ///< all that is said of it, for plan.json

 private:
  Diagnostics said_, to_list_;
  OrderPlan plan_;
  OrderTimes times_;
  Dossier dossier_;
};

/// Null where the order needs another number of blanks than it was planned with: another run has given it some since.
/// Where not all that it needs are issued it is a draft.
std::unique_ptr<const OrderOnPaper> order_on_paper(const OrderOfRun& o, std::span<const IssuedTo> issued);

}  // namespace blankwright

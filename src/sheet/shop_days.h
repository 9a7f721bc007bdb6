#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/task.h"
#include "sheet/dossier.h"

namespace blankwright {

/// How an order of a run stands in the shop's days.
struct OrderInDays {
  std::string id, client, item;
  int blanks = 0;
  std::optional<Date> due;
  Instant start, finish;             ///< as planned; finish is the earliest
  std::optional<Delivery> delivery;  ///< where the order has a due date
};

/// What is to be done in the shop, day by day, for one order or for all of a run.
struct ShopDays {
  const Shop& shop;
  const Template& sheet_template;
  Instant at;           ///< the moment of the compile
  std::string program;  ///< "Blankwright 0.1.0"
  bool draft = false;
  std::vector<OrderInDays> orders;
  std::vector<Task> tasks;  ///< as the shop does them: see shop_tasks()
};

/// "Cure, ends": the operation, and what of it is to be done.
std::string task_text(const WordTable& words, const Task& task);

/// The days of one order.
ShopDays days_of(const Dossier& dossier);

}  // namespace blankwright

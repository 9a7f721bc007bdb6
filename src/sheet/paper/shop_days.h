#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/shop/task.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// How an order of a run stands in the shop's days.
struct OrderInDays {
  std::string id, client, item;
  int blanks = 0;
  std::optional<Date> due;
  Instant finish;                    ///< the earliest
  std::optional<Delivery> delivery;  ///< where the order has a due date
  std::optional<Queue> queue{};      ///< what it waits for, where it is late
};

/// What is to be done in the shop, day by day, for one order or for all of a run.
struct ShopDays {
  const Shop& shop;
  const Template& sheet_template;
  Instant at;           ///< the moment of the compile
  std::string program;  ///< "Blankwright 0.1.0"
  bool draft = false;
  std::vector<OrderInDays> orders;
  std::vector<Task> tasks;           ///< as the shop does them: see shop_tasks()
  std::vector<std::string> missing;  ///< of the run, and not among the days: job files, ids
};

/// "Cure, end": the operation, and what of it is to be done.
std::string task_text(const WordTable& words, const Task& task);
/// "bath 2, load 3": to the blanks of which bath and load it is done, as the cards number them; "bath 2, 1/2" for the
/// first of two times. May be empty.
std::string batch_text(const WordTable& words, const Task& task);
/// "queues for trough, behind bath 2 of TA-0147": what stands before it, where something does.
std::string queue_text(const WordTable& words, const Queue& queue);
/// "tall pot" and "bath 2"; "for bath 2" alone where it is done at neither vessel nor oven.
std::vector<std::string> place_lines(const WordTable& words, const Task& task);
/// "H-0201 (7, 1 HOLD), H-0202": the orders, with how many of their blanks where it is not all, and how many of them
/// are on HOLD; of very many the first ones, and how many more there are.
std::string orders_text(const WordTable& words, const Task& task);

OrderInDays order_in_days(const Dossier& dossier);

}  // namespace blankwright

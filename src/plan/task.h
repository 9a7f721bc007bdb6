#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "plan/shop_plan.h"

namespace blankwright {

enum class TaskKind {
  work,       ///< somebody is at it all the time
  begins,     ///< somebody begins what then goes on by itself
  ends,       ///< somebody ends it
  by_itself,  ///< nobody has to be there: it soaks, or stands in the oven; from its beginning to its end
};

/// Something that goes on in the shop, from when to when. What is done to several orders at once, in one bath, is one
/// task.
struct Task {
  Interval at;
  TaskKind kind = TaskKind::work;
  std::vector<std::string> orders;
  std::size_t number = 0;  ///< of the operation in the routing of the first of them, from 0
  std::size_t part = 0;    ///< of those of its kind, from 0
  std::string operation, who, resource;
  std::string limit, hold;  ///< as on the routing; a hold stands with the last stretch
};

/// What is to be done for an order, in the order of its routing: a task for each unbroken stretch of hands-on time,
/// and one for each run of an operation that goes on besides. Precondition: complete_times() was called.
std::vector<Task> tasks_of(const std::string& order_id, const OrderTimes& times);

/// The tasks of several orders as the shop does them, by time. What one person does at one time is one task, however
/// many orders it is for: blanks that share a bath go through the operations before it together.
std::vector<Task> shop_tasks(std::vector<Task> tasks);

}  // namespace blankwright

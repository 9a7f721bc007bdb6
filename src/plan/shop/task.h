#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "plan/shop/shop_plan.h"

namespace blankwright {

enum class TaskKind {
  work,       ///< somebody is at it all the time
  begins,     ///< somebody begins what then goes on without a hand
  ends,       ///< somebody ends it
  attended,   ///< it goes on, from its beginning to its end, and somebody has to be in the shop
  by_itself,  ///< likewise, and nobody has to be there
};

/// Blanks of an order that something is done to.
struct TaskOrder {
  std::string id;
  int blanks = 0;  ///< 0: all that there are by then
  int held = 0;    ///< of these stand before it and are on HOLD
  friend bool operator==(const TaskOrder&, const TaskOrder&) = default;
};

/// Something that goes on in the shop, from when to when. What is done to several orders at once, in one bath, is one
/// task.
struct Task {
  Interval at;
  TaskKind kind = TaskKind::work;
  std::vector<TaskOrder> orders;
  std::size_t number = 0;  ///< the operation's place in the shop's routing, from 0
  Instant run_from;        ///< when the run begins that it is part of
  std::size_t part = 0;    ///< among those of its kind and run, from 0
  std::string operation, who, resource;
  std::optional<std::size_t> bath, load;  ///< of the run's, from 0
  std::size_t turn = 0, turns = 1;        ///< which run it is of how many of that bath's, where no load is known
  RunIs is = RunIs::planned;
  Instant ends_from;                ///< what runs may end from then on, whoever is there; otherwise its planned end
  std::string batch;                ///< of what runs: the bath or load, as entries name it
  std::optional<BlankId> lowest{};  ///< see PlannedRun
  std::string limit, hold;          ///< as on the routing; a hold stands with the end of each run
  bool needs_hands() const { return kind == TaskKind::work || kind == TaskKind::begins || kind == TaskKind::ends; }
};

/// What is to be done for an order, in the order of its routing: a task for each unbroken stretch of hands-on time,
/// and one for each run of an operation that goes on besides. What takes no time is a task too.
std::vector<Task> tasks_of(const std::string& order_id, const OrderTimes& times, const Shop& shop);

/// The tasks of several orders as the shop does them, by time. What is done to the blanks of one bath at one time is
/// one task, whatever orders they are for; these stand by their ids.
std::vector<Task> shop_tasks(std::vector<Task> tasks);

}  // namespace blankwright

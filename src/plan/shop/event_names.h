#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "plan/shop/task.h"

namespace blankwright {

/// What the baths and loads of a plan are called in the names of events: by the lowest ID of their blanks, which a
/// bath has before anybody gave it a name, and keeps.
struct BatchNames {
  std::vector<std::string> planned;         ///< of each planned bath, by its number
  std::map<std::string, std::string> real;  ///< of those that there are, by the names that entries have for them
};

/// "three-alders": what makes the names of a shop's events differ from those of another one's. Those of a draft are
/// others, so that a calendar never takes them for what was handed out.
std::string home_of_events(const std::string& shop, bool draft);

/// Names the events of all tasks of a plan, as shop_tasks() has them: a name each, no two alike, of 255 bytes at most
/// (RFC 5545, 3.8.4.7: so many every reader keeps). "NG7-32GX.bath-vacuum.1b1@three-alders" is of a bath's blanks,
/// "TA-0147.turn.1w2@three-alders" of what an order goes through by itself: which run of the operation it is among
/// those of the same blanks, by time; its kind; and its part. So a name stays when other operations or orders come
/// and go, when times move, and when what was planned has begun.
std::vector<std::string> event_names(std::span<const Task> tasks, const BatchNames& batches, const std::string& home);
std::string due_event_name(const std::string& order, const std::string& home);

}  // namespace blankwright

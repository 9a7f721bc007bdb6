#pragma once

#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// What is placed, as the trade has it: README, keys of the routing. Times are minutes from the moment of the plan.

namespace best_plans {

/// One thing that somebody does or begins.
struct Task {
  std::string name;
  std::size_t who = 0;                ///< of the people
  std::vector<std::size_t> places{};  ///< vessel or oven; of a bath also its resin, that goes from one to the next
  bool throughout = false;            ///< work that pauses outside of hours; the others go by the clock
  int length = 0;                     ///< at least
  int at_start = 0, at_end = 0;       ///< somebody is at it
  bool alone = false;                 ///< may run while nobody is in the shop
  std::optional<int> most{};          ///< from start to end; none: any
  std::optional<int> wait{};          ///< behind the one before it, at most
  int least_part = 0;
  int soak_percent = 0;  ///< of a soak: its share of what the task before it lasts beyond the pump-down; else 0
  int pump_down = 0;
};

/// What an order does by itself right behind a task of a block, and the chain that then goes on.
struct Tail {
  std::size_t after = 0;
  std::vector<Task> tasks;  ///< tied to it by a wait; may be none
  std::size_t goes_on = 0;
};

/// Tasks that may wait for each other only so long, placed as one.
struct Block {
  std::vector<Task> tasks;
  std::vector<Tail> tails{};
};

/// Blocks one after the other, behind other chains.
struct Chain {
  std::string name;
  std::vector<Block> blocks;
  std::vector<std::size_t> behind{};
  std::optional<std::size_t> order{};  ///< that ends with it
};

struct Problem {
  std::vector<Chain> chains;
  std::vector<std::optional<int>> due;  ///< of each order
};

/// Of all orders together: how late they are, and when the last one is finished.
struct Result {
  int late = 0, finish = 0;
  auto operator<=>(const Result&) const = default;
};

}  // namespace best_plans

#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "../calendar/hours.h"
#include "../calendar/order.h"
#include "../calendar/plan.h"
#include "../year/program.h"
#include "chains.h"
#include "placing.h"

namespace best_plans {

/// A random shop with two to four orders, and what the program plans for them.
class Instance {
 public:
  Instance(const std::filesystem::path& program, const std::filesystem::path& folder, int seed);

  /// None where the shop cannot make all of the orders, or cannot hold a wait.
  std::optional<Result> planned();
  /// Of the shop, once its problems are made.
  Lines lines() const;
  /// All ways in which orders of one resin and dye could share baths or have their own: what fits into a vessel and
  /// how long it takes is the program's, asked for those orders alone. When it is done is not.
  std::vector<Problem> problems();
  std::size_t orders() const { return orders_.size(); }

 private:
  using Group = std::vector<std::size_t>;  ///< orders, by their numbers
  using Plans = std::map<std::string, calendar_rules::Plan>;

  Plans plans_of(const Group& group);
  std::vector<std::vector<Group>> ways_to_share() const;
  int minute(calendar_rules::Instant at) const { return static_cast<int>((at - shop_.at).count()); }

  std::filesystem::path folder_;
  std::filesystem::path file_;
  calendar_rules::Shop shop_;
  std::optional<calendar_rules::Zone> zone_;
  std::optional<calendar_rules::WorkingHours> hours_;
  std::vector<calendar_rules::Order> orders_;
  std::map<Group, Plans> plans_;
  Names names_;
};

}  // namespace best_plans

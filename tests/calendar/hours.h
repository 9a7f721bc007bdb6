#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "shop.h"

namespace calendar_rules {

/// When the shop and its people are at work, from some weeks before its first plan on.
class WorkingHours {
 public:
  WorkingHours(const Shop& shop, const Zone& zone);

  /// When somebody is in the shop.
  const std::vector<Span>& attended() const { return attended_; }
  const std::vector<Span>& of(const std::string& person) const;
  /// The end of work on that day, or on the last one before it on which the shop works.
  Instant end_of_work(Date day) const;

 private:
  const Hours& hours_;
  std::vector<Span> usual_, attended_;
  std::map<std::string, std::vector<Span>> own_;
  const Zone& zone_;
};

/// Does a span lie in one of these?
bool lies_in(const std::vector<Span>& stretches, const Span& span);

}  // namespace calendar_rules

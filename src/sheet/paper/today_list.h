#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/shop/today.h"
#include "read/template.h"

namespace blankwright {

/// An operation that was planned to be over by now and was not entered of all its blanks.
struct NotEntered {
  std::string order, operation;
  std::size_t number = 0;  ///< the operation's place in the shop's routing, from 0
  int open = 0, of = 0;    ///< blanks that it is not entered of, and those that it was planned for
  Instant due;             ///< when it was to be over
};

/// Blanks that a gate holds, or a HOLD of the routing that they went past unanswered.
struct HeldNow {
  std::string order, gate, reason;  ///< in the template's words; by the routing: the operation, what has to be true
  std::vector<std::string> blanks;  ///< as shown
  std::string where;
  std::optional<std::size_t> number{};  ///< the operation's place in the shop's routing, from 0
};

/// Blanks that wait longer for what is next than it lets them.
struct WaitsTooLong {
  std::string order, operation;
  std::size_t number = 0;  ///< the operation's place in the shop's routing, from 0
  int blanks = 0;
  Instant since;
  std::chrono::minutes by{};  ///< by the plan
  Duration longest;
};

/// Blanks that an order is to start and that have no ID yet.
struct WithoutId {
  std::string order;
  int blanks = 0;
};

/// What today's sheet says, as text, as JSON and on paper.
struct TodayFacts {
  const Shop& shop;
  const Template& sheet_template;
  Instant at;
  std::int64_t last_entry = 0;
  std::string program;
  Today today;
  std::vector<NotEntered> not_entered;
  std::vector<HeldNow> held;
  std::vector<WaitsTooLong> waits;
  std::vector<WithoutId> without_id;
};

/// One line of today's list; what says nothing is empty.
struct TodayRow {
  std::string time{}, step{}, what{}, where{}, order{}, note{};
  // The same for who reads on by machine.
  std::optional<Instant> from{},
      to{};                        ///< when it begins, or was due; when it is over, at the earliest where it runs
  int count = 0;                   ///< blanks; 0: all, or none in particular
  std::vector<std::string> ids{};  ///< as shown
};
struct TodaySection {
  std::string key;    ///< "before-leaving"; of a person's list "hands"
  std::string title;  ///< in the template's words; of a person's list the person
  std::vector<TodayRow> rows;
};
/// Questions first, then HOLDs, late orders, what runs, each person's list, what has to be begun or ended before
/// leaving, what comes next. Sections without a row are left out.
std::vector<TodaySection> today_sections(const TodayFacts& facts);
/// "Three Alders Handle Workshop · Wed 5 May 13:30 · entry 412".
std::string today_title(const TodayFacts& facts);

}  // namespace blankwright

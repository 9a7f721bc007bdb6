#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "measure/instant.h"
#include "measure/quantity.h"
#include "plan/routing/working_time.h"

namespace blankwright {

/// When somebody has to be at an operation. Work `throughout` pauses outside working hours and goes on after; the
/// others run by the clock once begun.
enum class HandsOn { throughout, at_start, at_both_ends };

/// Somebody who can do an operation's hands-on work.
struct Worker {
  std::string name;
  const WorkCalendar* free = nullptr;  ///< when they have time for it; the shop's hours when null
};

/// An operation as it is in another oven.
struct InFurtherOven {
  std::string resource;
  Duration length{};
  bool unattended = false;
};

/// One operation of an order's routing. All durations are ≥ 0 and are planned in whole minutes: lengths and hands-on
/// time rounded up, the longest length and the longest wait rounded down.
struct Operation {
  std::string name{};
  std::vector<Worker>
      hands{};        ///< whoever has time first does it; the first of them where several have; none: anybody
  Duration length{};  ///< by the clock; for work throughout, the hours of work
  HandsOn hands_on = HandsOn::throughout;
  Duration hands_on_at_start{};  ///< unbroken; not used for work throughout
  Duration hands_on_at_end{};    ///< unbroken, the last part of the operation; used at_both_ends only
  /// May run while nobody is in the shop; otherwise it lies wholly inside one stretch of working hours. Work
  /// throughout pauses instead.
  bool unattended = false;
  /// May last longer than `length`, up to `longest` or, without that, as long as is convenient. It does so only until
  /// somebody is there to end it, or for as long as the next operation's longest wait calls for.
  bool may_run_long = false;
  Duration least_part{};        ///< work throughout is cut into no shorter parts, unless it is shorter as a whole
  bool in_a_day = false;        ///< it begins and ends on the same day
  bool on_a_later_day = false;  ///< than the one of its step before it begins
  /// From start to end at most: of an operation that may run long, or of work throughout with its pauses. ≥ length.
  std::optional<Duration> longest{};
  std::optional<Duration> longest_wait{};  ///< from the previous operation's end to this one's start
  /// It lasts at least `share` of what an earlier operation lasts beyond `unshared`: a soak, of its vacuum.
  struct Share {
    std::size_t of = 0;  ///< that operation's place among these
    double share = 0;
    Duration unshared{};
  };
  std::optional<Share> lasts{};
  int pieces = 0;                  ///< that it is done to, witnesses among them
  std::optional<Instant> begun{};  ///< it runs since then: its length is counted from there
  std::size_t step = 0;  ///< of the routing; several of one step are its runs, one for each load of the oven
  std::optional<Instant> earliest{};           ///< it cannot start before
  std::optional<Instant> ends_from{};          ///< it cannot end before
  std::string resource{};                      ///< vessel, oven or machine that it needs
  std::vector<InFurtherOven> further_ovens{};  ///< that it could be done in as well; none of what runs
  std::vector<Interval> taken{};               ///< when it cannot be done: apart from each other, in order
  int most_a_day = 0;                          ///< pieces, of all that is done by its name; 0: any number
  int day = 0;           ///< its pieces are those of one day: which, of its step's days; 0: they are all of its step
  Duration per_piece{};  ///< of its length
};

enum class RunIs {
  planned,
  running,  ///< begun, by the entries
  past      ///< over, by the entries
};

}  // namespace blankwright

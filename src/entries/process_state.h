#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "entries/blank_state.h"
#include "entries/entry.h"

namespace blankwright {

/// A blank that was cut open, and how the cut answered.
struct BlankCut {
  BlankId blank;
  bool good = false;
  std::string reason{};
  bool operator==(const BlankCut&) const = default;
};

/// One filling of the vessel, from the entries that name it.
struct BathState {
  std::string name;
  std::string vessel;                    ///< empty where nobody said
  std::vector<BlankId> blanks;           ///< that ever went into it, in that order
  std::vector<BlankId> inside;           ///< that are in it
  std::vector<BlankId> last_bath_of;     ///< of these, those that were in no other bath since
  std::vector<BlankCut> cut;             ///< of those, the ones that were cut open: with resin to the middle or not
  std::optional<Instant> last_in;        ///< when the last blank went into it, or resin
  std::map<std::string, Volume> poured;  ///< by lot of resin
  std::optional<Instant> vacuum_on, target_reached, bubbling_ended, released;
  std::optional<GaugePressure> gauge;  ///< read when the target was reached
  Instant last_at{};                   ///< of the last entry that concerns it
  bool operator==(const BathState&) const = default;
  bool under_vacuum() const { return vacuum_on && !released; }
};

/// A temperature in the middle of a blank.
struct CoreReading {
  Instant at;
  Temperature read;
  std::optional<BlankId> in{};  ///< none where nobody said in which
  bool operator==(const CoreReading&) const = default;
};

/// One filling of the oven.
struct LoadState {
  std::string name;
  std::string oven;                           ///< empty where nobody said
  std::vector<BlankId> blanks;                ///< that were cured in it
  std::vector<BlankId> dried;                 ///< that were dried in it: a load does the one or the other
  std::vector<BlankId> inside;                ///< that are in it
  std::optional<Instant> first_in, last_out;  ///< the earliest and the latest, in whatever order they were entered
  std::vector<CoreReading> core;
  std::vector<std::pair<Instant, Temperature>> air;  ///< by an independent thermometer
  std::vector<BlankCut> cut;                         ///< hard to the middle or not
  Instant last_at{};                                 ///< of the last entry that may concern it
  bool operator==(const LoadState&) const = default;
  /// All of it was taken out.
  bool is_over() const { return last_out && inside.empty(); }
};

/// A lot of resin.
struct ResinState {
  std::string name;
  std::optional<Instant> opened;
  std::optional<Volume> in_bottle;   ///< when it was opened
  std::optional<Instant> activated;  ///< the last time
  std::string dye;
  Volume activated_volume, poured, strained_back, discarded;
  Instant last_at{};  ///< of the last entry that may concern it
  bool operator==(const ResinState&) const = default;
};

/// The state after one more entry; one that names another bath, load or lot changes nothing, but that a blank which
/// went into another bath, or was taken out, is in this one no more.
BathState after(BathState bath, const Entry& entry);
/// Of the load's blanks also entries count that name no load: out of the oven, dried or cured, cut open.
LoadState after(LoadState load, const Entry& entry);
ResinState after(ResinState resin, const Entry& entry);

/// The state of that name which follows from entries, given in the order of their numbers; of those that tell of what
/// happened up to a moment.
template <class State>
State folded(const std::string& name, const std::vector<Entry>& entries, Instant until = Instant::max()) {
  State state;
  state.name = name;
  for (const Entry* entry : holding(entries)) {
    if (entry->at <= until) state = after(std::move(state), *entry);
  }
  return state;
}

/// Why an entry cannot be, as far as this bath, load or lot of resin goes; none when it can, or is of another one.
std::optional<Refusal> refusal(const BathState& bath, const Entry& entry);
std::optional<Refusal> refusal(const LoadState& load, const Entry& entry);
std::optional<Refusal> refusal(const ResinState& resin, const Entry& entry);

}  // namespace blankwright

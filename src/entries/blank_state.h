#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "entries/entry.h"
#include "entries/outcome.h"
#include "entries/readings.h"
#include "entries/refusal.h"

namespace blankwright {

/// How far a blank has come.
enum class Stage {
  begun,      ///< has an ID; sawn, dried, measured, weighed
  in_bath,    ///< in a bath
  wet,        ///< out of the bath, not cured
  in_oven,    ///< curing
  cured,      ///< out of the oven
  squared,    ///< faces and ends trued
  bored,      ///< has a bore
  stud_set,   ///< has its stud
  turned,     ///< has its form
  inspected,  ///< was looked at as a finished piece
  sent,       ///< has left the shop
  cut_open,   ///< a witness that was cut or pulled: an end
  scrapped,   ///< an end
  withdrawn,  ///< an end: it was never sawn
};
/// "in-bath": in tables, CSV and JSON.
std::string_view name_of(Stage stage);
std::optional<Stage> stage_named(std::string_view name);

/// A bath that a blank was in before, and when it came out of it.
struct EarlierBath {
  std::string name;
  std::optional<Instant> out;
  bool operator==(const EarlierBath&) const = default;
};

/// Where a blank is and what is known of it: what follows from its entries, and from nothing else.
struct BlankState {
  std::optional<BlankId> id;
  std::string order;     ///< its ID was issued to
  std::string promised;  ///< the order that it is meant for now; at first `order`
  bool witness = false;  ///< was issued only to be cut open
  Stage stage = Stage::begun;
  std::string bath, load, board;           ///< its last ones; empty before
  std::vector<EarlierBath> earlier_baths;  ///< before its last one: then it was soaked again
  std::vector<Weighing> dry, wet,
      cured;  ///< before the bath, after the last one, after the oven and before wood goes
  std::vector<Weighing> later;
  std::optional<Share> moisture;                      ///< the last measured before the bath
  std::optional<Instant> into_drying, out_of_drying;  ///< the last of each
  bool is_drying = false;                             ///< it is in the oven to dry
  std::string drying_load;                            ///< the last one
  /// How long it has lain open to the room's air since it was weighed dry: until `open_since`, if it lies open now.
  std::chrono::seconds open_before{};
  std::optional<Instant> open_since;
  std::chrono::seconds sealed_before{};  ///< and sealed, which is slower, but does not stop it
  std::optional<Instant> sealed_since;
  std::optional<SizeSeen> sawn_size, dry_size, cured_size, squared_size;  ///< the last of each
  std::optional<Instant> measured;                                        ///< the last time before the bath
  std::optional<Mass> mass_when_measured;                                 ///< weighed in the same go
  bool measured_dried = false;                                            ///< after it came out of the drying oven
  std::optional<AxisSeen> bore, stud;
  std::optional<Instant> glued;           ///< its stud, the last time
  std::optional<Graded> verdict;          ///< the last
  std::optional<Outcome> result, thread;  ///< of the inspection or the cut, of the thread gauge
  std::optional<bool> through, hard;      ///< cut open: resin to the middle, and hard there
  std::optional<Length> projection, squareness;
  bool has_wood = false;  ///< something was entered of it that needs wood
  bool filled = false;
  bool drained = false;  ///< after its last bath
  std::string reason;    ///< of scrap, or of a failed inspection
  std::optional<Force> pulled;
  std::optional<Instant> into_bath, out_of_bath, into_oven, out_of_oven, sent;  ///< the last of each
  std::map<EntryKind, std::vector<Instant>> told;  ///< when it was told of, by kinds, as it was entered
  std::map<std::string, Instant> done;   ///< operations of the routing that were entered as such, by name
  EntryNumber last = 0;
  Instant last_at{};    ///< of its last entry
  Instant last_done{};  ///< the same, but for its issuing: wood is also sawn before its ID is issued

  bool operator==(const BlankState&) const = default;

  bool is_over() const { return stage == Stage::sent || stage >= Stage::cut_open; }
  /// Was wood sawn for it?
  bool is_begun() const { return stage != Stage::begun || has_wood; }
};

/// What a blank's state is after one more entry of it. Total: also an entry that was overridden is taken, but no mass
/// or size that is not above 0.
BlankState after(BlankState state, const Entry& entry);

/// A blank's state, from all its entries in the order of their numbers.
BlankState state_of(const std::vector<Entry>& entries);

/// Lengths read with a rule or a caliper against each other: further apart than this, one of them was misread.
inline constexpr Length misread = 1 * mm;

/// Why a blank in that state cannot have this entry; none when it can.
std::optional<Refusal> refusal(const BlankState& state, const Entry& entry);

}  // namespace blankwright

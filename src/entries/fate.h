#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diagnose/saying.h"
#include "entries/blank_summary.h"

namespace blankwright {

/// What has become of a blank. Whatever counts blanks (the plan, compile, questions) means this by good, lost and in
/// work.
enum class Fate {
  to_be_sawn,  ///< it has an ID, and nothing was entered of its wood
  in_work,     ///< from then on until its stud is set; a witness until it is cut open
  good,        ///< from its set stud on, sent or not, unless it fails
  lost,        ///< scrapped, or failed its inspection
  cut_open,    ///< cut, or its stud pulled, to learn of it: neither good nor lost
  withdrawn,   ///< it was never sawn, and its ID is not needed: counted nowhere
};
Fate fate_of(const BlankSummary& blank);
inline Fate fate_of(const BlankState& blank) { return fate_of(summary_of(blank)); }
/// Will no piece come of it?
inline bool is_given_up(Fate fate) { return fate == Fate::lost || fate >= Fate::cut_open; }

/// How far a blank has come, in the words of the shop: "to be sawn", "in the bath", "stud set".
std::string_view stage_words(const BlankSummary& blank);
/// "bath B3", "oven, load L1", "shop": where to look for a blank; nothing as long as it is only an ID, and once it is
/// over.
Saying place_of(const BlankSummary& blank);
/// How many blanks are at which stage, in the order in which one comes through them; those at which none is left out.
std::vector<std::pair<std::string_view, int>> by_stage(std::span<const KnownBlank> blanks);

/// How many blanks have which fate.
struct Tally {
  int to_be_sawn = 0, in_work = 0, good = 0, lost = 0, cut_open = 0;
  int sent = 0;  ///< of the good ones
  bool operator==(const Tally&) const = default;
  void add(const BlankSummary& blank);
  /// Has anything been entered of them?
  bool is_begun() const { return in_work + good + lost + cut_open > 0; }
};
/// "2 good (1 sent), 1 lost, 4 in work, 3 to be sawn, 1 cut open": what there is of it; empty for no blanks.
std::string in_words(const Tally& tally);

/// How many good pieces each order has, by the order that they are meant for.
std::map<std::string, int> good_pieces(std::span<const KnownBlank> blanks);

/// The orders that lack good pieces. `quantities`: how many each wants.
std::vector<std::string> orders_that_lack(std::span<const KnownBlank> blanks,
                                          const std::map<std::string, int>& quantities);

}  // namespace blankwright

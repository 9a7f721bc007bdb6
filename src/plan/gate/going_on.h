#pragma once

#include <optional>
#include <span>
#include <string>

#include "plan/gate/gates.h"

namespace blankwright {

/// Does a blank go on by such an entry to what cannot be undone?
bool goes_on(EntryKind kind);

/// Is the entry held against the gates of the blank as it was before? Not where that goes back into a bath since it
/// is short of resin, which is what its gate asks for; nor where it is measured again, by which a gate may be
/// answered.
bool passes_gates(const BlankState& before, const Entry& entry);

/// What spoke against an entry that was taken all the same.
struct Objection {
  Verdict verdict = Verdict::waits;  ///< of what spoke most strongly
  std::string words;                 ///< HOLD stands in them where something was wrong
};

/// What spoke against it, by the gates as they were then; none where nothing did.
std::optional<Objection> went_against(std::span<const Judged> gates);

/// The same without those gates that speak `now`: what they said then they confirm or have taken back.
std::optional<Objection> stands_against(std::span<const Judged> then, std::span<const Judged> now);

}  // namespace blankwright

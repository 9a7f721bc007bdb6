#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "entries/blank_id.h"
#include "entries/entry_kind.h"
#include "measure/instant.h"
#include "measure/quantity_text.h"

namespace blankwright {

/// Entries are numbered from 1 in the order in which they were answered; 0 stands before the first.
using EntryNumber = std::int64_t;

/// An SI value of the field's kind, or a text.
using FieldValue = std::variant<double, std::string>;

/// Where nobody said when something happened: it then gets its time from the register (see Register::add()).
inline constexpr Instant not_said{};

/// One fact in the register. Entries are only added, never changed; the register gives the number.
struct Entry {
  EntryNumber number = 0;  ///< 0 until the register has it
  EntryKind kind = EntryKind::issued;
  Instant at = not_said;                             ///< when it happened
  std::chrono::minutes offset{};                     ///< of the shop's clock from UTC then
  std::string person;                                ///< empty where none was given
  std::optional<BlankId> blank;                      ///< of which it is said
  std::vector<std::pair<Field, FieldValue>> values;  ///< in the order of Field, each at most once
  std::optional<EntryNumber> replaces;               ///< the entry that does not hold any more
  std::string overridden;                            ///< why it was taken although it cannot be; empty otherwise

  bool operator==(const Entry&) const = default;

  /// The text of a field; empty where it says none.
  std::string text(Field field) const;
  /// The blank in whose middle something was measured; none where nobody said.
  std::optional<BlankId> measured_in() const;
  /// The SI value of a field.
  std::optional<double> number_of(Field field) const;
  template <class Q>
  std::optional<Q> get(Field field) const {
    const auto si = number_of(field);
    return si ? std::optional{KindOf<Q>::from_si(*si)} : std::nullopt;
  }
  /// Says something; what it said of that field before is gone.
  void set(Field field, FieldValue value);
};

/// The minute of which an entry tells; moments are typed to it. An ID that is issued after its wood was sawn comes
/// first all the same.
Instant told_at(const Entry& entry);

/// The entries that hold, in the order in which what they tell of happened, and within a minute in the order in which
/// they were entered: one that was replaced is left out, and what replaces it stands in its place. `entries` are in
/// the order of their numbers.
std::vector<const Entry*> holding(const std::vector<Entry>& entries);

}  // namespace blankwright

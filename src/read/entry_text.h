#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

#include "entries/entry.h"

namespace blankwright {

/// The text without spaces, tabs and line ends before and after it.
std::string_view trimmed(std::string_view text);

/// Why a typed or scanned text is no blank's ID, in words: "K7T4X52 is mistyped: its check symbol does not fit".
std::string in_words(IdFault fault, std::string_view typed);

/// Reads the value of a field as people type it. A quantity carries its unit; a number without one is taken in
/// `bare_unit` where that is given ("g"). A vacuum may be written with or without its minus. Words are compared
/// without regard to case; names are 1 to 40 of A-Z a-z 0-9 . _ -; other texts are at most 200 characters that can be
/// printed. What is scanned (a blank's ID, an action code) is none of either. The fault is a sentence that begins
/// with the field's name.
tl::expected<FieldValue, std::string> read_field(const FieldFacts& field, std::string_view typed,
                                                 std::string_view bare_unit = {});

/// The same of a text that an entry already holds: earlier versions took what is scanned for a name, too.
tl::expected<std::string, std::string> read_kept_text(const FieldFacts& field, std::string_view kept);

/// Why a field cannot have that SI value, in words: it lies outside the field's range. None where it can.
std::optional<std::string> number_problem(const FieldFacts& field, double si);

/// Why a text that reads as a blank's ID (in any spelling) or is an action code says nothing in a field, in words.
/// A bath, load or board cannot be called what has an ID's shape and a wrong check symbol either: that is one
/// mistyped. None where it is none of these. An order's id is the client's business and may look like either; the
/// register knows it.
std::optional<std::string> scanned_instead(const FieldFacts& field, std::string_view typed);

/// An entry as somebody said it.
struct SaidEntry {
  const KindFacts* kind = nullptr;
  std::string blank;                                        ///< as typed; empty for none
  std::vector<std::pair<std::string, std::string>> values;  ///< field names and values, as typed
  std::string person;
  Instant at = not_said;
  std::chrono::minutes offset{};
  std::optional<EntryNumber> replaces;
  std::string overridden;
};

/// The entry, or everything that is wrong with what was said: a field that is missing, that the kind does not have or
/// that stands twice, a value that cannot be read, a blank where none belongs or none where one does.
tl::expected<Entry, std::vector<std::string>> read_entry(const SaidEntry& said);

/// The kind of that name or with that action code; else a sentence that names what may have been meant.
tl::expected<const KindFacts*, std::string> read_kind(std::string_view typed);

/// How an entry of that kind is typed: "weighed BLANK... mass= [tare=]", in brackets what may be left out.
std::string entry_usage(const KindFacts& kind);

/// What a field is, with an example or the words that may stand for it.
std::string field_usage(const FieldFacts& field);

/// A value for people: "131.0 g", "bath-1".
std::string value_text(const FieldFacts& field, const FieldValue& value, UnitSystem units);

/// What an entry says, for people: "mass 131.0 g, tare 3.0 g".
std::string says_text(const Entry& entry, UnitSystem units);

}  // namespace blankwright

#pragma once

#include <optional>
#include <string>
#include <variant>

#include "measure/quantity_text.h"
#include "read/notes.h"

namespace blankwright {

/// A note of the working, with what it names: a length, the size of a drill; mostly nothing.
struct StepNote {
  Note note;
  std::variant<std::monostate, Length, Amount> of{};
};
std::optional<Printed> printed(const StepNote& note, UnitSystem system);  ///< what it names

/// "governed at 45.0 mm from the seat".
std::string text(const StepNote& note, UnitSystem system, const NoteTable& words = {},
                 const Spelling& spelling = english_spelling());

}  // namespace blankwright

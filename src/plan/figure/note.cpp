#include "plan/figure/note.h"

namespace blankwright {

std::optional<Printed> printed(const StepNote& note, UnitSystem system) {
  if (const auto* length = std::get_if<Length>(&note.of)) {
    return printed(*length, {system, Round::nearest, Fineness::sawn});
  }
  if (const auto* amount = std::get_if<Amount>(&note.of)) return Printed{.amounts = {*amount}};
  return std::nullopt;
}

std::string text(const StepNote& note, UnitSystem system, const NoteTable& words, const Spelling& spelling) {
  const auto of = printed(note, system);
  return joined({words[note.note].before, of ? text(*of, spelling) : std::string{}, words[note.note].after});
}

}  // namespace blankwright

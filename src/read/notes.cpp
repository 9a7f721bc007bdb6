#include "read/notes.h"

namespace blankwright {

std::array<NoteWords, note_list.size()> NoteTable::english_notes() {
  std::array<NoteWords, note_list.size()> notes;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    notes.at(i) = {std::string{note_list.at(i).before}, std::string{note_list.at(i).after}};
  }
  return notes;
}

}  // namespace blankwright

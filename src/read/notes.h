#pragma once

#include <array>
#include <string>
#include <string_view>

namespace blankwright {

// Notes of the working: what a formula does not say, in the words before and after what some of them name. By their
// keys in a template's [notes], those after by the key with "_after". The English is here.
// clang-format off
#define BW_NOTES(note) \
  note(saw_increment, "the saw's increment is", "") \
  note(from_sawn_section, "carried down from the sawn section", "") \
  note(from_sawn_length, "carried down from the sawn length", "") \
  note(governed, "governed at", "from the seat") \
  note(drill, "", "") \
  note(inside_minor_diameter, "inside the limits of the internal thread's minor diameter", "") \
  note(at_from_seat, "at", "from the seat") \
  note(truer_than_held, "truer than the shop holds: the other half is left for the stud", "") \
  note(ballast_stands_out, "the ballast stands higher than the cover asked for", "") \
  note(before_uptake, "before anything is taken up", "") \
  note(clamped_without, "a rod that is clamped holds them without", "") \
  note(plane_walls, "plane walls, full series; the oven's air at temperature from the start, the resin's own heat left out", "") \
  note(slower_film, "with the slower film and the lower conductivity", "") \
  note(cautious_time, "with the cautious time; not longer than the data sheet allows", "") \
  note(aimed_by_gauge, "aimed at by the gauge's reading", "") \
  note(gauge_reads_more, "a gauge that reads more has another altitude, or is wrong", "") \
  note(gas_given_off, "gas that resin and wood give off makes it longer; pull slowly against foam", "") \
  note(vapour_counts, "vapour in the pores counts as air: the cautious side", "") \
  note(as_held, "as held in truth, from target reached to release", "") \
  note(two_weighings, "then two weighings decide", "") \
  note(an_estimate, "an estimate", "")
// clang-format on

/// Every note of the working.
enum class Note {
#define BW_ENUMERATOR(name, before, after) name,
  BW_NOTES(BW_ENUMERATOR)
#undef BW_ENUMERATOR
};

struct NoteFacts {
  std::string_view key, before, after;
};
inline constexpr auto note_list = std::to_array<NoteFacts>({
#define BW_FACTS(name, before, after) {#name, before, after},
    BW_NOTES(BW_FACTS)
#undef BW_FACTS
});

struct NoteWords {
  std::string before, after;
};

/// The notes of one language; in English where nobody says otherwise.
struct NoteTable {
  std::array<NoteWords, note_list.size()> notes = english_notes();
  const NoteWords& operator[](Note note) const { return notes.at(static_cast<std::size_t>(note)); }

 private:
  static std::array<NoteWords, note_list.size()> english_notes();
};

}  // namespace blankwright

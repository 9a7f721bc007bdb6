#pragma once

#include <array>
#include <string>
#include <string_view>

namespace blankwright {

/// Every word that is printed on paper, by its key in a template's [words]. The English is in
/// templates/standard.toml. One list, so that enumeration and keys cannot part.
#define BW_WORDS(word)                                                                                               \
  word(turner_sheet) word(routing_sheet) word(weighing_sheet) word(worksheet) word(tags_sheet) word(draft) word(     \
      draft_notice) word(sheet_of) word(printed) word(continued) word(order) word(client) word(item) word(quantity)  \
      word(due) word(not_stated) word(drawing) word(revision) word(species) word(condition_sound) word(              \
          condition_spalted) word(condition_punky) word(condition_burl) word(owner) word(created_by)                 \
          word(approved_by) word(issue_date) word(of_blanks) word(sawn) word(dry_mass) word(wet_mass) word(          \
              cured_mass) word(tare) word(monday) word(tuesday) word(wednesday) word(thursday) word(friday)          \
              word(saturday) word(sunday) word(january) word(february) word(march) word(april) word(may) word(june)  \
                  word(july) word(august) word(september) word(october) word(november) word(december) word(          \
                      scale) word(seat) word(tail) word(section_view) word(all_lengths_from_seat) word(units_metric) \
                      word(units_inch) word(tolerance_note) word(bore) word(reservoir) word(metal_zone) word(        \
                          metal_zone_rule) word(number_short) word(from_seat) word(diameter)                         \
                          word(at_most) word(at_least) word(result) word(initials) word(date_time) word(             \
                              stations_title) word(checks_title)                                                     \
                              word(check_seat_position) word(check_rod) word(check_squareness) word(                 \
                                  check_projection) word(check_embedded)                                             \
                                  word(depth_stop) word(drill) word(speed_ceiling) word(                             \
                                      speed_note) word(swing) word(hold) word(signature)                             \
                                      word(cautions_title) word(notes) word(operation) word(                         \
                                          who) word(count_in) word(count_good) word(count_rework) word(count_scrap)  \
                                          word(earliest_finish) word(latest_start) word(due_end) word(late) word(    \
                                              rework_note) word(correction_note) word(blank_id)                      \
                                              word(first_weighing) word(second_weighing) word(length)                \
                                                  word(remarks) word(weighing_note) word(worksheet_note) word(       \
                                                      source) word(with) word(blank_sizes_title)                     \
                                                      word(state_sawn) word(state_dry) word(state_squared) word(     \
                                                          state_finished) word(section)                              \
                                                          word(start_pieces) word(dry_width) word(dry_height) word(  \
                                                              dry_length) word(tare_head) word(wet_mass_head)        \
                                                              word(cured_mass_head) word(planned_start) word(        \
                                                                  planned_finish) word(units) word(tolerance)        \
                                                                  word(deep) word(depth_stop_rule) word(             \
                                                                      over_diameter) word(check_embedded_tapped)     \
                                                                      word(form_smooth) word(form_straight) word(    \
                                                                          stations_left_out) word(cautions_left_out) \
                                                                          word(cut_stud) word(face_off) word(        \
                                                                              bore_ends) word(inspection_sheet)      \
                                                                              word(inspection_note)                  \
                                                                                  word(inspect_position) word(       \
                                                                                      inspect_rod)                   \
                                                                                      word(inspect_squareness) word( \
                                                                                          inspect_projection)        \
                                                                                          word(inspect_embedded)     \
                                                                                              word(alone_note) word( \
                                                                                                  start_within)      \
                                                                                                  word(runs_at_most)

enum class Word {
#define BW_ENUMERATOR(name) name,
  BW_WORDS(BW_ENUMERATOR)
#undef BW_ENUMERATOR
};

inline constexpr auto word_keys = std::to_array<std::string_view>({
#define BW_KEY(name) #name,
    BW_WORDS(BW_KEY)
#undef BW_KEY
});

/// The words of one language.
struct WordTable {
  std::array<std::string, word_keys.size()> words;
  const std::string& operator[](Word word) const { return words.at(static_cast<std::size_t>(word)); }
};

}  // namespace blankwright

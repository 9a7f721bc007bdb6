#pragma once

#include <array>

#include "diagnose/sentence.h"

// What gates say of a blank, on screens and on today's sheet: by their keys in a template's [gates].
// clang-format off
#define BW_GATE_SENTENCES(row) \
  row(gate_plan, "plan") \
  row(gate_dry, "dry") \
  row(gate_bath, "bath") \
  row(gate_resin, "resin") \
  row(gate_cure, "cure") \
  row(gate_witness, "witness") \
  row(gate_graded, "graded") \
  row(gate_glue, "glue") \
  row(gate_axis, "axis") \
  row(gate_seat, "seat") \
  row(lies_in_bath, "bath {}") \
  row(lies_in_oven, "oven, load {}") \
  row(lies_in_oven_to_dry, "oven, to dry, load {}") \
  row(lies_in_shop, "shop") \
  row(not_planned_any_more, "order {} cannot be planned any more; compile it again") \
  row(dry_weigh, "not weighed dry yet: dry it, weigh it, dry on, weigh it again") \
  row(dry_weigh_again, "weigh it again, from {} on") \
  row(dry_left_oven, "not proven dry: back into the oven, and weigh it again before it comes out") \
  row(dry_too_dense, "for its size it weighs more than wood without a pore; weigh and measure it again") \
  row(dry_gained, "gained {} since the last weighing; dry it further, and weigh it again from {} on") \
  row(dry_lost, "lost {} since the last weighing, {} of moisture in all; dry it further, and weigh it again from {} on") \
  row(dry_took_up, "it has taken up {} of moisture since it was dry; dry and weigh it again") \
  row(dry_lay_sealed, "it lay sealed so long that it may have taken up {} of moisture; weigh it again") \
  row(dry_lay_open, "it lay open and may have taken up {} of moisture; weigh it again (if it lay sealed, enter `sealed` with its time)") \
  row(dry_hot, "dry; let it cool sealed until {}: hot wood starts the cure in the bath") \
  row(dry_in_oven, "dry ({} lost between two weighings): enter when it comes out of the oven, and seal it") \
  row(dry_but_heavier, "dry, and {} heavier since by moisture: into the bath once it is cold") \
  row(dry_but_heavier_open, "dry, and {} heavier since by moisture: into the bath once it is cold, or seal it") \
  row(dry_enough, "dry ({} lost between two weighings, {} of moisture in all): into the bath once it is cold") \
  row(dry_enough_open, "dry ({} lost between two weighings, {} of moisture in all): into the bath once it is cold, or seal it") \
  row(bath_released_early, "the vacuum of bath {} was released too early: {}; its wet mass decides") \
  row(release_no_target, "nobody entered that it reached its vacuum") \
  row(release_gauge_short, "its gauge read {}, and {} is asked for; if it got there, enter when, and what it read then") \
  row(release_no_end, "nobody entered that the bubbling ended") \
  row(release_held_short, "its vacuum was held {}, and at least {} was planned") \
  row(release_now, "release it") \
  row(resin_no_dry_mass, "its dry mass was not entered: nothing tells how full it is") \
  row(resin_not_weighed_before_saw, "not weighed between its bath and the saw: nothing tells how full it is") \
  row(resin_not_weighed, "not weighed since its bath") \
  row(resin_soaked_short, "{}; it soaked {}, and should have {}") \
  row(resin_too_much, "holds more resin than its pores have room for ({}); drain and wipe it, and check both masses and its size") \
  row(resin_too_dense, "is denser than wood can be; check its dry mass and its size") \
  row(resin_soak_longer, "soak again, about {} more: {}") \
  row(resin_soak_again, "soak again, at least as long again (common practice, no source): {}") \
  row(resin_cure, "cure it: {}") \
  row(resin_short, "short of resin, and cured wood takes no more: {}") \
  row(resin_in, "the resin is in: {}") \
  row(resin_masses, "{}, at least {}; its pores are {} full") \
  row(resin_masses_nominal, "{}, at least {}; its pores are {} full (by the order's nominal size)") \
  row(cure_soft, "{} of load {} was cut open and is not hard to the middle; cured wood cannot be cured again") \
  row(cure_cut_open, "cured: {} of load {} was cut open and is hard to the middle") \
  row(cure_by_core, "cured: load {} was held with its core at temperature") \
  row(cure_by_time, "cured, by time: load {} was in long enough for air of {}") \
  row(cure_out_from, "load {} may come out from {} on") \
  row(cure_out_from_read_air, "load {} may come out from {} on; read its air once more then") \
  row(cure_too_cold, "air of {} is too cold for time alone to tell that load {} is cured; measure its core") \
  row(cure_later_core, "load {} holds blanks whose middle warms later: measure one of those, and say which (in_blank)") \
  row(cure_read_air, "load {}: enter the true temperature of its air now and when it comes out, or that of a core") \
  row(cure_open, "nothing shows that load {} is cured{}{}; cold, it cannot be cured again") \
  row(cure_open_warms_sooner, " ({} was hard to the middle, but warms sooner)") \
  row(cure_open_in_longer, " ({} was hard to the middle, but was in longer)") \
  row(cure_open_from, " (by its readings from {} on)") \
  row(cure_open_other_core, " (its core was not measured in a blank that warms as slowly)") \
  row(cure_none_to_cut, ", and what could show it cannot be cut open any more: scrap what is held") \
  row(cure_cut_it, "; cut {} open, or scrap what is held") \
  row(cure_cut_one, "; cut a blank of it open, or scrap what is held") \
  row(witness_dry, "in {}, the witness of bath {}, the resin did not reach the middle") \
  row(witness_dry_since, "in {}, the witness of bath {}, the resin did not reach the middle: {}") \
  row(witness_not_cut, "no witness of bath {} was cut open yet") \
  row(witness_good, "in {}, the witness of bath {}, the resin reached the middle") \
  row(fill_first, "fill its voids first") \
  row(glue_sets, "its glue sets until {}") \
  row(axis_cleans_up, "cleans up: {} of wood at the tightest place, {}") \
  row(axis_tight, "tight: {} of wood (± {}) {}; {}") \
  row(axis_outside, "the form lies {} outside the wood {}; {}") \
  row(axis_where, "{} from the seat, towards face {}") \
  row(axis_where_two, "{} from the seat, towards face {} and face {}") \
  row(axis_factor, "all diameters times {} would keep the allowance") \
  row(axis_towards, "towards face {}: {} (± {}) of wood, {} from the seat") \
  row(axis_clear, "clear round the axis: a cylinder of Ø {}") \
  row(seat_out_of_square, "its seat is {} out of square, at most {}; face it again and inspect it")
// clang-format on

BW_GATE_SENTENCES(BW_SENTENCE)

namespace blankwright {

#define BW_ROW(name, words) SentenceRow{#name, words},
inline constexpr auto gate_sentences = std::to_array<SentenceRow>({BW_GATE_SENTENCES(BW_ROW)});
#undef BW_ROW

}  // namespace blankwright

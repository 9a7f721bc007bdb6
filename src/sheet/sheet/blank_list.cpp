#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <iterator>
#include <string>
#include <vector>

#include "measure/quantity_text.h"
#include "plan/wood/blank_place.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/paper/limits.h"
#include "sheet/sheet/blank_table.h"
#include "sheet/sheet/card_parts.h"
#include "sheet/sheet/ladder.h"
#include "sheet/sheet/sheets.h"

namespace blankwright {
namespace {

constexpr Length mass_width = 18.2 * mm;
constexpr Length size_width = 12 * mm;
constexpr Length tick_width = 10 * mm;
constexpr Length place_width = 13 * mm;

/// What was measured already, blank by blank; nothing where nothing was.
std::vector<std::string> seen_of(const Dossier& d, const std::function<std::string(const BlankState&)>& what) {
  if (d.seen.empty()) return {};
  std::vector<std::string> out(static_cast<std::size_t>(blank_count(d)));
  for (std::size_t n = 0; n < d.blanks.size(); ++n) {
    if (const auto state = d.seen.find(d.blanks.at(n)); state != d.seen.end()) out.at(n) = what(state->second);
  }
  return out;
}

/// "T4 2-3"; of a witness "W T4 2-3"; behind it what is to be known of a blank that something was entered of.
std::vector<std::string> places(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const auto pieces = static_cast<std::size_t>(piece_count(d)), all = static_cast<std::size_t>(blank_count(d));
  std::vector<std::string> out = seen_of(d, [&](const BlankState& blank) {
    if (blank.stage == Stage::scrapped) return w[Word::gate_scrapped];
    return d.held.contains(*blank.id) ? w[Word::hold] : std::string{};
  });
  out.resize(all);
  for (std::size_t n = 0; n < all; ++n) {
    std::string place = n < pieces ? "" : w[Word::witness_mark];
    const CutBlank* cut = d.plan.cutting ? cut_of(*d.plan.cutting, n, pieces) : nullptr;
    if (cut != nullptr) {
      place += fmt::format("{}{} {}", place.empty() ? "" : " ", d.plan.cutting->boards.at(cut->board).name,
                           position_text(*d.plan.cutting, *cut));
    }
    out.at(n) = place.empty() || out.at(n).empty() ? place + out.at(n) : place + ", " + out.at(n);
  }
  return out;
}

std::string weighed_text(const Dossier& d, const std::vector<Weighing>& weighings, std::size_t from_end) {
  if (weighings.size() <= from_end) return {};
  return shown(d, number(weighings.at(weighings.size() - 1 - from_end).net, d.shop.units.value));
}

std::string size_number(const Dossier& d, const std::optional<Length>& size) {
  return size ? shown(d, number(*size, size_printing(d, Fineness::measured))) : std::string{};
}

/// Sizes of what carries an ID through bath and oven: common practice, no source.
struct Marking {
  Length wire, hole, letters, deep;
};
constexpr Marking metric_marking{.wire = 0.7 * mm, .hole = 2 * mm, .letters = 3 * mm, .deep = 0.5 * mm};
constexpr Marking inch_marking{.wire = 0.028 * inch, .hole = 5 * inch / 64, .letters = inch / 8, .deep = 0.02 * inch};

std::string size_text(const Dossier& d, Length size) {
  const UnitSystem units = d.shop.units.value;
  return shown(d, Amount{rule_number(size, size_printing(d, Fineness::sawn)), column_unit<Length>(units)});
}

/// How the ends are marked: "... Tail waste 12.0 mm; letters 3.0 mm, 0.5 mm deep", for the bath with wire and hole.
enum class Marked { for_the_bath, on_the_wood };
std::string marking_text(const Dossier& d, Marked marked) {
  const WordTable& w = d.sheet_template.words;
  const Marking& sizes = d.shop.units.value == UnitSystem::metric ? metric_marking : inch_marking;
  std::string out = fmt::format("{} {} {}; {} {}, {} {}", w[Word::stamping_end], w[Word::stamping_tail_waste],
                                shown(d, at_most(d, d.shop.allowances.tail_waste.value, Fineness::sawn)),
                                w[Word::stamping_letter_size], size_text(d, sizes.letters), size_text(d, sizes.deep),
                                w[Word::deep]);
  if (marked == Marked::for_the_bath)
    out += fmt::format("; {} {}, {} Ø{}", w[Word::stamping_wire_size], size_text(d, sizes.wire),
                       w[Word::stamping_hole_size], size_text(d, sizes.hole));
  return out + ".";
}

/// How the blanks are marked before anything else is done to them: what goes through bath and oven by a tag of metal.
void put_marking(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  put_text(flow, {fmt::format("{}: {}; {}.", w[Word::stamping_count], blank_count(d), w[Word::stamping_tags]),
                  {.size = Lettering::hand, .face = Face::bold, .least = Lettering::hand}});
  put_text(flow,
           {w[Word::stamping_wire] + " " + marking_text(d, Marked::for_the_bath) + " " + w[Word::stamping_carry],
            hand_note});
  const std::string witness =
      d.plan.witnesses > 0 ? fmt::format(" {}: {}.", w[Word::witness_mark], w[Word::witness]) : std::string{};
  put_text(flow, {w[Word::blanks_weigh] + witness, hand_note});
}

/// Without resin there is nothing to weigh: the IDs, several in a row, each with a box to tick when its ends are
/// marked. Below the part before where there is room for it.
void put_ids(OrderFlow& flow) {
  constexpr std::size_t in_row = 4;
  constexpr Length height = 10 * mm, tick = 6 * mm;
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const std::vector<std::string> where = places(d);
  const auto rows = static_cast<double>((where.size() + in_row - 1) / in_row);
  const Length all = 11 * mm + rows * height;  // with two lines of words
  const bool below = !flow.sheets.empty() && fits(free_room(flow).height, all);
  if (below) {
    take_strip(flow, 1.5 * mm);
  } else {
    begin_part(flow, Word::blank_list);
  }
  const std::string title = below ? w[Word::blank_list] + ". " : std::string{};
  put_text(flow, {title + marking_text(d, Marked::on_the_wood) + " " + w[Word::blanks_mark_only], hand_note});
  for (std::size_t first = 0; first < where.size(); first += in_row) {
    const Box strip = next_strip(flow, height);
    Canvas canvas = canvas_of(flow);
    for (std::size_t n = first; n < std::min(first + in_row, where.size()); ++n) {
      const Length width = strip.width / static_cast<double>(in_row);
      const Box cell{strip.x + static_cast<double>(n - first) * width, strip.y, width, height};
      canvas.rectangle(cell);
      canvas.rectangle({cell.right() - tick - 2 * mm, cell.y + 2 * mm, tick, tick});
      const Box words{cell.x + 1 * mm, cell.y + 0.5 * mm, cell.width - tick - 4 * mm, height - 1 * mm};
      canvas.text_fitted({words.x, words.y, words.width, 6 * mm}, d.draft ? "" : d.blanks.at(n).shown(),
                         {.size = Lettering::machine, .face = Face::bold, .least = Lettering::machine});
      canvas.text_fitted({words.x, words.y + 6 * mm, words.width, 3 * mm}, where.at(n), {.size = Lettering::note});
    }
  }
}

using Seen = std::function<std::string(const BlankState&)>;

/// What is weighed and measured, in the order of the work.
std::vector<BlankField> measured_fields(const Dossier& d) {
  const auto mass = [&](Word word, const Seen& seen, Length width = mass_width) {
    return BlankField{mass_head(d, word), {width}, seen_of(d, seen)};
  };
  const auto size = [&](Word word, auto pick) {
    return BlankField{length_head(d, word), {size_width}, seen_of(d, [&d, pick](const BlankState& b) {
                        return b.dry_size ? size_number(d, pick(*b.dry_size)) : std::string{};
                      })};
  };
  std::vector<BlankField> fields;
  fields.push_back(mass(
      Word::tare_head, [](const BlankState&) { return std::string{}; }, 10 * mm));
  fields.push_back(mass(Word::first_weighing, [&](const BlankState& b) { return weighed_text(d, b.dry, 1); }));
  fields.push_back(mass(Word::second_weighing, [&](const BlankState& b) { return weighed_text(d, b.dry, 0); }));
  fields.push_back(size(Word::dry_width, [](const SizeSeen& s) { return std::optional{s.width}; }));
  fields.push_back(size(Word::dry_height, [](const SizeSeen& s) { return std::optional{s.depth}; }));
  fields.push_back(size(Word::dry_length, [](const SizeSeen& s) { return s.length; }));
  fields.push_back(mass(Word::wet_mass_head, [&](const BlankState& b) { return weighed_text(d, b.wet, 0); }));
  fields.push_back(mass(Word::cured_mass_head, [&](const BlankState& b) { return weighed_text(d, b.cured, 0); }));
  return fields;
}

BlankTable table_of(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  BlankTable blanks{blank_count(d), Lettering::figure, {}};
  blanks.fields = {{w[Word::stamping_place], {place_width}, places(d)}, {w[Word::blanks_marked], {tick_width}}};
  std::ranges::copy(measured_fields(d), std::back_inserter(blanks.fields));
  return blanks;
}

void put_table_below(OrderFlow& flow, const BlankTable& blanks) {
  take_strip(flow, std::min(1.5 * mm, free_room(flow).height));
  put_blank_table(flow, blanks);
}

/// So few rows that they would stand alone on the next page are there with the ladder.
void put_ladder_and(OrderFlow& flow, const BlankTable& blanks) {
  OrderFlow tried = flow;
  put_ladder(tried);
  put_table_below(tried, blanks);
  if (tried.sheets.size() > flow.sheets.size() && stands_together(flow, blanks.count)) next_sheet(flow);
  put_ladder(flow);
  put_table_below(flow, blanks);
}

}  // namespace

/// The one list of the blanks: from it tags and end marks are made, in it every blank's tare, masses and dry sizes
/// are written down, a row a blank, in the shop's units. Where resin is drawn in, the ladder stands above it, and
/// witnesses are marked. What carries an ID through bath and oven: common practice, no source.
void blank_lists(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  if (d.plan.process.resin == nullptr) return put_ids(flow);
  begin_part(flow, Word::blank_list, 130 * mm);
  put_marking(flow);
  put_drying(flow);
  if (d.plan.process.uptake) {
    put_ladder_and(flow, table_of(d));
  } else {
    put_table_below(flow, table_of(d));
  }
}

}  // namespace blankwright

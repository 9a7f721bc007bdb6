#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <string>
#include <vector>

#include "plan/wood/blank_place.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/paper/limits.h"
#include "sheet/sheet/blank_table.h"

namespace blankwright {
namespace {

constexpr Length id_capitals = 5.5 * mm;
constexpr TextStyle note_text{.capitals = 2.5 * mm, .least = 2.5 * mm};

/// "T4 2-3"; of a witness "W Witness, T4 2-3".
std::vector<std::string> places(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const auto pieces = static_cast<std::size_t>(piece_count(d)), all = static_cast<std::size_t>(blank_count(d));
  std::vector<std::string> out;
  for (std::size_t n = 0; n < all; ++n) {
    std::string place = n < pieces ? "" : fmt::format("{} {}", w[Word::witness_mark], w[Word::witness]);
    const CutBlank* cut = d.plan.cutting ? cut_of(*d.plan.cutting, n, pieces) : nullptr;
    if (cut != nullptr) {
      place += fmt::format("{}{} {}", place.empty() ? "" : ", ", d.plan.cutting->boards.at(cut->board).name,
                           position_text(*d.plan.cutting, *cut));
    }
    out.push_back(std::move(place));
  }
  return out;
}

void put_notes(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  put_text(flow, {fmt::format("{}: {}; {}.", w[Word::stamping_count], blank_count(d), w[Word::stamping_tags]),
                  {.capitals = 3 * mm, .face = Face::bold}});
  put_text(flow, {w[Word::stamping_wire], note_text});
  put_text(flow, {fmt::format("{}: {}.", w[Word::stamping_end],
                              shown(d, at_most(d, d.shop.allowances.tail_waste.value, Fineness::sawn))),
                  note_text});
}

}  // namespace

/// The list from which bath tags and end marks are made by hand: every blank with its ID, where it was sawn, and what
/// is to be done for it. What carries an ID through bath and oven, and how it is marked: common practice, no source.
std::vector<Page> stamping_sheets(const Dossier& d, const FontMetrics& fonts) {
  const WordTable& w = d.sheet_template.words;
  std::vector<BlankField> fields;
  if (d.plan.cutting || d.plan.witnesses > 0) {
    fields.push_back({w[Word::stamping_place], {26 * mm, 1}, places(d)});
  }
  for (const Word word :
       {Word::stamping_tag_made, Word::stamping_wired, Word::stamping_end_marked, Word::stamping_pencilled}) {
    fields.push_back({w[word], {18 * mm}});
  }
  OrderFlow flow = begin_flow(d, fonts, Word::stamping_sheet);
  put_notes(flow);
  put_blank_table(flow, w[Word::stamping_carry], fields, id_capitals);
  return pages_of(std::move(flow));
}

}  // namespace blankwright

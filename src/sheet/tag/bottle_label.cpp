#include "sheet/tag/bottle_label.h"

#include <fmt/format.h>

#include <array>
#include <iterator>
#include <string>

#include "plan/figure/figure.h"
#include "sheet/frame/frame.h"
#include "sheet/mark/fitted.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/left_over_resin.h"
#include "sheet/paper/limits.h"
#include "sheet/paper/said_times.h"
#include "sheet/tag/label_sheet.h"

namespace blankwright {
namespace {

constexpr Length label_border = 2 * mm;
constexpr Length name_height = 5 * mm, title_height = 3 * mm, orders_height = 3 * mm, caution_height = 6.4 * mm;
constexpr Length write_in_height = 10 * mm;  // what is written down; what is planned has the rest

std::string orders_text(const WordTable& w, const BathOnPaper& bath) {
  std::string orders = fmt::format("{} {}: ", w[Word::bath_number], bath.number);
  for (std::size_t i = 0; i < bath.shares.size(); ++i) {
    orders += (i == 0 ? "" : ", ") + bath.shares.at(i).order_id;
  }
  return orders;
}

struct LabelField {
  std::string caption, value;
};

/// What is planned, then what is written down.
std::array<LabelField, 6> fields(const Dossier& d, const PlannedBath& planned) {
  const WordTable& w = d.sheet_template.words;
  const auto on = planned.activated, until = use_by(planned);
  Figures figures;
  figures.set(Figure::bath_left_over, planned.to_bottle / Volume::unit());
  return {
      LabelField{w[Word::bottle_left_over], shown(d, card_figure(d, figures, Figure::bath_left_over))},
      LabelField{w[Word::bath_keep_below], shown(d, at_most(d, planned.bath.resin->storage_most.value))},
      LabelField{w[Word::bottle_activated], on ? day_text(d.sheet_template, *on) : "–"},
      LabelField{w[Word::bottle_really_left], ""},
      LabelField{w[Word::bath_use_by], until ? day_text(d.sheet_template, *until) : "–"},
      LabelField{w[Word::bottle_really_on], ""},
  };
}

}  // namespace

std::vector<const BathOnPaper*> bottles_of(const Dossier& d) {
  std::vector<const BathOnPaper*> labels;
  for (const BathOnPaper& bath : d.baths) {
    if (bath.planned->to_bottle > Volume{}) labels.push_back(&bath);
  }
  return labels;
}

bool bottles_go_with_tags(const Dossier& d) {
  const Template& t = d.sheet_template;
  if (t.tags.value != TagForm::labels) return false;
  const LabelSheet& sheet = tag_sheet(t);
  const int places = places_of(sheet);
  const int free = (places - blank_count(d) % places) % places;
  return std::ssize(bottles_of(d)) <= free && fits(sheet.width.value, bottle_label_width) &&
         fits(sheet.height.value, bottle_label_height);
}

void draw_bottle_label(Canvas& canvas, const Dossier& d, const BathOnPaper& bath, const Box& label) {
  const WordTable& w = d.sheet_template.words;
  const PlannedBath& planned = *bath.planned;
  const Box room = inside(label, label_border);
  std::string name = planned.bath.resin->name.value;
  if (!planned.dye.empty()) name += ", " + planned.dye;
  canvas.text_fitted({room.x, room.y, room.width, title_height}, w[Word::bottle_title], {});
  canvas.text_fitted({room.x, room.y + title_height, room.width, name_height}, name,
                     {.size = Lettering::machine, .face = Face::bold, .least = Lettering::hand});
  constexpr std::size_t in_row = 3;
  const Length top = room.y + title_height + name_height;
  const Length planned_height = room.bottom() - caution_height - orders_height - write_in_height - top;
  const Length width = room.width / static_cast<double>(in_row);
  const auto all = fields(d, planned);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool planned_field = i < in_row;
    const Box field{room.x + static_cast<double>(i % in_row) * width, top + (planned_field ? 0 * mm : planned_height),
                    width, planned_field ? planned_height : write_in_height};
    captioned(canvas, field, all.at(i).caption, all.at(i).value, Lettering::hand, Face::bold);
    canvas.rectangle(field);
  }
  fitted(canvas, {room.x, room.bottom() - caution_height - orders_height, room.width, orders_height},
         orders_text(w, bath), {.size = Lettering::note});
  fitted(canvas, {room.x, room.bottom() - caution_height, room.width, caution_height}, w[Word::bottle_caution],
         {.size = Lettering::note});
}

}  // namespace blankwright

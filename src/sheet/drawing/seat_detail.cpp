#include "sheet/drawing/seat_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "sheet/drawing/drawing_layout.h"
#include "sheet/drawing/drawing_words.h"
#include "sheet/drawing/handle_section.h"
#include "sheet/mark/draughting.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {
namespace {

constexpr std::array enlargements{10, 5, 2};
constexpr Length detail_title_height = 7 * mm;
constexpr Length words_width = 40 * mm;  // left of the seat, above and below the stud
constexpr Length words_pitch = 5.5 * mm;
constexpr Length least_stud = 8 * mm;  // on paper, between the words and the seat
constexpr Length detail_border = 3 * mm;
constexpr TextStyle words_style{.size = Lettering::hand, .align = Align::right};

/// How much of the stud before the seat and of the handle behind it is shown: what a turner looks at there.
struct Stretch {
  Length stud, handle, radius;  ///< of the part; the radius is the largest that is shown
};

Stretch stretch_of(const Dossier& d) {
  const Length major = d.order.stud.thread.value.major;
  const SeatFacts& seat = d.order.seat;
  const Length step = seat.height ? seat.height->value : 0 * mm;
  Length handle = std::max(1.5 * major, step + 0.5 * major);
  if (d.order.ferrule) handle = std::max(handle, d.order.ferrule->length.value + 0.5 * major);
  Stretch out;
  out.handle = std::min({handle, d.plan.form.length(), 0.9 * d.plan.depth.full});
  out.stud = std::min(d.plan.stud.projection, step + 0.5 * major);
  for (const Length z : d.plan.form.places_between(0 * mm, out.handle)) {
    out.radius = std::max(out.radius, d.plan.form.diameter(z) / 2);
  }
  if (d.order.ferrule) out.radius = std::max(out.radius, d.order.ferrule->outside_diameter.value / 2);
  return out;
}

/// Words that end left of the seat, with a line from there to what they name.
void name_part(Canvas& canvas, const std::string& words, Spot at, Spot part) {
  canvas.text_fitted({at.x - words_width, at.y - words_pitch / 2, words_width, words_pitch}, words, words_style);
  leader(canvas, {{at.x + 0.8 * mm, at.y}, part});
}

void draw_words(Canvas& canvas, const Dossier& d, const HandleSection& h) {
  const WordTable& w = d.sheet_template.words;
  const Printing measured = size_printing(d, Fineness::measured);
  const Length drill = h.half(d.plan.bore.drill.diameter), crest = h.half(h.thread().major);
  const Length seat = h.radius(0 * mm), inside_seat = h.seat.x + 2 * mm;
  const Length words_x = std::min(h.stud_tip(), h.seat.x - least_stud);
  const Length first = drill + 0.6 * words_pitch;  // from the axis
  const auto spot = [&](Length x, Length below) { return Spot{x, h.seat.y + below}; };
  const DrawingWords words = drawing_words(d);
  const Length seat_words = std::max(seat - 1.5 * mm, first + words_pitch);
  name_part(canvas, words.seat, spot(words_x, -seat_words),
            spot(h.seat.x, -std::min(seat_words, std::max(seat - 0.5 * mm, (seat + drill) / 2))));
  name_part(canvas, fmt::format("{} Ø{}", w[Word::bore], drawn_text(d, d.plan.bore.drill.diameter, measured)),
            spot(words_x, -first), spot(inside_seat, -drill));
  // What lies nearer to the words is named by the nearer of them, so that no leader crosses another.
  name_part(canvas, fmt::format("{} {}", w[Word::stud], h.thread().designation), spot(words_x, first),
            spot((h.stud_tip() + h.seat.x) / 2, crest));
  if (d.order.bore.fit.value != BoreFit::glued) return;
  const Length line = (d.plan.bore.drill.diameter - h.thread().major) / 2;
  name_part(canvas, fmt::format("{} {}", w[Word::glue_line], drawn_text(d, line, measured)),
            spot(words_x, first + words_pitch), spot(inside_seat, (drill + crest) / 2));
}

/// What the detail takes up at a scale: left of the seat, right of it, and to either side of the axis.
struct Extent {
  Length left, right, half;
};

Extent extent_at(int scale, const Stretch& shown, const Dossier& d) {
  const Length words = 1.6 * words_pitch + nominal(words_style.size);  // above the bore's wall and below it
  return {std::max(scale * shown.stud, least_stud) + words_width, scale * shown.handle + 2 * detail_border,
          std::max(scale * shown.radius, scale * d.plan.bore.drill.diameter / 2 + words)};
}

}  // namespace

void draw_seat_detail(Canvas& canvas, const Dossier& d, const Box& room) {
  const Stretch shown = stretch_of(d);
  const auto* const scale = std::ranges::find_if(enlargements, [&](int one) {
    const Extent e = extent_at(one, shown, d);
    return fits(room.width, e.left + e.right) &&
           fits(room.height, detail_title_height + 2 * (e.half + detail_border));
  });
  if (scale == enlargements.end()) return;
  const Extent extent = extent_at(*scale, shown, d);
  const HandleSection section{
      .plan = d.plan,
      .order = d.order,
      .seat = {room.x + extent.left, room.y + detail_title_height + detail_border + extent.half},
      .scale = static_cast<double>(*scale),
      .stud_shown = shown.stud,
      .handle_shown = shown.handle};
  canvas.text({room.x, room.y + 2.5 * mm}, fmt::format("{}, {}:1", d.sheet_template.words[Word::seat_detail], *scale),
              {.size = Lettering::hand, .face = Face::bold});
  draw_section(canvas, section, std::nullopt);
  draw_words(canvas, d, section);
}

}  // namespace blankwright

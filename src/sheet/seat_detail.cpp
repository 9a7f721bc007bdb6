#include "sheet/seat_detail.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "sheet/draughting.h"
#include "sheet/drawing_layout.h"
#include "sheet/handle_section.h"
#include "sheet/turner_facts.h"

namespace blankwright {
namespace {

constexpr std::array enlargements{10, 5, 2};
constexpr Length title_height = 7 * mm;
constexpr Length words_width = 40 * mm;  // left of the seat, above and below the stud
constexpr Length words_pitch = 5.5 * mm;
constexpr Length border = 3 * mm;
constexpr TextStyle words_style{.capitals = 2.5 * mm, .align = Align::right, .least = 1.8 * mm};

/// How much of the stud before the seat and of the handle behind it is shown: what a turner looks at there.
struct Window {
  Length stud, handle, radius;  ///< of the part; the radius is the largest that is shown
};

Window window_of(const Dossier& d) {
  const Length major = d.order.stud.thread.value.major;
  const SeatFacts& seat = d.order.seat;
  const Length step = seat.height ? seat.height->value : 0 * mm;
  Length handle = std::max(1.5 * major, step + 0.5 * major);
  if (d.order.ferrule) handle = std::max(handle, d.order.ferrule->length.value + 0.5 * major);
  Window out;
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
  const TextStyle style = [&] {
    TextStyle s = words_style;
    const Length width = canvas.width_of(words, s);
    if (width > words_width) s.capitals = std::max(s.least, words_width / width * s.capitals);
    return s;
  }();
  canvas.text({at.x, at.y + style.capitals / 2}, words, style);
  leader(canvas, {{at.x + 0.8 * mm, at.y}, part});
}

void draw_words(Canvas& canvas, const Dossier& d, const HandleSection& h) {
  const WordTable& w = d.sheet_template.words;
  const Printing measured{d.shop.units.value, Round::nearest, Fineness::measured};
  const Length drill = h.half(d.plan.bore.drill.diameter), crest = h.half(h.thread().major);
  const Length seat = h.radius(0 * mm);
  const Length words_x = std::min(h.stud_tip(), h.seat.x - 8 * mm);
  const Length first = drill + 0.6 * words_pitch;  // from the axis
  const auto spot = [&](Length x, Length below) { return Spot{x, h.seat.y + below}; };
  const DrawingWords words = drawing_words(d);
  const Length seat_words = std::max(seat - 1.5 * mm, first + words_pitch);
  name_part(canvas, words.seat, spot(words_x, -seat_words),
            spot(h.seat.x, -std::clamp(seat_words, drill + 1 * mm, seat - 0.5 * mm)));
  name_part(canvas, fmt::format("{} Ø{}", w[Word::bore], drawn_number(d.plan.bore.drill.diameter, measured)),
            spot(words_x, -first), spot(h.x(h.end() / 3), -drill));
  if (d.order.bore.fit.value == BoreFit::glued) {
    const Length line = (d.plan.bore.drill.diameter - h.thread().major) / 2;
    name_part(canvas, fmt::format("{} {}", w[Word::glue_line], drawn_number(line, measured)), spot(words_x, first),
              spot(h.x(h.end() / 3), (drill + crest) / 2));
  }
  name_part(canvas, fmt::format("{} {}", w[Word::stud], h.thread().designation), spot(words_x, first + words_pitch),
            spot((h.stud_tip() + h.seat.x) / 2, crest));
}

}  // namespace

void draw_seat_detail(Canvas& canvas, const Dossier& d, const Box& room) {
  const Window shown = window_of(d);
  const Length least_half =  // for the words above the axis and below it
      0.6 * words_pitch + words_pitch + words_style.capitals;
  const auto fits_at = [&](int scale) {
    const Length half = std::max(scale * shown.radius, scale * d.plan.bore.drill.diameter / 2 + least_half);
    const Length left = std::max(scale * shown.stud, 8 * mm) + words_width;
    return fits(room.width, left + scale * shown.handle + 2 * border) &&
           fits(room.height, title_height + 2 * (half + border));
  };
  const auto* const scale = std::ranges::find_if(enlargements, fits_at);
  if (scale == enlargements.end()) return;
  const Length half = std::max(*scale * shown.radius, *scale * d.plan.bore.drill.diameter / 2 + least_half);
  const Length left = std::max(*scale * shown.stud, 8 * mm) + words_width;
  const HandleSection section{.plan = d.plan,
                              .order = d.order,
                              .seat = {room.x + left, room.y + title_height + border + half},
                              .scale = static_cast<double>(*scale),
                              .stud_shown = shown.stud,
                              .handle_shown = shown.handle};
  canvas.text({room.x, room.y + 2.5 * mm}, fmt::format("{}, {}:1", d.sheet_template.words[Word::seat_detail], *scale),
              {.capitals = 2.5 * mm, .face = Face::bold});
  draw_section(canvas, section, std::nullopt);
  draw_words(canvas, d, section);
}

}  // namespace blankwright

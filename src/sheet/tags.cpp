#include "sheet/tags.h"

#include <fmt/format.h>

#include <array>
#include <optional>

#include "diagnose/failure.h"
#include "sheet/canvas.h"
#include "sheet/frame.h"
#include "sheet/qr.h"

namespace blankwright {
namespace {

constexpr Length safe_margin = 2.5 * mm;    // inside a label: cutters and printers are off by that much
constexpr Length box_height = 8.5 * mm;     // for a mass written by hand
constexpr Length largest_code = 27 * mm;    // with its quiet zone; read from 20 to 30 cm
constexpr Length least_box_room = 31 * mm;  // a label lower than this has no room for boxes

/// What all tags of an order share, worked out once.
struct TagLayout {
  Box room;  ///< of the label, inside its safe margin, from the label's corner
  Box code;  ///< for the code and its quiet zone
  bool boxes = false;
  Box words;  ///< beside the code
};

struct CodePlace {
  int version = 0;
  QrPlacing place;
};

/// Where a code stands in that room, the same for every ID: version 2 first, which bears the most damage, then
/// version 1, which holds an ID at level H as well.
std::optional<CodePlace> code_place(const Box& room) {
  for (const int version : {2, 1}) {
    if (const auto place = placed_qr(17 + 4 * version, room))
      return CodePlace{version, *place};  // ISO/IEC 18004, 5.3.1
  }
  return std::nullopt;
}

std::optional<Matrix> code_for(const BlankId& id, const Box& room) {
  const auto where = code_place(room);
  if (!where) return std::nullopt;
  auto symbol = qr_symbol({.text = id.encoded(),
                           .level = QrLevel::high,
                           .least_version = where->version,
                           .most_version = where->version});
  BW_EXPECT(symbol.has_value());  // an ID of seven symbols is held by version 1 at level H
  return Matrix{where->place.at, where->place.module, symbol->side, std::move(symbol->black)};
}

TagLayout layout_of(const LabelSheet& sheet) {
  const Box label{0 * mm, 0 * mm, sheet.width.value, sheet.height.value};
  TagLayout t;
  t.room = inside(label, safe_margin);
  t.boxes = sheet.height.value >= least_box_room;
  const Length above_boxes = t.boxes ? t.room.height - box_height - 1 * mm : t.room.height;
  // The quiet zone may reach into the safe margin: it is white anyhow.
  const Length side = std::min(std::min(above_boxes + 2 * safe_margin - 0.5 * mm, largest_code), label.width * 0.4);
  t.code = {0.25 * mm, 0.25 * mm, side, side};
  const auto place = code_place(t.code);
  const Length x = place ? place->place.with_border.right() : t.room.x;
  t.words = {x, t.room.y, t.room.right() - x, above_boxes};
  return t;
}

void draw_boxes(Canvas& canvas, const Dossier& d, const Box& label, const TagLayout& t) {
  const WordTable& w = d.sheet_template.words;
  const std::string unit = d.shop.units.value == UnitSystem::metric ? "g" : "oz";
  const std::array captions{w[Word::tare], w[Word::dry_mass], w[Word::wet_mass], w[Word::cured_mass]};
  const auto count = t.room.width >= 80 * mm ? captions.size() : std::size_t{2};
  const std::size_t first = count == captions.size() ? 0 : 1;
  const Length width = t.room.width / static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    const Box box{label.x + t.room.x + static_cast<double>(i) * width, label.y + t.room.bottom() - box_height, width,
                  box_height};
    canvas.rectangle(box);
    canvas.text_fitted({box.x + 0.8 * mm, box.y + 0.6 * mm, box.width - 1.6 * mm, 2.2 * mm},
                       captions.at(first + i) + ", " + unit, {.capitals = 1.8 * mm, .least = 1.2 * mm});
  }
}

/// "sawn 48 × 128 mm", "sawn 1-7/8 × 2-5/16 in": as the saw's fence is set.
std::string sawn_text(const Dossier& d) {
  const BlankSize& b = d.plan.blank;
  if (!b.sawn_section) return {};
  const std::string word = d.sheet_template.words[Word::sawn];
  if (d.shop.units.value == UnitSystem::metric) {
    const Printing how{UnitSystem::metric, Round::up, Fineness::sawn};
    return fmt::format("{} {} × {}", word, number(*b.sawn_section, how), text(*b.sawn_length, how));
  }
  return fmt::format("{} {} × {} in", word, vulgar_fraction(*b.sawn_section, Round::up),
                     vulgar_fraction(*b.sawn_length, Round::up));
}

/// A line of a tag and the place of what it says, for the case that it finds no room.
struct TagLine {
  std::string words;
  Place from;
  Face face = Face::regular;
};

/// Draws a tag's words. Returns the first line that found no room, if there is one.
std::optional<TagLine> draw_words(Canvas& canvas, const Dossier& d, const Box& words,
                                  const std::optional<BlankId>& id, int n) {
  const WordTable& w = d.sheet_template.words;
  const Length id_height = std::min(9 * mm, words.height * 0.36);
  const TagLine title{id ? id->shown() : w[Word::draft], d.sheet_template.tag_sheet.at, Face::bold};
  if (!canvas.text_in({words.x, words.y, words.width, id_height}, title.words,
                      {.capitals = std::min(6 * mm, id_height), .face = Face::bold, .least = 2 * mm})) {
    return title;
  }
  const std::array lines{TagLine{fmt::format("{}  {} {} {}", d.order.id.value, n, w[Word::of_blanks], blank_count(d)),
                                 d.order.id.at, Face::bold},
                         TagLine{d.order.item.value, d.order.item.at}, TagLine{wood_text(d), d.order.wood.species.at},
                         TagLine{sawn_text(d), d.sheet_template.tag_sheet.at}};
  const Length step = (words.height - id_height - 0.6 * mm) / static_cast<double>(lines.size());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const Box line{words.x, words.y + id_height + 0.6 * mm + static_cast<double>(i) * step, words.width, step};
    const TextStyle style{.capitals = std::min(3 * mm, step * 0.66), .face = lines.at(i).face, .least = 1.1 * mm};
    if (!canvas.text_in(line, lines.at(i).words, style)) return lines.at(i);
  }
  return std::nullopt;
}

/// Draws one tag. Returns the first line that found no room, if there is one.
std::optional<TagLine> draw_tag(Canvas& canvas, const Dossier& d, const Box& label, const TagLayout& t,
                                const std::optional<BlankId>& id, int n) {
  if (id) {
    const auto code = code_for(*id, {label.x + t.code.x, label.y + t.code.y, t.code.width, t.code.height});
    if (!code) return TagLine{id->encoded(), d.sheet_template.tag_sheet.at};
    canvas.add(*code, Role::code);
  }
  if (t.boxes) draw_boxes(canvas, d, label, t);
  return draw_words(canvas, d, {label.x + t.words.x, label.y + t.words.y, t.words.width, t.words.height}, id, n);
}

void say_no_room(const Dossier& d, const TagLine& line, Diagnostics& out) {
  out.error(
         Problem::text_does_not_fit, line.from,
         fmt::format("\"{}\" finds no room on a label of \"{}\"", line.words, tag_sheet(d.sheet_template).name.value))
      .hint("shorten it, or take a larger label: `tag_sheet` in the template");
}

}  // namespace

void check_tags(const Dossier& d, const FontMetrics& fonts, Diagnostics& out) {
  const LabelSheet& sheet = tag_sheet(d.sheet_template);
  Page scratch{paper_of(sheet.paper.value), {}, {}};
  Canvas canvas{scratch, fonts};
  const Box label{0 * mm, 0 * mm, sheet.width.value, sheet.height.value};
  const auto without_room = draw_tag(canvas, d, label, layout_of(sheet), BlankId::nth(0), blank_count(d));
  if (without_room) say_no_room(d, *without_room, out);
}

std::vector<Page> tag_pages(const Dossier& d, const FontMetrics& fonts, Diagnostics& out) {
  const LabelSheet& sheet = tag_sheet(d.sheet_template);
  const TagLayout t = layout_of(sheet);
  const int a_page = sheet.columns.value * sheet.rows.value;
  std::vector<Page> pages;
  for (int i = 0; i < blank_count(d); ++i) {
    if (i % a_page == 0) {
      pages.push_back({paper_of(sheet.paper.value), {}, d.sheet_template.words[Word::tags_sheet]});
      Canvas canvas{pages.back(), fonts};
      if (d.draft) draw_draft(canvas);
    }
    Canvas canvas{pages.back(), fonts};
    const int place = i % a_page;
    const Box label{sheet.left.value + place % sheet.columns.value * sheet.pitch_x.value,
                    sheet.top.value + place / sheet.columns.value * sheet.pitch_y.value, sheet.width.value,
                    sheet.height.value};
    const auto id = d.draft ? std::nullopt : std::optional{d.blanks.at(static_cast<std::size_t>(i))};
    const auto without_room = draw_tag(canvas, d, label, t, id, i + 1);
    if (without_room && !out.has_errors()) say_no_room(d, *without_room, out);  // the next tags would say the same
  }
  return pages;
}

}  // namespace blankwright

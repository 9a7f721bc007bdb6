#include "sheet/turner_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "sheet/fitted.h"
#include "sheet/frame.h"

namespace blankwright {
namespace {

constexpr Length border = 1 * mm;
constexpr TextStyle caption_style{.capitals = 1.8 * mm, .least = 1.2 * mm};

void draw_caption(Canvas& canvas, const Box& cell, const std::string& words) {
  fitted(canvas, {cell.x + border, cell.y + 0.2 * mm, cell.width - 2 * border, 3.2 * mm}, words, caption_style);
}

struct TitleCell {
  std::string caption, value;
  double share;
};

std::string tolerance_text(const Dossier& d) {
  return fmt::format("{} ±{}", d.sheet_template.words[Word::tolerance_note],
                     text(d.order.handle.tolerance.value, station_printing(d, Round::down)));
}

/// A setting as it is printed: what is looked for first large, what goes with it small below.
struct Setting {
  std::string caption, large, small;
  double share;
};

/// "1-5/16 in (1.312)" as what a rule shows and the decimal that goes with it.
Setting setting(std::string caption, const std::string& value, std::string rule, double share) {
  const std::size_t cut = value.find(" (");
  Setting out{std::move(caption), value.substr(0, cut), std::move(rule), share};
  if (cut != std::string::npos) out.small = value.substr(cut + 1) + (out.small.empty() ? "" : " ") + out.small;
  return out;
}

std::array<Setting, 6> settings(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const auto figure = [&](Figure f) { return text(f, d.plan.figures.get(f), d.shop.units.value); };
  const std::string& drill = d.plan.bore.drill.name;
  const bool says_its_size = drill.ends_with(" mm") || drill.ends_with(" in");
  return {
      setting(w[Word::drill], drill, says_its_size ? "" : figure(Figure::bore_diameter), 0.12),
      setting(w[Word::depth_stop], figure(Figure::bore_depth_from_drilled_face), w[Word::depth_stop_rule], 0.19),
      setting(w[Word::metal_zone], text(d.plan.stud.embedded, metal_printing(d)), w[Word::metal_zone_rule], 0.18),
      setting(w[Word::speed_ceiling], figure(Figure::turning_speed_ceiling), w[Word::speed_note], 0.17),
      setting(w[Word::section] + ", " + w[Word::state_squared], figure(Figure::blank_squared_section), "", 0.17),
      setting(w[Word::length] + ", " + w[Word::state_squared], figure(Figure::blank_squared_length), "", 0.17),
  };
}

/// What is printed small: a note or a caution each, the first of a kind under its title.
std::vector<Block> small_blocks(const Canvas& canvas, const Dossier& d, Length width, Length capitals) {
  const WordTable& w = d.sheet_template.words;
  const TextStyle plain{.capitals = capitals, .least = capitals};
  TextStyle title = plain;
  title.face = Face::bold;
  std::vector<Block> blocks;
  if (d.order.notes) {
    std::string notes = d.order.notes->value;
    std::replace(notes.begin(), notes.end(), '\n', ' ');
    const std::array phrases{Phrase{w[Word::notes], title}, Phrase{std::move(notes), plain}};
    blocks.push_back(set_block(canvas, phrases, width));
  }
  bool first = true;
  for (const auto& caution : d.sheet_template.cautions) {
    const std::array phrases{Phrase{first ? w[Word::cautions_title] : "", title}, Phrase{"• " + caution.value, plain}};
    blocks.push_back(set_block(canvas, phrases, width));
    first = false;
  }
  return blocks;
}

Length height_of(std::span<const Block> blocks) {
  Length height;
  for (const Block& block : blocks) height += block.height;
  return height;
}

SmallPrint in_two_columns(const std::vector<Block>& blocks) {
  SmallPrint best;
  for (std::size_t cut = 0; cut <= blocks.size(); ++cut) {
    const std::span all{blocks};
    const Length height = std::max(height_of(all.first(cut)), height_of(all.subspan(cut)));
    if (cut > 0 && height >= best.height) continue;
    const auto middle = blocks.begin() + static_cast<std::ptrdiff_t>(cut);
    best = {{blocks.begin(), middle}, {middle, blocks.end()}, height};
  }
  return best;
}

}  // namespace

void draw_title_block(Canvas& canvas, const Dossier& d, const Box& box, std::string_view scale) {
  const WordTable& w = d.sheet_template.words;
  const auto or_not = [&](const auto& given) { return given ? given->value : w[Word::not_stated]; };
  const bool metric = d.shop.units.value == UnitSystem::metric;
  const std::array cells{
      TitleCell{w[Word::owner], d.order.client.value, 0.19},
      TitleCell{w[Word::drawing], or_not(d.order.drawing), 0.12},
      TitleCell{w[Word::revision], or_not(d.order.revision), 0.06},
      TitleCell{w[Word::issue_date], d.draft ? w[Word::draft] : day_text(d, date_of(d.shop.zone.value, d.at)), 0.11},
      TitleCell{w[Word::created_by], d.shop.name.value, 0.16},
      TitleCell{w[Word::approved_by], "", 0.11},
      TitleCell{w[Word::scale], std::string{scale}, 0.06},
      TitleCell{w[Word::units], w[metric ? Word::units_metric : Word::units_inch], 0.09},
      TitleCell{w[Word::tolerance], tolerance_text(d), 0.1},
  };
  Box cell{box.x, box.y, {}, box.height};
  for (const TitleCell& c : cells) {
    cell.width = box.width * c.share;
    canvas.rectangle(cell);
    draw_caption(canvas, cell, c.caption);
    if (!c.value.empty()) {
      fitted(canvas, {cell.x + border, cell.y + 3.4 * mm, cell.width - 2 * border, cell.height - 3.7 * mm}, c.value,
             {.capitals = 2.5 * mm, .least = 1.3 * mm});
    }
    cell.x = cell.right();
  }
}

void draw_settings(Canvas& canvas, const Dossier& d, const Box& box) {
  Box cell{box.x, box.y, {}, box.height};
  for (const Setting& s : settings(d)) {
    cell.width = box.width * s.share;
    const Length width = cell.width - 2.4 * border;
    canvas.rectangle(cell, wide_line);
    draw_caption(canvas, cell, s.caption);
    TextStyle large{.capitals = 5 * mm, .face = Face::bold};
    large.capitals = std::min(large.capitals, large.capitals * (width / canvas.width_of(s.large, large)));
    canvas.text({cell.x + 1.2 * border, cell.y + 4.2 * mm + 5 * mm}, s.large, large);
    if (!s.small.empty()) {
      fitted(canvas, {cell.x + 1.2 * border, cell.y + 9.9 * mm, width, cell.height - 10.1 * mm}, s.small,
             {.capitals = 2.2 * mm, .least = 1.3 * mm});
    }
    cell.x = cell.right();
  }
}

SmallPrint small_print(const Canvas& canvas, const Dossier& d, Length width, Length capitals, Length most) {
  const Length column = (width - 4 * mm) / 2;
  std::vector<Block> blocks = small_blocks(canvas, d, column, capitals);
  SmallPrint print = in_two_columns(blocks);
  for (int left_out = 1; print.height > most && blocks.size() > 1; ++left_out) {
    if (left_out > 1) blocks.pop_back();
    const std::array more{Phrase{fmt::format("{} {}", left_out, d.sheet_template.words[Word::cautions_left_out]),
                                 {.capitals = capitals, .face = Face::bold, .least = capitals}}};
    blocks.back() = set_block(canvas, more, column);
    print = in_two_columns(blocks);
  }
  return print;
}

void draw_small_print(Canvas& canvas, const SmallPrint& print, const Box& box) {
  const Length column = (box.width - 4 * mm) / 2;
  Spot at{box.x, box.y};
  for (const auto* side : {&print.left, &print.right}) {
    for (const Block& block : *side) {
      place_block(canvas, at, block);
      at.y += block.height;
    }
    at = {box.x + column + 4 * mm, box.y};
  }
}

}  // namespace blankwright

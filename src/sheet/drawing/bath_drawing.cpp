#include "sheet/drawing/bath_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "sheet/mark/block.h"
#include "sheet/mark/draughting.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

constexpr Length label_width = 31 * mm;
constexpr Length flange = 2 * mm;             // of the rim, on paper
constexpr Length leader_room = 5 * mm;        // between section and labels
constexpr Length plan_gap = 3 * mm;           // between labels and plan
constexpr Length bath_title_height = 7 * mm;  // below the drawing
constexpr Length above_rim = 3 * mm;
constexpr Length ballast_pitch = 2 * mm;
constexpr Length least_ballast = 1 * mm;  // on paper
constexpr TextStyle title_text{.size = Lettering::note};
constexpr TextStyle label_title{.size = Lettering::note, .face = Face::bold};

bool is_round(const VesselFacts& vessel) { return vessel.shape.value == VesselShape::round; }
Length across(const VesselFacts& vessel) { return is_round(vessel) ? vessel.diameter->value : vessel.width->value; }
Length along(const VesselFacts& vessel) { return is_round(vessel) ? vessel.diameter->value : vessel.depth->value; }

/// "2 × 6 + 4": how many stand in each layer, from the lowest up.
std::string by_layer(int count, int in_layer) {
  const int full = count / in_layer, rest = count % in_layer;
  std::string out = full > 1 ? fmt::format("{} × {}", full, in_layer) : full == 1 ? fmt::format("{}", in_layer) : "";
  if (rest > 0) out += fmt::format("{}{}", out.empty() ? "" : " + ", rest);
  return out;
}

/// Something beside the section, with a line to the height that it speaks of.
struct BathLabel {
  Length at;  ///< on paper
  Block words;
};

class BathDrawing {
 public:
  BathDrawing(Canvas& canvas, const Box& box, const Dossier& dossier, const PlannedBath& planned)
      : canvas_{canvas},
        box_{box},
        d_{dossier},
        w_{dossier.sheet_template.words},
        planned_{planned},
        bath_{planned.bath},
        vessel_{*planned.bath.vessel},
        scale_{bath_scale(vessel_, box.width, box.height)},
        count_{std::accumulate(planned.blanks.begin(), planned.blanks.end(), 0,
                               [](int sum, const BathBlanks& blanks) { return sum + blanks.count; })} {
    const Length height = scale_.drawn(vessel_.height.value);
    const Length room = box.height - bath_title_height - above_rim;
    section_ = {box.x + flange, box.y + above_rim + (room - height), scale_.drawn(across(vessel_)), height};
    const Length depth = scale_.drawn(along(vessel_));
    plan_ = {section_.right() + flange + leader_room + label_width + plan_gap,
             box.y + above_rim + std::max(0 * mm, (room - depth) / 2), scale_.drawn(across(vessel_)), depth};
  }

  void draw_section() {
    draw_blanks();
    draw_ballast();
    canvas_.line({section_.x, height_at(bath_.end_height)}, {section_.right(), height_at(bath_.end_height)},
                 narrow_line, Dash::hidden);
    draw_surface(height_at(bath_.start_height));
    const Length rim = section_.y;
    canvas_.polyline({{section_.x - flange, rim},
                      {section_.x, rim},
                      {section_.x, section_.bottom()},
                      {section_.right(), section_.bottom()},
                      {section_.right(), rim},
                      {section_.right() + flange, rim}},
                     wide_line);
  }

  /// The ones that are looked for first come first.
  std::vector<BathLabel> labels_in(Lettering size) const {
    return {
        label(height_at(bath_.start_height), Word::bath_level_start,
              level(Figure::bath_start_height, Figure::bath_start_dip), size),
        label(height_at(bath_.end_height), Word::bath_level_end, level(Figure::bath_end_height, Figure::bath_end_dip),
              size),
        label(height_at(bath_.layout.top), Word::bath_tops,
              "↑ " + shown(d_, at_least(d_, bath_.layout.top, Fineness::sawn)), size),
        label((section_.y + height_at(bath_.start_height)) / 2, Word::bath_foam,
              shown(d_, card_figure(d_, planned_.figures, Figure::bath_headspace)), size),
        label(ballast_.y + ballast_.height / 2, Word::bath_ballast, shown(d_, ballast_to_weigh(d_, bath_.ballast)),
              size),
    };
  }

  /// As many labels as find room; smaller where levels, tops and room for foam would not.
  void draw_labels() {
    constexpr std::size_t needed = 4;
    std::vector<BathLabel> labels;
    Length pitch;
    for (const Lettering size : {Lettering::hand, Lettering::note}) {
      labels = labels_in(size);
      pitch = {};
      for (const BathLabel& l : labels) pitch = std::max(pitch, l.words.height + 0.4 * mm);
      const auto room = static_cast<std::size_t>(std::max(0.0, (box_.height - bath_title_height) / pitch - 1e-9));
      labels.resize(std::min(labels.size(), room), labels.front());
      if (labels.size() >= needed) break;
    }
    std::ranges::sort(labels, {}, &BathLabel::at);
    std::vector<Length> wished;
    for (const BathLabel& l : labels) wished.push_back(l.at);
    const auto places = spread(wished, pitch, box_.y + pitch / 2, box_.bottom() - bath_title_height - pitch / 2);
    BW_EXPECT(places);
    for (std::size_t i = 0; i < labels.size(); ++i) draw_label(labels.at(i), places->at(i));
  }

  void draw_plan() {
    const Spot middle{plan_.x + plan_.width / 2, plan_.y + plan_.height / 2};
    if (is_round(vessel_)) {
      canvas_.circle(middle, plan_.width / 2, wide_line);
    } else {
      canvas_.rectangle(plan_, wide_line);
    }
    const BathLayout& layout = bath_.layout;
    const Length width = scale_.drawn(layout.cell_across), depth = scale_.drawn(layout.cell_along);
    const int lowest = std::min(count_, layout.in_layer);
    for (std::size_t i = 0; i < layout.cell_x.size(); ++i) {
      const Spot at{middle.x + scale_.drawn(layout.cell_x.at(i)), middle.y - scale_.drawn(layout.cell_y.at(i))};
      const bool used = static_cast<int>(i) < lowest;
      canvas_.outline(corners({at.x - width / 2, at.y - depth / 2, width, depth}), narrow_line,
                      used ? Dash::solid : Dash::hidden);
      if (used) draw_place_number(at, static_cast<int>(i) + 1, width, depth);
    }
  }

  void draw_titles() {
    const Length y = box_.bottom() - bath_title_height;
    const Length left = 0.6 * box_.width, right = box_.width - left - plan_gap;
    canvas_.text_fitted({box_.x, y, left, bath_title_height},
                        fmt::format("{}, 1:{}   {}", w_[Word::bath_section], scale_.reduction, w_[Word::bath_arrows]),
                        title_text);
    TextStyle beside = title_text;
    beside.align = Align::right;
    canvas_.text_fitted({box_.right() - right, y, right, bath_title_height},
                        fmt::format("{} ({})", w_[Word::bath_layer], by_layer(count_, bath_.layout.in_layer)),
                        beside);
  }

 private:
  Length height_at(Length from_bottom) const { return section_.bottom() - scale_.drawn(from_bottom); }

  /// "↑ 141.1 ↓ 118.9 mm": the unit once.
  std::string level(Figure from_bottom, Figure from_rim) const {
    const Printed height = card_figure(d_, planned_.figures, from_bottom);
    return fmt::format("↑ {} ↓ {}",
                       height.amounts.empty() ? shown(d_, height) : shown(d_, height.amounts.front().number),
                       shown(d_, card_figure(d_, planned_.figures, from_rim)));
  }

  /// The places that the section runs through: of the row next to the middle.
  std::vector<std::size_t> cut_places() const {
    const std::vector<Length>& y = bath_.layout.cell_y;
    std::vector<std::size_t> cut;
    if (y.empty()) return cut;
    const Length row = *std::ranges::min_element(y, {}, [](Length at) { return abs(at); });
    for (std::size_t i = 0; i < y.size(); ++i) {
      if (abs(y.at(i) - row) < 0.1 * mm) cut.push_back(i);
    }
    return cut;
  }

  /// How high the largest of the blanks is as it stands or lies.
  Length blank_height() const {
    Length most;
    for (const BathBlanks& blanks : planned_.blanks) {
      most = std::max(most, bath_.layout.stance == Stance::standing ? blanks.length : blanks.section);
    }
    return most;
  }

  void draw_blanks() {
    const BathLayout& layout = bath_.layout;
    const Length middle = section_.x + section_.width / 2;
    const Length width = scale_.drawn(layout.cell_across), height = scale_.drawn(blank_height());
    for (int layer = 0; layer < layout.layers; ++layer) {
      const int in_it = std::min(layout.in_layer, count_ - layer * layout.in_layer);
      const Length top = height_at((layer + 1.0) / layout.layers * layout.top);
      for (const std::size_t i : cut_places()) {
        if (static_cast<int>(i) >= in_it) continue;
        const Box blank{middle + scale_.drawn(layout.cell_x.at(i)) - width / 2, top, width, height};
        canvas_.strokes(hatching(corners(blank), {}, ballast_pitch), narrow_line);
        canvas_.rectangle(blank, wide_line);
      }
    }
  }

  void draw_ballast() {
    const auto& x = bath_.layout.cell_x;
    const Length half = bath_.layout.cell_across / 2;
    const auto [low, high] = std::ranges::minmax(x);
    const Area covered = static_cast<double>(std::clamp(count_, 1, std::max(1, bath_.layout.in_layer))) *
                         bath_.layout.cell_across * bath_.layout.cell_along;
    const Length own = bath_.ballast / d_.shop.bath.ballast_density.value / covered;
    const Length under = bath_.end_height - bath_.layout.top;
    const Length thick = std::max(least_ballast, scale_.drawn(std::min(own, under)));
    const Length top = height_at(bath_.layout.top);
    const Length left = section_.x + section_.width / 2 + scale_.drawn(low - half);
    ballast_ = {left, top - thick, scale_.drawn(high - low + 2 * half), thick};
    if (bath_.ballast > 0 * gram) canvas_.filled(corners(ballast_));
  }

  /// The level with the sign of a surface standing on it.
  void draw_surface(Length y) {
    canvas_.line({section_.x, y}, {section_.right(), y}, wide_line);
    const Length x = section_.x + 4 * mm;
    canvas_.outline({{x, y}, {x - 1.3 * mm, y - 2.2 * mm}, {x + 1.3 * mm, y - 2.2 * mm}}, narrow_line);
    canvas_.line({x - 1.3 * mm, y + 0.8 * mm}, {x + 1.3 * mm, y + 0.8 * mm});
    canvas_.line({x - 0.7 * mm, y + 1.5 * mm}, {x + 0.7 * mm, y + 1.5 * mm});
  }

  BathLabel label(Length at, Word title, const std::string& figures, Lettering size) const {
    const std::array phrases{Phrase{w_[title], label_title}, Phrase{figures, {.size = size, .least = size}}};
    return {at, set_block(canvas_, phrases, label_width)};
  }

  void draw_label(const BathLabel& label, Length middle) {
    const Length from = section_.right(), to = from + flange + leader_room;
    canvas_.polyline({{from, label.at}, {from + flange, label.at}, {to - 1 * mm, middle}}, narrow_line);
    place_block(canvas_, {to, middle - label.words.height / 2}, label.words);
  }

  void draw_place_number(Spot at, int number, Length width, Length depth) {
    const TextStyle style{.size = Lettering::note, .align = Align::centre};
    const std::string words = fmt::format("{}", number);
    // Apart from the next cell's, which would read as one number with it.
    if (canvas_.width_of(words, style) + 1.2 * mm > width || canvas_.capitals(style.size) + 0.6 * mm > depth) return;
    canvas_.text({at.x, at.y + canvas_.capitals(style.size) / 2}, words, style);
  }

  Canvas& canvas_;
  Box box_;
  const Dossier& d_;
  const WordTable& w_;
  const PlannedBath& planned_;
  const Bath& bath_;
  const VesselFacts& vessel_;
  BathScale scale_;
  int count_;
  Box section_{}, plan_{}, ballast_{};
};

}  // namespace

BathScale bath_scale(const VesselFacts& vessel, Length width, Length all) {
  const Length for_both = width - 2 * flange - leader_room - label_width - plan_gap;
  const Length height = all - bath_title_height - above_rim;
  BathScale scale;
  while (!fits(for_both, 2 * scale.drawn(across(vessel))) || !fits(height, scale.drawn(vessel.height.value)) ||
         !fits(height, scale.drawn(along(vessel)))) {
    ++scale.reduction;
  }
  return scale;
}

void draw_bath(Canvas& canvas, const Box& box, const Dossier& dossier, const PlannedBath& bath) {
  BathDrawing drawing{canvas, box, dossier, bath};
  drawing.draw_section();
  drawing.draw_labels();
  drawing.draw_plan();
  drawing.draw_titles();
}

}  // namespace blankwright

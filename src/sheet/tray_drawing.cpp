#include "sheet/tray_drawing.h"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/draughting.h"
#include "sheet/limits.h"

namespace blankwright {
namespace {

constexpr Length beside = 20 * mm;        // dimensions of the gaps
constexpr Length title_height = 10 * mm;  // two lines below the drawing
constexpr Length dimension_text = 2.5 * mm;

/// Rows of the grid as the oven has it: x across its width, y into its depth.
struct Grid {
  int columns, rows;
  Length width, depth;  ///< of a place
};

Grid grid_of(const Tray& tray) {
  const OvenLoad& layout = tray.load->layout;
  if (layout.turned) return {layout.along, layout.across, tray.length, tray.section};
  return {layout.across, layout.along, tray.section, tray.length};
}

class TrayDrawing {
 public:
  TrayDrawing(Canvas& canvas, const Box& box, const Dossier& dossier, const Tray& tray)
      : canvas_{canvas},
        box_{box},
        d_{dossier},
        w_{dossier.sheet_template.words},
        oven_{*tray.load->oven},
        tray_{tray},
        grid_{grid_of(tray)} {
    const Length height = box.height - title_height;
    while (!fits(box.width - beside, drawn(oven_.width.value)) || !fits(height, drawn(oven_.depth.value)))
      ++reduction_;
    walls_ = {box.x, box.y, drawn(oven_.width.value), drawn(oven_.depth.value)};
  }

  void draw() {
    canvas_.rectangle(walls_, wide_line);
    canvas_.strokes({closed(inside(walls_, drawn(oven_.clearance.value)))}, narrow_line, Dash::hidden);
    const int used = on_shelves(tray_).front();
    for (int n = 0; n < grid_.columns * grid_.rows; ++n) draw_place(place(n), n < used);
    draw_clearance();
    draw_gaps();
    draw_titles();
  }

 private:
  Length drawn(Length length) const { return length / reduction_; }

  static Path closed(const Box& box) {
    return {{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}, {box.x, box.y}};
  }

  Length extent(int count, Length size) const { return count * drawn(size) + (count - 1) * drawn(oven_.gap.value); }

  /// The n-th place, row by row from the front; the grid in the middle of the shelf.
  Box place(int n) const {
    const int column = n % grid_.columns, row = n / grid_.columns;
    const Length gap = drawn(oven_.gap.value), width = drawn(grid_.width), depth = drawn(grid_.depth);
    const Length left = walls_.x + (walls_.width - extent(grid_.columns, grid_.width)) / 2;
    const Length bottom = walls_.bottom() - (walls_.height - extent(grid_.rows, grid_.depth)) / 2;
    return {left + column * (width + gap), bottom - depth - row * (depth + gap), width, depth};
  }

  void draw_place(const Box& box, bool used) {
    if (!used) {
      canvas_.strokes({closed(box)}, narrow_line, Dash::hidden);
      return;
    }
    canvas_.rectangle(box, 0.35 * mm);
    // Two lines of grain along the blank, so that it reads as wood from above.
    std::vector<Path> grain;
    for (const double share : {1.0 / 3, 2.0 / 3}) {
      if (tray_.load->layout.turned) {
        const Length y = box.y + share * box.height;
        grain.push_back({{box.x + 1 * mm, y}, {box.right() - 1 * mm, y}});
      } else {
        const Length x = box.x + share * box.width;
        grain.push_back({{x, box.y + 1 * mm}, {x, box.bottom() - 1 * mm}});
      }
    }
    canvas_.strokes(std::move(grain), narrow_line);
  }

  std::string not_less(Length length) const {
    const Printing how = at_least_printing(d_, Fineness::sawn);
    return fmt::format("≥ {} {}", rule_number(length, how), length_unit(how.system));
  }

  /// Words beside the oven with a line to what they speak of.
  void note(Spot at, Length y, const std::string& first, const std::string& second) {
    const Length from = walls_.right() + 2 * mm, to = box_.right();
    canvas_.polyline({at, {walls_.right() + 1 * mm, y}}, narrow_line);
    const TextStyle bold{.capitals = dimension_text, .face = Face::bold, .least = 1.8 * mm};
    canvas_.text_fitted({from, y - 4.2 * mm, to - from, 4 * mm}, first, {.capitals = dimension_text});
    canvas_.text_fitted({from, y, to - from, 4 * mm}, second, bold);
  }

  void draw_clearance() {
    const Length y = walls_.y + 5 * mm;
    note({walls_.right() - drawn(oven_.clearance.value) / 2, y}, y, w_[Word::oven_clearance],
         not_less(oven_.clearance.value));
  }

  void draw_gaps() {
    if (grid_.columns * grid_.rows < 2) return;
    const Box corner = place(grid_.columns - 1);
    const Length half = drawn(oven_.gap.value) / 2;
    const Length y = walls_.bottom() - 8 * mm;
    if (grid_.rows > 1) {
      note({corner.right(), corner.y - half}, y, w_[Word::oven_gap], not_less(oven_.gap.value));
      return;
    }
    // Beside each other only: the line leaves the gap towards the door, clear of the blanks.
    const Spot out{corner.x - half, corner.bottom() + drawn(oven_.clearance.value) / 2};
    canvas_.line({out.x, corner.bottom()}, out);
    note(out, y, w_[Word::oven_gap], not_less(oven_.gap.value));
  }

  void draw_titles() {
    const Length y = walls_.bottom() + 0.5 * mm;
    TextStyle centred{.capitals = 2.2 * mm, .align = Align::centre};
    canvas_.text_fitted({walls_.x, y, walls_.width, 4 * mm}, w_[Word::oven_front], centred);
    std::string shelves;
    const auto counts = on_shelves(tray_);
    for (std::size_t i = 0; i < counts.size(); ++i) {
      shelves += fmt::format("{}{} {}: {}", i == 0 ? "" : ", ", w_[Word::oven_shelf], i + 1, counts.at(i));
    }
    canvas_.text_fitted({box_.x, y + 4.5 * mm, box_.width, 4 * mm},
                        fmt::format("{}, 1 : {}   {}", w_[Word::oven_from_above], reduction_, shelves),
                        {.capitals = 2.5 * mm});
  }

  Canvas& canvas_;
  Box box_;
  const Dossier& d_;
  const WordTable& w_;
  const OvenFacts& oven_;
  Tray tray_;
  Grid grid_;
  int reduction_ = 1;
  Box walls_{};
};

}  // namespace

std::vector<int> on_shelves(const Tray& tray) {
  const OvenLoad& layout = tray.load->layout;
  const int on_one = layout.across * layout.along;
  std::vector<int> counts;
  for (int shelf = 0; shelf < layout.shelves; ++shelf)
    counts.push_back(std::clamp(tray.count - shelf * on_one, 0, on_one));
  return counts;
}

void draw_tray(Canvas& canvas, const Box& box, const Dossier& dossier, const Tray& tray) {
  TrayDrawing{canvas, box, dossier, tray}.draw();
}

}  // namespace blankwright

#include "sheet/drawing/tray_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

#include "sheet/mark/draughting.h"
#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

constexpr Length beside = 20 * mm;             // dimensions of the gaps
constexpr Length tray_title_height = 10 * mm;  // two lines below the drawing
constexpr Length clearance_words = 4.6 * mm;   // below the top

class TrayDrawing {
 public:
  TrayDrawing(Canvas& canvas, const Box& box, const Dossier& dossier, const Tray& tray)
      : canvas_{canvas},
        box_{box},
        d_{dossier},
        w_{dossier.sheet_template.words},
        oven_{*tray.load->oven},
        tray_{tray},
        layout_{tray.load->layout} {
    const Length height = box.height - tray_title_height;
    while (!fits(box.width - beside, drawn(oven_.width.value)) || !fits(height, drawn(oven_.depth.value)))
      ++reduction_;
    walls_ = {box.x, box.y, drawn(oven_.width.value), drawn(oven_.depth.value)};
    for (const TrayPlace& place : layout_.places) boxes_.push_back(box_of(place));
  }

  void draw() {
    canvas_.rectangle(walls_, wide_line);
    canvas_.strokes({closed(inside(walls_, drawn(oven_.clearance.value)))}, narrow_line, Dash::hidden);
    const auto used = static_cast<std::size_t>(on_shelves(tray_).front());
    for (std::size_t n = 0; n < boxes_.size(); ++n) draw_place(boxes_.at(n), layout_.places.at(n).turned, n < used);
    draw_clearance();
    draw_gaps();
    draw_titles();
  }

 private:
  Length drawn(Length length) const { return length / reduction_; }

  static Path closed(const Box& box) {
    return {{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}, {box.x, box.y}};
  }

  /// The front is at the bottom of the drawing.
  Box box_of(const TrayPlace& place) const {
    const Length width = drawn(place.turned ? layout_.length : layout_.section);
    const Length depth = drawn(place.turned ? layout_.section : layout_.length);
    return {walls_.x + drawn(place.x), walls_.bottom() - drawn(place.y) - depth, width, depth};
  }

  void draw_place(const Box& box, bool turned, bool used) {
    if (!used) {
      canvas_.strokes({closed(box)}, narrow_line, Dash::hidden);
      return;
    }
    canvas_.rectangle(box, wide_line);
    // Two lines of grain along the blank, so that it reads as wood from above.
    std::vector<Path> grain;
    for (const double share : {1.0 / 3, 2.0 / 3}) {
      if (turned) {
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
    return "≥ " + shown(d_, Amount{rule_number(length, how), column_unit<Length>(how.system)});
  }

  /// Words beside the oven with a line to what they speak of.
  void note(Path line, Length y, const std::string& first, const std::string& second) {
    const Length from = walls_.right() + 2 * mm, to = box_.right();
    canvas_.polyline(std::move(line), narrow_line);
    const TextStyle bold{.size = Lettering::hand, .face = Face::bold};
    canvas_.text_fitted({from, y - 4.2 * mm, to - from, 4 * mm}, first, {});
    canvas_.text_fitted({from, y, to - from, 4 * mm}, second, bold);
  }

  void draw_clearance() {
    const Length y = box_.y + clearance_words;
    note({{walls_.right() - drawn(oven_.clearance.value) / 2, y}, {walls_.right() + 1 * mm, y}}, y,
         w_[Word::oven_clearance], not_less(oven_.clearance.value));
  }

  /// From the gap between two blanks, one behind the other or side by side, to the right, or towards the door first.
  std::vector<Path> ways_out_of_gaps(Spot to) const {
    const Length gap = drawn(oven_.gap.value), out = drawn(oven_.clearance.value) / 2;
    const auto is_gap = [&](Length apart) { return abs(apart - gap) < 0.01 * mm; };
    std::vector<Path> ways;
    for (const Box& a : boxes_) {
      for (const Box& b : boxes_) {
        const Length right = std::min(a.right(), b.right()), bottom = std::max(a.bottom(), b.bottom());
        if (is_gap(a.y - b.bottom()) && right > std::max(a.x, b.x)) ways.push_back({{right, a.y - gap / 2}, to});
        if (is_gap(a.x - b.right()) && bottom > std::max(a.y, b.y)) {
          ways.push_back({{a.x - gap / 2, bottom}, {a.x - gap / 2, bottom + out}, to});
        }
      }
    }
    return ways;
  }

  bool crosses_blank(const Path& way) const {
    constexpr int looks = 200;
    for (std::size_t i = 1; i < way.size(); ++i) {
      for (int n = 0; n <= looks; ++n) {
        const double part = static_cast<double>(n) / looks;
        const Spot at{way[i - 1].x + part * (way[i].x - way[i - 1].x),
                      way[i - 1].y + part * (way[i].y - way[i - 1].y)};
        const auto holds = [&](const Box& box) {
          return at.x > box.x && at.x < box.right() && at.y > box.y && at.y < box.bottom();
        };
        if (std::ranges::any_of(boxes_, holds)) return true;
      }
    }
    return false;
  }

  void draw_gaps() {
    const Length y = std::max(walls_.bottom() - 8 * mm, box_.y + clearance_words + 9 * mm);
    std::vector<Path> ways = ways_out_of_gaps({walls_.right() + 1 * mm, y});
    if (ways.empty()) return;
    std::ranges::stable_sort(ways, {}, [](const Path& way) { return std::tuple{way.size(), -way.front().x}; });
    const auto clear = std::ranges::find_if(ways, [&](const Path& way) { return !crosses_blank(way); });
    note(clear == ways.end() ? ways.front() : *clear, y, w_[Word::oven_gap], not_less(oven_.gap.value));
  }

  void draw_titles() {
    const Length y = walls_.bottom() + 0.5 * mm;
    TextStyle centred{.size = Lettering::note, .align = Align::centre};
    canvas_.text_fitted({walls_.x, y, walls_.width, 4 * mm}, w_[Word::oven_front], centred);
    std::string shelves;
    const auto counts = on_shelves(tray_);
    for (std::size_t i = 0; i < counts.size(); ++i) {
      shelves += fmt::format("{}{} {}: {}", i == 0 ? "" : ", ", w_[Word::oven_shelf], i + 1, counts.at(i));
    }
    canvas_.text_fitted({box_.x, y + 4.5 * mm, box_.width, 4 * mm},
                        fmt::format("{}; {}, 1:{}", shelves, w_[Word::oven_from_above], reduction_), {});
  }

  Canvas& canvas_;
  Box box_;
  const Dossier& d_;
  const WordTable& w_;
  const OvenFacts& oven_;
  Tray tray_;
  const OvenLoad& layout_;
  int reduction_ = 1;
  Box walls_{};
  std::vector<Box> boxes_;  ///< the places as they are drawn
};

}  // namespace

std::vector<int> on_shelves(const Tray& tray) {
  const OvenLoad& layout = tray.load->layout;
  const int on_one = layout.on_shelf();
  std::vector<int> counts;
  for (int shelf = 0; shelf < layout.shelves; ++shelf)
    counts.push_back(std::clamp(tray.count - shelf * on_one, 0, on_one));
  return counts;
}

void draw_tray(Canvas& canvas, const Box& box, const Dossier& dossier, const Tray& tray) {
  TrayDrawing{canvas, box, dossier, tray}.draw();
}

}  // namespace blankwright

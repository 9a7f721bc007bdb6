#include "sheet/sheet/week_bars.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

#include "sheet/frame/table.h"
#include "sheet/mark/draughting.h"
#include "sheet/paper/said_times.h"

namespace blankwright {
namespace {

constexpr Length names_width = 30 * mm;
constexpr Length bars_head_height = 7 * mm;
constexpr Length line_height = 4.5 * mm;
constexpr Length bar_inset = 0.7 * mm;  // above and below
constexpr Length least_bar = 0.3 * mm;  // so that the shortest work is seen
constexpr Length bar_pitch = 1.2 * mm;  // of the hatching
constexpr TextStyle bar_label{.size = Lettering::note, .align = Align::centre, .role = Role::note};
constexpr TextStyle line_name{.size = Lettering::note};

struct Bar {
  Interval at;
  bool is_work = false;  ///< somebody is at it
  std::string label{};
};
/// What one person, vessel or oven does; what goes on at the same time has a line of its own below.
struct BarLine {
  std::string name;
  std::vector<Bar> bars;
};

Instant midnight(const ShopDays& days, Date first, int after) {
  return instant_of(days.shop.zone.value, Date{std::chrono::sys_days{first} + std::chrono::days{after}},
                    std::chrono::minutes{0});
}

void add_bar(std::vector<BarLine>& lines, const std::string& name, Bar bar) {
  auto line = std::ranges::find(lines, name, &BarLine::name);
  const auto is_free = [&](const Bar& other) { return other.at.to <= bar.at.from || other.at.from >= bar.at.to; };
  while (line != lines.end() && line->name == name && !std::ranges::all_of(line->bars, is_free)) ++line;
  if (line == lines.end() || line->name != name) line = lines.insert(line, {name, {}});
  line->bars.push_back(std::move(bar));
}

/// People first, then vessels and ovens, then what runs in neither, each in the order in which they begin.
std::vector<BarLine> lines_of(const ShopDays& days, const Interval& week) {
  const WordTable& w = days.sheet_template.words;
  std::vector<BarLine> people, places, elsewhere;
  for (const Task& task : days.tasks) {
    const Interval at{std::max(task.at.from, week.from), std::min(task.at.to, week.to)};
    if (at.from >= at.to) continue;
    if (task.needs_hands()) {
      add_bar(people, task.who, {at, true});
      continue;
    }
    const std::string batch = batch_text(w, task);
    const std::string label = batch.empty() ? task.orders.front().id : batch;
    if (task.resource.empty()) {
      add_bar(elsewhere, w[Word::week_by_itself], {at, false, label});
    } else {
      add_bar(places, task.resource, {at, false, label});
    }
  }
  std::ranges::move(places, std::back_inserter(people));
  std::ranges::move(elsewhere, std::back_inserter(people));
  return people;
}

/// The lines over a week's width.
class BarDrawing {
 public:
  BarDrawing(Canvas& canvas, const Box& box, const ShopDays& days, Date first)
      : canvas_{canvas}, box_{box}, days_{days}, first_{first} {}

  void draw(std::span<const BarLine> lines) {
    draw_days();
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const Length top = box_.y + bars_head_height + static_cast<double>(i) * line_height;
      if (i == 0 || lines[i].name != lines[i - 1].name) {
        canvas_.line({box_.x, top}, {box_.right(), top});
        canvas_.text_fitted({box_.x + cell_padding, top, names_width - 2 * cell_padding, line_height}, lines[i].name,
                            line_name);
      }
      for (const Bar& bar : lines[i].bars) draw_bar(bar, top);
    }
    canvas_.rectangle(box_, wide_line);
  }

 private:
  Length at(Instant moment) const {
    const Instant from = midnight(days_, first_, 0), to = midnight(days_, first_, 7);
    const double share = static_cast<double>((moment - from).count()) / static_cast<double>((to - from).count());
    return box_.x + names_width + share * (box_.width - names_width);
  }

  void draw_days() {
    canvas_.shade({box_.x, box_.y, box_.width, bars_head_height});
    canvas_.text_fitted({box_.x + cell_padding, box_.y, names_width - 2 * cell_padding, bars_head_height},
                        days_.sheet_template.words[Word::week_bars], line_name);
    for (int day = 0; day < 7; ++day) {
      const Length left = at(midnight(days_, first_, day));
      const Length right = at(midnight(days_, first_, day + 1));
      const Date date{std::chrono::sys_days{first_} + std::chrono::days{day}};
      canvas_.line({left, box_.y}, {left, box_.bottom()});
      canvas_.text_fitted({left + cell_padding, box_.y, right - left - 2 * cell_padding, bars_head_height},
                          date_text(days_.sheet_template, date), column_head);
    }
  }

  void draw_bar(const Bar& bar, Length top) {
    const Length left = at(bar.at.from);
    const Box box{left, top + bar_inset, std::max(at(bar.at.to) - left, least_bar), line_height - 2 * bar_inset};
    if (bar.is_work) {
      canvas_.filled(corners(box));
      return;
    }
    const auto free = room_for(bar.label, box);
    std::vector<Path> holes;
    if (free) holes.push_back(corners(*free));
    canvas_.strokes(hatching(corners(box), holes, bar_pitch), narrow_line);
    canvas_.rectangle(box);
    if (free) canvas_.text_fitted({free->x, top, free->width, line_height}, bar.label, bar_label);
  }

  /// In the middle of the widest part of a bar that no day's line crosses.
  std::optional<Box> room_for(const std::string& label, const Box& bar) const {
    Length left = bar.x, width{};
    for (int day = 0; day < 7; ++day) {
      const Length from = std::max(bar.x, at(midnight(days_, first_, day)));
      const Length to = std::min(bar.right(), at(midnight(days_, first_, day + 1)));
      if (to - from <= width) continue;
      left = from;
      width = to - from;
    }
    const Length words = canvas_.width_of(label, bar_label) + 2 * bar_inset;
    if (label.empty() || words >= width) return std::nullopt;
    return Box{left + (width - words) / 2, bar.y, words, bar.height};
  }

  Canvas& canvas_;
  Box box_;
  const ShopDays& days_;
  Date first_;
};

}  // namespace

void put_week_bars(Flow& flow, const ShopDays& days, Date first) {
  const std::vector<BarLine> lines = lines_of(days, {midnight(days, first, 0), midnight(days, first, 7)});
  const auto at_once =
      static_cast<std::size_t>(std::floor((whole_room(flow).height - bars_head_height) / line_height));
  for (std::size_t done = 0; done < lines.size(); done += at_once) {
    const auto some = std::span{lines}.subspan(done, std::min(at_once, lines.size() - done));
    const Box box = next_strip(flow, bars_head_height + static_cast<double>(some.size()) * line_height);
    Canvas canvas = canvas_of(flow);
    BarDrawing{canvas, box, days, first}.draw(some);
  }
}

}  // namespace blankwright

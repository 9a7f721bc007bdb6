#include "sheet/drawing/board_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "measure/quantity_text.h"
#include "sheet/mark/draughting.h"

namespace blankwright {
namespace {

constexpr Length room_beside = 10 * mm;           // beside the board: numbers of rips
constexpr Length room_over = 8 * mm;              // over it: numbers of cuts across
constexpr Length room_under = 7 * mm;             // under it: the corner that is measured from, the grain
constexpr Length jog = 2.6 * mm;                  // in which a line goes over from its cut to its number
constexpr Length before_number = jog + 1.1 * mm;  // beside the board
constexpr Length defect_pitch = 2 * mm;           // ISO 128-50 leaves it to the area; 2 to 3 mm is common practice
constexpr Length legible_strip = 9 * mm;          // holds position and ID one below the other
constexpr Length clear = 0.4 * mm;                // round a number
constexpr Length clear_beside = 0.5 * mm;         // round a blank's label
constexpr Length clear_over = 0.7 * mm;

/// Numbers of cuts, as large as there is room for.
constexpr auto number_sizes = std::to_array({Lettering::machine, Lettering::hand, Lettering::note});
constexpr TextStyle cut_number{.face = Face::bold, .align = Align::centre};

TextStyle sized(TextStyle style, Lettering size) {
  style.size = size;
  return style;
}

bool overlap(const Box& a, const Box& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

bool holds(const Box& outer, const Box& inner) {
  return inner.x >= outer.x && inner.right() <= outer.right() && inner.y >= outer.y &&
         inner.bottom() <= outer.bottom();
}

/// What may be written on a blank's place, line by line.
struct PlaceLabel {
  std::vector<std::string> lines;
  bool complete = true;  ///< says all there is to say
};

class BoardDrawing {
 public:
  BoardDrawing(Canvas& canvas, Spot top_left, const CuttingPlan& plan, std::size_t board, BoardScale scale)
      : canvas_{canvas},
        plan_{plan},
        index_{board},
        board_{plan.boards.at(board)},
        scale_{scale},
        outline_{top_left.x + room_beside, top_left.y + room_over, board_.length / scale.along,
                 board_.width / scale.across} {}

  void draw_wood() {
    for (const BoardArea& defect : board_.defects) {
      const Box box = on_paper(defect);
      canvas_.strokes(hatching(corners(box), {}, defect_pitch), narrow_line);
      canvas_.rectangle(box);
    }
    for (const CutBlank& blank : plan_.blanks) {
      if (blank.board == index_ && blank.layer == 1) canvas_.rectangle(on_paper(blank.area));
    }
    canvas_.rectangle(outline_, wide_line);
  }

  void draw_cuts() {
    for (const Cut& cut : plan_.cuts) {
      if (cut.board != index_ || cut.kind == Cut::Kind::resaw) continue;
      const Box band = on_paper(band_of(cut));
      bands_.emplace_back(cut.number, band);
      draw_band(band, cut.kind == Cut::Kind::rip);
    }
  }

  void number_cuts() {
    std::vector<std::size_t> across, elsewhere;
    std::map<std::pair<Length, Length>, std::vector<std::size_t>> rips;  // by the panel that they run over
    for (std::size_t i = 0; i < plan_.cuts.size(); ++i) {
      const Cut& cut = plan_.cuts.at(i);
      if (cut.board != index_) continue;
      if (cut.kind == Cut::Kind::across) across.push_back(i);
      if (cut.kind == Cut::Kind::rip) rips[{cut.from, cut.to}].push_back(i);
      if (cut.kind == Cut::Kind::crosscut) elsewhere.push_back(i);
      if (cut.kind == Cut::Kind::resaw) left_out_.cuts.push_back(i);
    }
    const auto above = [&](Lettering size) { return number_above(across, sized(cut_number, size)); };
    if (std::ranges::none_of(number_sizes, above)) elsewhere.insert(elsewhere.end(), across.begin(), across.end());
    for (auto panel = rips.begin(); panel != rips.end(); ++panel) {
      const bool first = panel == rips.begin(), last = std::next(panel) == rips.end();
      const auto beside = [&](Lettering size) {
        return number_beside(panel->second, first ? Beside::left : Beside::right, sized(cut_number, size));
      };
      if ((first || last) && std::ranges::any_of(number_sizes, beside)) continue;
      elsewhere.insert(elsewhere.end(), panel->second.begin(), panel->second.end());
    }
    for (const std::size_t i : elsewhere) {
      const auto on_cut = [&](Lettering size) { return number_on_cut(plan_.cuts.at(i), sized(cut_number, size)); };
      if (std::ranges::none_of(number_sizes, on_cut)) left_out_.cuts.push_back(i);
    }
    std::ranges::sort(left_out_.cuts);
  }

  void label_blanks(std::span<const BlankLabel> labels, const WordTable& w) {
    for (std::size_t i = 0; i < plan_.blanks.size();) {
      const CutBlank& first = plan_.blanks.at(i);
      std::size_t end = i + 1;
      while (end < plan_.blanks.size() && plan_.blanks.at(end).layer > 1) ++end;  // others at the same place
      if (first.board == index_ && !label_place(first, labels.subspan(i, end - i), w)) {
        for (std::size_t n = i; n < end; ++n) {
          if (labels[n].witness || !labels[n].id.empty()) left_out_.blanks.push_back(n);
        }
      }
      i = end;
    }
  }

  void draw_foot(Length width, const WordTable& w) {
    const Spot corner{outline_.x, outline_.bottom()};
    canvas_.filled({{corner.x, corner.y + 0.4 * mm},
                    {corner.x + 1.4 * mm, corner.y + 2.9 * mm},
                    {corner.x - 1.4 * mm, corner.y + 2.9 * mm}});
    const Box line{outline_.x + 2.2 * mm, corner.y + 1.6 * mm, width - room_beside - 2.2 * mm, room_under - 3 * mm};
    const TextStyle style{.size = Lettering::note};
    canvas_.text_fitted({line.x, line.y, line.width * 0.4, line.height}, w[Word::cutting_datum], style);
    const Length from = line.x + line.width * 0.44, to = from + 18 * mm, y = line.y + line.height / 2;
    canvas_.line({from, y}, {to, y});
    arrow(canvas_, {from, y}, {to, y});
    arrow(canvas_, {to, y}, {from, y});
    canvas_.text_fitted({to + 2 * mm, line.y, line.width * 0.14, line.height}, w[Word::cutting_grain], style);
    if (board_.defects.empty()) return;
    TextStyle right = style;
    right.align = Align::right;
    canvas_.text_fitted({line.x + line.width * 0.7, line.y, line.width * 0.3, line.height}, w[Word::cutting_hatched],
                        right);
  }

  Unlabelled left_out() { return std::move(left_out_); }

 private:
  Box on_paper(const BoardArea& area) const {
    return {outline_.x + area.from / scale_.along, outline_.bottom() - area.far / scale_.across,
            (area.to - area.from) / scale_.along, (area.far - area.near) / scale_.across};
  }

  static BoardArea band_of(const Cut& cut) {
    if (cut.kind == Cut::Kind::rip) return {cut.from, cut.to, cut.at, cut.until};
    return {cut.at, cut.until, cut.from, cut.to};
  }

  /// In black and to scale; as a line where that would be narrower than one.
  void draw_band(const Box& band, bool along) {
    if ((along ? band.height : band.width) >= narrow_line) {
      canvas_.filled(corners(band));
      return;
    }
    const Length x = band.x + band.width / 2, y = band.y + band.height / 2;
    if (along) canvas_.line({band.x, y}, {band.right(), y});
    if (!along) canvas_.line({x, band.y}, {x, band.bottom()});
  }

  Length middle(const Cut& cut) const {
    const Box band = on_paper(band_of(cut));
    return cut.kind == Cut::Kind::rip ? band.y + band.height / 2 : band.x + band.width / 2;
  }

  /// Numbers over the board; false when they do not all find room there.
  bool number_above(std::span<const std::size_t> cuts, const TextStyle& style) {
    if (jog + 1.5 * mm + canvas_.capitals(style.size) > room_over) return false;
    std::vector<Length> wished;
    Length widest;
    for (const std::size_t i : cuts) {
      wished.push_back(middle(plan_.cuts.at(i)));
      widest = std::max(widest, canvas_.width_of(name(i), style));
    }
    const auto places = spread(wished, widest + 2 * clear, outline_.x + widest / 2, outline_.right() - widest / 2);
    if (!places) return false;
    for (std::size_t n = 0; n < cuts.size(); ++n) {
      const Length x = wished.at(n), label = places->at(n), edge = outline_.y;
      canvas_.polyline({{x, edge}, {x, edge - 0.8 * mm}, {label, edge - jog - 0.8 * mm}}, narrow_line);
      canvas_.text({label, edge - jog - 1.5 * mm}, name(cuts[n]), style);
    }
    return true;
  }

  enum class Beside { left, right };
  /// Numbers on that side of the board; false when they do not all find room there.
  bool number_beside(std::vector<std::size_t> cuts, Beside which, TextStyle style) {
    const bool left = which == Beside::left;
    std::ranges::reverse(cuts);  // on paper the near edge is below
    std::vector<Length> wished;
    for (const std::size_t i : cuts) wished.push_back(middle(plan_.cuts.at(i)));
    const Length beyond = canvas_.capitals(style.size) / 2 + clear;  // so that they stay in the drawing's height
    const auto places = spread(wished, 1.4 * canvas_.capitals(style.size), outline_.y - room_over + beyond,
                               outline_.bottom() + room_under - 2 * beyond);
    const auto fits_beside = [&](std::size_t i) {
      return canvas_.width_of(name(i), style) <= room_beside - before_number;
    };
    if (!places || !std::ranges::all_of(cuts, fits_beside)) return false;
    style.align = left ? Align::right : Align::left;
    const double out = left ? -1 : 1;
    const Length edge = left ? outline_.x : outline_.right();
    for (std::size_t n = 0; n < cuts.size(); ++n) {
      const Box band = on_paper(band_of(plan_.cuts.at(cuts.at(n))));
      const Length label = places->at(n);
      canvas_.polyline({{left ? band.x : band.right(), wished.at(n)},
                        {edge + out * 0.8 * mm, wished.at(n)},
                        {edge + out * (jog + 0.4 * mm), label}},
                       narrow_line);
      canvas_.text({edge + out * before_number, label + canvas_.capitals(style.size) / 2}, name(cuts.at(n)), style);
    }
    return true;
  }

  /// The number in the middle of its cut, or where else on it there is room.
  bool number_on_cut(const Cut& cut, const TextStyle& style) {
    const bool rip = cut.kind == Cut::Kind::rip;
    const Box band = on_paper(band_of(cut));
    const std::string words = fmt::format("{}", cut.number);
    const Length width = canvas_.width_of(words, style) + 2 * clear;
    const Length height = canvas_.capitals(style.size) + 2 * clear;
    // Of a strip's height the lower part first: that leaves the middle to what stands on the blanks.
    const auto places = rip ? std::array{0.5, 0.25, 0.75, 0.12, 0.88} : std::array{0.75, 0.5, 0.25, 0.88, 0.12};
    for (const double along : places) {
      const Spot centre{band.x + (rip ? along : 0.5) * band.width, band.y + (rip ? 0.5 : along) * band.height};
      const Box patch{centre.x - width / 2, centre.y - height / 2, width, height};
      const bool inside = rip ? patch.x >= band.x && patch.right() <= band.right()
                              : patch.y >= band.y && patch.bottom() <= band.bottom();
      if (!inside || !holds(outline_, patch) || !is_free(patch, cut.number)) continue;
      canvas_.add(Fill{{corners(patch)}, Ink::white}, Role::rule);
      canvas_.text({centre.x, centre.y + canvas_.capitals(style.size) / 2}, words, style);
      taken_.push_back(patch);
      return true;
    }
    return false;
  }

  /// Does a patch lie over nothing that was written, and over no other cut than its own?
  bool is_free(const Box& patch, int own) const {
    return std::ranges::none_of(taken_, [&](const Box& other) { return overlap(patch, other); }) &&
           std::ranges::none_of(bands_,
                                [&](const auto& band) { return band.first != own && overlap(patch, band.second); });
  }

  /// What may stand on a place, most first.
  static std::vector<PlaceLabel> labels_for(const CutBlank& place, std::span<const BlankLabel> blanks,
                                            const WordTable& w) {
    PlaceLabel stacked, joined, short_one;
    short_one.complete = false;
    for (const BlankLabel& b : blanks) {
      const std::string position = b.witness ? w[Word::witness_mark] + " " + b.position : b.position;
      const std::string word = b.witness ? w[Word::witness] : "";
      std::string line = position;
      for (const std::string& part : {word, b.id}) line += part.empty() ? "" : " " + part;
      joined.lines.push_back(line);
      for (const std::string& part : {position, word, b.id}) {
        if (!part.empty()) stacked.lines.push_back(part);
      }
      if (b.witness) short_one.lines = {w[Word::witness_mark]};
    }
    PlaceLabel place_only{{fmt::format("{}-{}", place.strip, place.position)}, false};
    if (!short_one.lines.empty()) place_only.lines.front().insert(0, short_one.lines.front() + " ");
    return {stacked, joined, place_only, short_one};
  }

  /// False where not all found room that there is to say.
  bool label_place(const CutBlank& place, std::span<const BlankLabel> blanks, const WordTable& w) {
    for (const PlaceLabel& label : labels_for(place, blanks, w)) {
      for (const Lettering size : {Lettering::machine, Lettering::hand, Lettering::note}) {
        for (const Face face : {Face::regular, Face::narrow}) {
          for (const double down : {0.5, 0.4, 0.3}) {
            const TextStyle style{.size = size, .face = face, .align = Align::centre};  // what is bold numbers a cut
            if (set_in(on_paper(place.area), label.lines, style, down)) return label.complete;
          }
        }
      }
    }
    return false;
  }

  /// Sets lines in a blank, `down` of its height from the top, if they have room there.
  bool set_in(const Box& blank, const std::vector<std::string>& lines, const TextStyle& style, double down) {
    if (lines.empty()) return false;
    const Length capitals = canvas_.capitals(style.size);
    const Length step = 1.4 * capitals;
    Length width;
    for (const std::string& line : lines) width = std::max(width, canvas_.width_of(line, style));
    const Length height = capitals + static_cast<double>(lines.size() - 1) * step;
    const Spot centre{blank.x + blank.width / 2, blank.y + down * blank.height};
    const Box box{centre.x - width / 2 - clear_beside, centre.y - height / 2 - clear_over, width + 2 * clear_beside,
                  height + 2 * clear_over};
    if (!holds(blank, box) || !is_free(box, 0)) return false;
    Length baseline = box.y + clear_over + capitals;
    for (const std::string& line : lines) {
      canvas_.text({centre.x, baseline}, line, style);
      baseline += step;
    }
    taken_.push_back(box);
    return true;
  }

  std::string name(std::size_t cut) const { return fmt::format("{}", plan_.cuts.at(cut).number); }

  Canvas& canvas_;
  const CuttingPlan& plan_;
  std::size_t index_;
  const Board& board_;
  BoardScale scale_;
  Box outline_;
  std::vector<std::pair<int, Box>> bands_;  ///< of the cuts, by their numbers
  std::vector<Box> taken_;                  ///< by what is written on the board
  Unlabelled left_out_;
};

}  // namespace

BoardScale board_scale(const Board& board, Length section, Length width, Length most) {
  int n = 1;
  while (!fits(width - 2 * room_beside, board.length / n) || !fits(most, board.width / n)) ++n;
  BoardScale scale{n, n};
  while (scale.across > 1 && section / scale.across < legible_strip && fits(most, board.width / (scale.across - 1))) {
    --scale.across;
  }
  return scale;
}

Length drawing_height(const Board& board, BoardScale scale) {
  return room_over + board.width / scale.across + room_under;
}

Unlabelled draw_board(Canvas& canvas, Spot top_left, Length width, const CuttingPlan& plan, std::size_t board,
                      BoardScale scale, std::span<const BlankLabel> labels, const WordTable& words) {
  BoardDrawing drawing{canvas, top_left, plan, board, scale};
  drawing.draw_wood();
  drawing.draw_cuts();
  drawing.number_cuts();
  drawing.label_blanks(labels, words);
  drawing.draw_foot(width, words);
  return drawing.left_out();
}

}  // namespace blankwright

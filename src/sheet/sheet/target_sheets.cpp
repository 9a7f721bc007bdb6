#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <utility>

#include "plan/figure/figure.h"
#include "sheet/drawing/end_target.h"
#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

constexpr Length target_gap = 1 * mm;     // between targets, and between them and the notes
constexpr Length legend_width = 74 * mm;  // above the targets
constexpr Length least_column = 50 * mm;  // for legend and notes beside them
constexpr Length row_step = 4 * mm;       // of the legend
constexpr double name_share = 0.52;       // of the legend's width; the ends have the rest

/// A ring's diameter at both ends, as far as they have it.
struct LegendRow {
  Word name;
  std::optional<Length> seat, tail;
  Length size() const { return seat ? *seat : *tail; }
};

std::vector<LegendRow> legend_rows(const EndTarget& seat, const EndTarget& tail) {
  std::vector<LegendRow> rows;
  for (const TargetRing& ring : seat.rings) rows.push_back({ring.name, ring.diameter, {}});
  for (const TargetRing& ring : tail.rings) {
    std::ranges::find(rows, ring.name, &LegendRow::name)->tail = ring.diameter;
  }
  rows.push_back({Word::target_square, seat.square, tail.square});
  std::ranges::stable_sort(rows, {}, &LegendRow::size);
  return rows;
}

/// What explains the targets, and where everything stands on a page.
struct Arrangement {
  Box legend{}, notes{}, targets{};
  Box room{};  ///< of a target
  int columns = 0, rows = 0;
  int count() const { return std::max(columns * rows, 1); }
  Box box(int n) const {
    const int in_row = std::max(columns, 1);
    return {targets.x + n % in_row * (room.width + target_gap), targets.y + n / in_row * (room.height + target_gap),
            room.width, room.height};
  }
};

enum class Notes { all, of_the_bars };

class TargetPages {
 public:
  TargetPages(const Dossier& d, const FontMetrics& fonts)
      : d_{d},
        fonts_{fonts},
        seat_{seat_target(d)},
        tail_{tail_target(d)},
        correction_{correction_of(d.shop.printer)} {}

  /// In the last one's body what its targets leave free.
  enum class For { each_blank, all };
  std::vector<Sheet> pages(For whom);
  /// Has the last one a single row, and is not alone?
  bool ends_with_a_row() const { return ends_with_a_row_; }

 private:
  Block notes_block(const Canvas& canvas, Length width, Notes notes) const;
  Length legend_height() const { return static_cast<double>(legend_rows(seat_, tail_).size() + 2) * row_step; }
  Arrangement above(const Canvas& canvas, const Box& body, Notes notes) const;
  Arrangement beside(const Canvas& canvas, const Box& body, Notes notes) const;
  void count(Arrangement& a) const;
  Arrangement arranged(const Canvas& canvas, const Box& body, Notes notes) const;
  Sheet begin(PageOfKind kind) const { return begin_actual_size(d_, fonts_, Word::targets_sheet, kind); }
  void draw_legend(Canvas& canvas, const Arrangement& a) const;
  std::string legend_text(const std::optional<Length>& length, Word name, const Box& room) const;

  const Dossier& d_;
  const FontMetrics& fonts_;
  EndTarget seat_, tail_;
  PrinterCorrection correction_;
  bool ends_with_a_row_ = false;
};

/// The last of the sheets, which has most room, says all; the others what has to be measured on each.
Block TargetPages::notes_block(const Canvas& canvas, Length width, Notes notes) const {
  const WordTable& w = d_.sheet_template.words;
  std::vector<Phrase> phrases = bar_phrases(d_);
  if (notes == Notes::of_the_bars) return set_block(canvas, std::span{phrases}.first(1), width);
  const UnitSystem units = d_.shop.units.value;
  const Printing by_rule = size_printing(d_, Fineness::sawn);
  const auto size = [&](Length length) {
    return shown(d_, Amount{rule_number(length, by_rule), column_unit<Length>(units)});
  };
  phrases.push_back(point(fmt::format("{} {} {}, {} {}.", w[Word::target_offset], w[Word::target_ticks],
                                      size(tick_pitch(units)), w[Word::target_long_tick], size(long_tick(units)))));
  for (const Word word : {Word::target_tabs, Word::target_centre}) phrases.push_back(point(w[word]));
  return set_block(canvas, phrases, width);
}

void TargetPages::count(Arrangement& a) const {
  a.room = target_room(seat_, correction_);
  const auto times = [](Length all, Length one) {
    return static_cast<int>((all + target_gap + 1e-4 * mm) / (one + target_gap));
  };
  a.columns = times(a.targets.width, a.room.width);
  a.rows = times(a.targets.height, a.room.height);
}

Arrangement TargetPages::above(const Canvas& canvas, const Box& body, Notes notes) const {
  Arrangement a;
  const bool has_legend = notes == Notes::all;
  const Length legend = has_legend ? std::min(legend_width, body.width / 2) : 0 * mm;
  const Length width = body.width - legend - (has_legend ? target_gap : 0 * mm);
  const Length height = std::max(has_legend ? legend_height() : 0 * mm, notes_block(canvas, width, notes).height);
  a.legend = {body.x, body.y, legend, height};
  a.notes = {body.right() - width, body.y, width, height};
  a.targets = {body.x, body.y + height + target_gap, body.width, body.height - height - target_gap};
  count(a);
  return a;
}

Arrangement TargetPages::beside(const Canvas& canvas, const Box& body, Notes notes) const {
  Arrangement a;
  a.targets = {body.x, body.y, target_room(seat_, correction_).width, body.height};
  count(a);
  const Length x = a.targets.right() + target_gap, width = body.right() - x;
  if (width < least_column) return {};
  a.legend = {x, body.y, width, legend_height()};
  a.notes = {x, a.legend.bottom() + target_gap, width, notes_block(canvas, width, notes).height};
  return fits(body.bottom(), a.notes.bottom()) ? a : Arrangement{};
}

/// Notes above the targets, or beside them where a pair finds room on a page only so. A target that finds none at all
/// gets the whole room there is.
Arrangement TargetPages::arranged(const Canvas& canvas, const Box& body, Notes notes) const {
  Arrangement a = above(canvas, body, notes);
  if (a.columns * a.rows < 2) {
    const Arrangement b = beside(canvas, body, notes);
    if (b.columns * b.rows >= 2) return b;
  }
  a.room.width = std::min(a.room.width, a.targets.width);
  a.room.height = std::min(a.room.height, a.targets.height);
  return a;
}

std::string TargetPages::legend_text(const std::optional<Length>& length, Word name, const Box& room) const {
  if (!length) return "–";
  const Printing how = name == Word::target_position ? figure_printing(d_, Figure::centring_seat_position)
                       : name == Word::target_square ? figure_printing(d_, Figure::blank_squared_section)
                                                     : size_printing(d_, Fineness::measured);
  const std::string figure = shown(d_, printed(*length, how));
  const std::string sign = name == Word::target_square ? "" : "Ø";
  const bool drawn =
      name == Word::target_square ? square_fits(room, correction_, *length) : ring_fits(room, correction_, *length);
  return drawn ? sign + figure : fmt::format("({}{})", sign, figure);
}

void TargetPages::draw_legend(Canvas& canvas, const Arrangement& a) const {
  const WordTable& w = d_.sheet_template.words;
  const Length name = a.legend.width * name_share, end = (a.legend.width - name) / 2;
  Length y = a.legend.y;
  const auto row = [&](const std::string& first, const std::string& seat, const std::string& tail, Face face) {
    TextStyle style{.size = Lettering::note, .face = face};
    canvas.text_fitted({a.legend.x, y, name - target_gap, row_step}, first, style);
    style.align = Align::right;
    canvas.text_fitted({a.legend.x + name, y, end - target_gap, row_step}, seat, style);
    canvas.text_fitted({a.legend.x + name + end, y, end - target_gap, row_step}, tail, style);
    y += row_step;
  };
  row(w[Word::target_rings], w[Word::target_seat], w[Word::target_tail], Face::bold);
  for (const LegendRow& r : legend_rows(seat_, tail_)) {
    row(w[r.name], legend_text(r.seat, r.name, a.room), legend_text(r.tail, r.name, a.room), Face::regular);
  }
  if (square_fits(a.room, correction_, seat_.square)) return;
  canvas.text_fitted({a.legend.x, y, a.legend.width - target_gap, row_step}, w[Word::target_left_out],
                     {.size = Lettering::note});
}

std::vector<Sheet> TargetPages::pages(For whom) {
  const bool with_ids = whom == For::each_blank;
  std::vector<Sheet> out;
  const int all = with_ids ? 2 * piece_count(d_) : 2;  // both ends of every piece
  int next = 0;
  do {
    Sheet sheet = begin(out.empty() ? PageOfKind::first : PageOfKind::further);
    Canvas canvas{sheet.page, fonts_, lettering_of(d_.sheet_template)};
    Arrangement a = arranged(canvas, sheet.body, Notes::all);
    const bool last = next + a.count() >= all;
    if (!last) a = arranged(canvas, sheet.body, Notes::of_the_bars);
    if (last) draw_legend(canvas, a);
    place_block(canvas, {a.notes.x, a.notes.y},
                notes_block(canvas, a.notes.width, last ? Notes::all : Notes::of_the_bars));
    const int most = with_ids ? std::max(1, all - next - (last ? 0 : 2)) : last ? std::max(1, a.count() / 2 * 2) : 1;
    const int on_page = std::min(a.count(), most);
    Length bottom = a.notes.bottom();
    for (int i = 0; i < on_page; ++i, ++next) {
      const auto blank = with_ids ? std::optional{d_.blanks.at(static_cast<std::size_t>(next / 2))} : std::nullopt;
      draw_target(canvas, d_, next % 2 == 0 ? seat_ : tail_, a.box(i), blank);
      bottom = std::max(bottom, a.box(i).bottom());
    }
    ends_with_a_row_ = !out.empty() && on_page <= a.columns;
    sheet.body = {sheet.body.x, bottom, sheet.body.width, sheet.body.bottom() - bottom};
    sheet.true_size = true;
    out.push_back(std::move(sheet));
  } while (next < all);
  return out;
}

}  // namespace

/// Targets for the ends of every piece's blank, seat and tail one after the other; or, as the template has it, one
/// sheet without IDs to be copied, which is also what a draft has. Witnesses get none: they are cut open.
void target_sheets(OrderFlow& flow) {
  constexpr std::size_t few = 3;
  TargetPages targets{flow.dossier, flow.fonts};
  const TargetsFor wanted = flow.dossier.sheet_template.targets.value;
  std::vector<Sheet> pages =
      targets.pages(wanted == TargetsFor::master || flow.dossier.blanks.empty() ? TargetPages::For::all
                                                                                : TargetPages::For::each_blank);
  const bool too_many = pages.size() > few || targets.ends_with_a_row();
  if (wanted == TargetsFor::as_few_pages && too_many) {
    std::vector<Sheet> master = targets.pages(TargetPages::For::all);
    if (master.size() < pages.size()) pages = std::move(master);
  }
  for (Sheet& page : pages) {
    flow.top = page.body.y;
    flow.sheets.push_back(std::move(page));
  }
}

}  // namespace blankwright

#include "sheet/sheet/small_print.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "plan/order/cautions.h"
#include "plan/part/judge_seat.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {
namespace {

using SmallLine = SmallText::Line;

constexpr Length column_gap = 4 * mm;

/// The lines of a text and of the title over it, if it has one.
void add_lines(std::vector<SmallLine>& lines, const Canvas& canvas, Length width, const TextStyle& style,
               const std::string& title, const std::string& words) {
  TextStyle plain = style;
  plain.least = style.size;
  TextStyle bold = plain;
  bold.face = Face::bold;
  const std::array phrases{Phrase{title, bold}, Phrase{words, plain}};
  bool begins = true;
  for (const SetPhrase& phrase : set_block(canvas, phrases, width).phrases) {
    for (const std::string& line : phrase.lines.lines) {
      const bool is_title = phrase.style.face == Face::bold;
      lines.push_back({{{{line}, phrase.lines.em, phrase.lines.line_step}, phrase.style}, begins, is_title});
      begins = false;
    }
  }
}

/// What the order asks of the piece beside its form: finish, voids, whether the pieces match.
std::string wanted_text(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  constexpr std::array voids{Word::voids_none, Word::voids_small, Word::voids_any};
  std::string out =
      fmt::format("{}: {}", w[Word::voids], w[voids.at(static_cast<std::size_t>(d.order.wood.voids.value))]);
  if (d.order.finish) out = fmt::format("{}: {} · {}", w[Word::finish], d.order.finish->value, out);
  if (d.order.wood.matched.value) out += " · " + w[Word::matched_set];
  return out;
}

/// What wood does after it is turned, where the order says where the piece is used and the seat outgrows its
/// tolerance there; empty otherwise.
std::string growth_text(const Dossier& d) {
  const SizeInUse& size = d.plan.in_use;
  if (!seat_outgrows(size, d.order)) return {};
  const WordTable& w = d.sheet_template.words;
  const auto figure = [&](Figure f) { return figure_text(d, f); };
  std::string out =
      fmt::format("{} {}: {}", w[Word::seat_grows], figure(Figure::size_gain_high), w[Word::seat_grows_wait]);
  if (size.turn_to > 0 * mm) {
    out += fmt::format(", {} {}", w[Word::seat_grows_turn], figure(Figure::size_turn_to));
  }
  return out + ".";
}

/// All but the cautions.
std::vector<SmallLine> lines_of_order(const Canvas& canvas, const Dossier& d, Length width, const TextStyle& style) {
  std::vector<SmallLine> lines;
  add_lines(lines, canvas, width, style, "", wanted_text(d));
  if (const std::string growth = growth_text(d); !growth.empty()) {
    add_lines(lines, canvas, width, style, "", growth);
  }
  if (d.order.notes) {
    std::string notes = d.order.notes->value;
    std::replace(notes.begin(), notes.end(), '\n', ' ');
    add_lines(lines, canvas, width, style, d.sheet_template.words[Word::notes], notes);
  }
  return lines;
}

/// How many cautions have to be looked for elsewhere, and where.
std::string left_out_text(const Dossier& d, std::size_t count) {
  const auto& sheets = d.sheet_template.sheets;
  const bool has_inspection =
      std::ranges::find(sheets, SheetKind::inspection, &Given<SheetKind>::value) != sheets.end();
  return fmt::format("{} {}", count,
                     d.sheet_template.words[has_inspection ? Word::cautions_inspection : Word::cautions_left_out]);
}

/// Where the second column begins: in the middle, or a line beside it if a paragraph ends there; at the smallest size
/// room comes first. A title does not stay alone at the foot of the first.
std::size_t column_break(const std::vector<SmallLine>& lines) {
  std::size_t cut = (lines.size() + 1) / 2;
  const bool smallest = lines.front().line.style.size == Lettering::note;
  for (const std::size_t other : {cut, cut - 1, cut + 1}) {
    if (!smallest && other > 0 && other < lines.size() && lines.at(other).begins && !lines.at(other - 1).title)
      return other;
  }
  while (cut < lines.size() && lines.at(cut - 1).title) ++cut;
  return cut;
}

SmallPrint in_two_columns(const std::vector<SmallLine>& lines) {
  SmallPrint print;
  if (lines.empty()) return print;
  const std::size_t cut = column_break(lines);
  for (std::size_t i = 0; i < lines.size(); ++i) (i < cut ? print.left : print.right).push_back(lines.at(i).line);
  print.height = static_cast<double>(std::max(cut, lines.size() - cut)) * lines.front().line.lines.line_step;
  return print;
}

}  // namespace

std::vector<std::string> turners_cautions(const Dossier& d) {
  const CautionTable& texts = d.sheet_template.cautions;
  std::vector<std::string> out;
  for (const Caution caution : cautions_for(d.order, d.shop, d.plan)) {
    const CautionStep step = step_of(caution);
    if (step == CautionStep::boring || step == CautionStep::turning) out.push_back(texts[caution]);
  }
  for (const auto& own : texts.more) out.push_back(own.value);
  return out;
}

SmallText::SmallText(const Canvas& canvas, const Dossier& d, Length width, const TextStyle& style) {
  const WordTable& w = d.sheet_template.words;
  const Length column = (width - column_gap) / 2;
  order_ = lines_of_order(canvas, d, column, style);
  const std::vector<std::string> all = turners_cautions(d);
  const std::string title = w[Word::cautions_title] + ". " + w[Word::cautions_first];
  left_out_.emplace_back();
  for (const std::string& caution : all) {
    const bool first = cautions_.empty();
    add_lines(cautions_.emplace_back(), canvas, column, style, first ? title : "", "• " + caution);
    const std::string left_out = left_out_text(d, left_out_.size());
    add_lines(left_out_.emplace_back(), canvas, column, style, left_out, "");
  }
}

SmallPrint SmallText::within(Length most) const {
  for (std::size_t left_out = 0;; ++left_out) {
    std::vector<Line> lines = order_;
    const auto add = [&lines](const std::vector<Line>& more) { lines.insert(lines.end(), more.begin(), more.end()); };
    const std::size_t shown = cautions_.size() - left_out;
    for (std::size_t i = 0; i < shown; ++i) add(cautions_.at(i));
    add(left_out_.at(left_out));
    SmallPrint print = in_two_columns(lines);
    print.left_out = left_out;
    if (print.height <= most || shown == 0) return print;
  }
}

void draw_small_print(Canvas& canvas, const SmallPrint& print, const Box& box) {
  Spot at{box.x, box.y};
  for (const auto* side : {&print.left, &print.right}) {
    for (const SetPhrase& line : *side) {
      canvas.paragraph(at, box.width, line.lines, line.style);
      at.y += line.lines.height();
    }
    at = {box.x + (box.width + column_gap) / 2, box.y};
  }
}

}  // namespace blankwright

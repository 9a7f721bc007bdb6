#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr std::size_t in_row = 3;
constexpr Length field = 27 * mm;  // a time by hand
constexpr Length least_height = 10 * mm;
constexpr std::size_t most_lines = 3, most_lines_of_hold = 2;  // at that size; longer words are set smaller
constexpr TextStyle hold_style{.size = Lettering::machine, .face = Face::bold, .least = Lettering::hand};
constexpr TextStyle field_caption{.size = Lettering::note};

struct SetCheck {
  Block words, caption;
  bool hold = false;
};

std::size_t line_count(const Block& block) {
  std::size_t lines = 0;
  for (const SetPhrase& phrase : block.phrases) lines += phrase.lines.lines.size();
  return lines;
}

/// Read from an arm's length, as far as the words find room so.
SetCheck set_check(const Canvas& canvas, const WordTable& w, const CardCheck& check, std::size_t number,
                   Length room) {
  const auto set = [&](Lettering size) {
    std::vector<Phrase> phrases;
    if (check.hold) phrases.push_back({w[Word::hold], hold_style});
    phrases.push_back(
        {check.hold ? check.words : fmt::format("{}  {}", number, check.words), {.size = size, .least = size}});
    return set_block(canvas, phrases, room);
  };
  Block words = set(Lettering::machine);
  const bool breaks_a_word = canvas.widest_word(check.words, {.size = Lettering::machine}) > room;
  if (breaks_a_word || line_count(words) > (check.hold ? most_lines_of_hold : most_lines))
    words = set(Lettering::hand);
  const std::array caption{Phrase{check.hold ? w[Word::signature] : check.field, field_caption}};
  return {std::move(words), set_block(canvas, caption, field - 2 * mm), check.hold};
}

void draw_check(Canvas& canvas, const SetCheck& check, const Box& box) {
  const Box written{box.right() - field, box.y, field, box.height};
  place_block(canvas, {box.x + 1 * mm, box.y + (box.height - check.words.height) / 2}, check.words);
  place_block(canvas, {written.x + 1 * mm, written.y + 0.6 * mm}, check.caption);
  if (!check.hold) canvas.rectangle(box);
  canvas.line({written.x, written.y}, {written.x, written.bottom()});
  if (check.hold) canvas.rectangle(inside(box, hold_line / 2), hold_line);
}

}  // namespace

void put_checks(Flow& flow, std::span<const CardCheck> checks) {
  const WordTable& w = flow.sheet_template.words;
  const Length width = whole_room(flow).width / static_cast<double>(in_row);
  std::size_t number = 0;
  for (std::size_t first = 0; first < checks.size(); first += in_row) {
    std::vector<SetCheck> row;
    Length height = least_height;
    for (const CardCheck& check : checks.subspan(first, std::min(in_row, checks.size() - first))) {
      row.push_back(set_check(canvas_of(flow), w, check, check.hold ? number : ++number, width - field - 2 * mm));
      height = std::max(height, row.back().words.height + (check.hold ? 2 * hold_line : 0.6 * mm));
    }
    const Box strip = take_strip(flow, height);
    Canvas canvas = canvas_of(flow);
    for (std::size_t i = 0; i < row.size(); ++i) {
      draw_check(canvas, row.at(i), {strip.x + static_cast<double>(i) * width, strip.y, width, height});
    }
  }
}

}  // namespace blankwright

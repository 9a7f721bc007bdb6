#include "sheet/sheet/card_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace blankwright {
namespace {

constexpr Length border = 0.8 * mm;
constexpr double below_baseline = 0.3;  // what letters hang below it, in heights of the capitals

/// A word of a setting: numbers and names large, units small.
struct Token {
  std::string words;
  bool large = true;
};

/// A date's words stand as far from each other as a number from its unit.
std::vector<Token> tokens_of(const Printed& value, const Spelling& spelling) {
  std::vector<Token> tokens;
  std::istringstream words{value.words};
  for (std::string word; words >> word;) tokens.push_back({word, true});
  for (const Amount& amount : value.amounts) {
    tokens.push_back({text(amount.number, spelling), true});
    if (amount.unit != PrintedUnit::none) tokens.push_back({spelling[amount.unit], false});
  }
  return tokens;
}

/// Draws the tokens on one baseline as large as the width lets them be.
void draw_tokens(Canvas& canvas, Spot at, Length width, const std::vector<Token>& tokens, Length capitals) {
  const auto style = [&](const Token& token, double shrink) {
    return TextStyle{.capitals = (token.large ? 1 : 0.55) * shrink * capitals, .face = Face::bold};
  };
  const Length space = 0.3 * capitals;
  Length wanted = static_cast<double>(tokens.size() - 1) * space;
  for (const Token& token : tokens) wanted += canvas.width_of(token.words, style(token, 1));
  const double shrink = std::min(1.0, width / wanted);
  for (const Token& token : tokens) {
    canvas.text(at, token.words, style(token, shrink));
    at.x += canvas.width_of(token.words, style(token, shrink)) + shrink * space;
  }
}

void draw_setting(Canvas& canvas, const Box& cell, const Spelling& spelling, const CardSetting& setting) {
  canvas.rectangle(cell, wide_line);
  const Box room = inside(cell, border);
  const std::string small = joined({aside_text(setting.value, spelling), setting.small});
  const Length caption = 2.4 * mm, below = small.empty() ? 0 * mm : 2.4 * mm, gap = 0.4 * mm;
  canvas.text_fitted({room.x, room.y, room.width, caption}, setting.caption, {.capitals = 2 * mm, .least = 1.5 * mm});
  const Length left = room.height - caption - below - 2 * gap;
  const Length capitals = std::min(6 * mm, left / 1.35);
  const Length to_spare = left - (1 + below_baseline) * capitals;
  const Length baseline = room.y + caption + gap + 0.6 * to_spare + capitals;
  draw_tokens(canvas, {room.x, baseline}, room.width, tokens_of(setting.value, spelling), capitals);
  if (small.empty()) return;
  canvas.text_fitted({room.x, room.bottom() - below, room.width, below}, small, {.capitals = 2 * mm});
}

}  // namespace

void draw_card_settings(Canvas& canvas, const Box& box, const Template& t, std::span<const CardSetting> settings,
                        std::size_t columns) {
  const std::size_t rows = (settings.size() + columns - 1) / columns;
  const Length width = box.width / static_cast<double>(columns);
  const Length height = box.height / static_cast<double>(rows);
  for (std::size_t i = 0; i < settings.size(); ++i) {
    const auto column = static_cast<double>(i % columns), row = static_cast<double>(i / columns);
    draw_setting(canvas, {box.x + column * width, box.y + row * height, width, height}, t.spelling, settings[i]);
  }
}

std::string count_text(const WordTable& w, const std::vector<ShareOnPaper>& shares) {
  int pieces = 0, witnesses = 0;
  for (const ShareOnPaper& share : shares) {
    pieces += share.count;
    witnesses += share.witness_count;
  }
  if (witnesses == 0) return fmt::format("{}", pieces);
  return fmt::format("{} + {} {}", pieces, witnesses, w[Word::witness_mark]);
}

}  // namespace blankwright

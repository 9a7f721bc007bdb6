#include "sheet/sheet/card_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "sheet/mark/fitted.h"

namespace blankwright {
namespace {

constexpr Length setting_border = 0.8 * mm;
constexpr double below_baseline = 0.3;  // what letters hang below it, in heights of the capitals
constexpr double token_space = 0.3;     // between words, likewise

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

TextStyle style_of(const Token& token, Lettering size) {
  return {.size = token.large ? size : smaller(size), .face = Face::bold};
}

Length width_of(const Canvas& canvas, const std::vector<Token>& tokens, Lettering size) {
  Length width = static_cast<double>(tokens.size() - 1) * token_space * canvas.capitals(size);
  for (const Token& token : tokens) width += canvas.width_of(token.words, style_of(token, size));
  return width;
}

/// Draws the tokens on one baseline in the middle of the room, as large as it lets them be.
void draw_tokens(Canvas& canvas, const Box& room, const std::vector<Token>& tokens) {
  Lettering size = Lettering::figure;
  const auto fits_at = [&](Lettering one) {
    return width_of(canvas, tokens, one) <= room.width && (1 + below_baseline) * canvas.capitals(one) <= room.height;
  };
  while (size > Lettering::note && !fits_at(size)) size = smaller(size);
  const Length to_spare = room.height - (1 + below_baseline) * canvas.capitals(size);
  Spot at{room.x, room.y + 0.6 * to_spare + canvas.capitals(size)};
  for (const Token& token : tokens) {
    canvas.text(at, token.words, style_of(token, size));
    at.x += canvas.width_of(token.words, style_of(token, size)) + token_space * canvas.capitals(size);
  }
}

/// How high a note is: one line where it finds room so, in the narrow face too, else two.
Length note_height(const Canvas& canvas, const std::string& words, Length width) {
  if (words.empty()) return 0 * mm;
  const Length capitals = canvas.capitals(Lettering::note);
  const bool one = canvas.width_of(words, {.size = Lettering::note, .face = Face::narrow}) <= width;
  return one ? 1.2 * capitals : 3.1 * capitals;
}

constexpr Length setting_gap = 0.4 * mm;  // between a setting's figure and its notes

/// What stands small above the figure and below it, and how high that is.
struct SettingNotes {
  std::string below;
  Length above_height, below_height;
};

SettingNotes notes_of(const Canvas& canvas, const Spelling& spelling, const CardSetting& setting, Length width) {
  const std::string small = joined({aside_text(setting.value, spelling), setting.small});
  return {small, note_height(canvas, setting.caption, width), note_height(canvas, small, width)};
}

void draw_setting(Canvas& canvas, const Box& cell, const Spelling& spelling, const CardSetting& setting) {
  canvas.rectangle(cell, wide_line);
  const Box room = inside(cell, setting_border);
  const SettingNotes notes = notes_of(canvas, spelling, setting, room.width);
  const Length above = notes.above_height, below = notes.below_height;
  const TextStyle style{.size = Lettering::note};
  fitted(canvas, {room.x, room.y, room.width, above}, setting.caption, style);
  draw_tokens(canvas,
              {room.x, room.y + above + setting_gap, room.width, room.height - above - below - 2 * setting_gap},
              tokens_of(setting.value, spelling));
  if (below > 0 * mm) fitted(canvas, {room.x, room.bottom() - below, room.width, below}, notes.below, style);
}

}  // namespace

Length least_settings_row(const Canvas& canvas, Length width, const Template& t,
                          std::span<const CardSetting> settings) {
  Length most;
  for (const CardSetting& setting : settings) {
    const SettingNotes notes = notes_of(canvas, t.spelling, setting, width - 2 * setting_border);
    most = std::max(most, notes.above_height + notes.below_height);
  }
  return most + 2 * setting_gap + (1 + below_baseline) * canvas.capitals(Lettering::machine) + 2 * setting_border;
}

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

#include "sheet/sheet/card_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "sheet/mark/fitted.h"

namespace blankwright {
namespace {

constexpr Length border = 1 * mm;
constexpr Length field = 35 * mm;  // date and time by hand
constexpr Length check_height = 12 * mm;
constexpr Length share_row_height = 9 * mm;
constexpr std::size_t ids_in_row = 4;
constexpr Column order_column{26 * mm};
constexpr double below_baseline = 0.3;  // what letters hang below it, in heights of the capitals
constexpr TextStyle id_text{.capitals = 5 * mm, .face = Face::bold, .align = Align::centre, .least = 2 * mm};
constexpr TextStyle check_text{.capitals = 3 * mm, .least = 2.5 * mm};
constexpr TextStyle field_caption{.capitals = 1.9 * mm, .least = 1.8 * mm};

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
  const Length caption = 2.6 * mm, below = small.empty() ? 0 * mm : 2.4 * mm, gap = 0.6 * mm;
  canvas.text_fitted({room.x, room.y, room.width, caption}, setting.caption, {.capitals = 2.2 * mm});
  const Length left = room.height - caption - below - 2 * gap;
  const Length capitals = std::min(6 * mm, left / 1.5);
  const Length to_spare = left - (1 + below_baseline) * capitals;
  const Length baseline = room.y + caption + gap + 0.6 * to_spare + capitals;
  draw_tokens(canvas, {room.x, baseline}, room.width, tokens_of(setting.value, spelling), capitals);
  if (small.empty()) return;
  canvas.text_fitted({room.x, room.bottom() - below, room.width, below}, small, {.capitals = 2 * mm});
}

Cell order_cell(const WordTable& w, const ShareOnPaper& share, bool first) {
  const std::string count = first ? fmt::format("{}: {}", w[Word::bath_blanks], count_text(w, {share})) : "";
  return {{{share.order_id, {.capitals = 3 * mm, .face = Face::bold, .least = 2 * mm}},
           {count, {.capitals = 2.2 * mm, .least = 1.8 * mm}}}};
}

/// The IDs of a share's pieces, some in a row; in a draft, which has none, only how many they are.
void add_pieces(Table& table, const WordTable& w, const ShareOnPaper& share) {
  for (std::size_t first = 0; first < std::max<std::size_t>(share.blanks.size(), 1); first += ids_in_row) {
    Row row{{order_cell(w, share, first == 0)}, share_row_height};
    for (std::size_t i = first; i < first + ids_in_row; ++i) {
      row.cells.push_back({{{i < share.blanks.size() ? share.blanks.at(i).shown() : "", id_text}}});
    }
    table.rows.push_back(std::move(row));
  }
}

/// A share's witness number `n`: the first behind the last IDs where half a row is free there, others in rows of
/// their own.
void add_witness(Table& table, const WordTable& w, const ShareOnPaper& share, std::size_t n, Length width) {
  const std::size_t pieces = n == 0 ? share.blanks.size() % ids_in_row : 0;
  const bool shares_row = pieces > 0 && pieces <= ids_in_row / 2;
  if (!shares_row) table.rows.push_back({{order_cell(w, share, false)}, share_row_height});
  Row& row = table.rows.back();
  row.cells.resize(shares_row ? 1 + pieces : 1);
  const std::vector<Length> widths = column_widths(table.columns, width);
  for (std::size_t i = 0; i < row.cells.size(); ++i) row.own_columns.push_back({widths.at(i)});
  row.own_columns.insert(row.own_columns.end(), {{10 * mm}, {widths.back()}, {20 * mm, 1}});
  row.cells.insert(row.cells.end(),
                   {Cell{{{w[Word::witness_mark], id_text}}},
                    Cell{{{n < share.witnesses.size() ? share.witnesses.at(n).shown() : "", id_text}}},
                    Cell{{{w[Word::witness], card_text}}}});
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

void leave(Flow& flow, Length room) { take_strip(flow, std::min(room, free_room(flow).height)); }

void put_strips(Flow& flow, std::span<const Given<CardStrip>> strips, Length gap,
                const std::function<void(CardStrip)>& put) {
  for (const Given<CardStrip>& strip : strips) {
    leave(flow, gap);
    put(strip.value);
  }
}

void put_card_facts(Flow& flow, std::span<const CardFact> facts) {
  const Box strip = take_strip(flow, 12 * mm);
  Canvas canvas = canvas_of(flow);
  Box box = strip;
  for (const CardFact& fact : facts) {
    box.width = strip.width * fact.share;
    captioned(canvas, box, fact.caption, fact.value, 4 * mm, Face::bold);
    canvas.rectangle(box);
    box.x = box.right();
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

void put_shares(OrderFlow& flow, const std::vector<ShareOnPaper>& shares) {
  const WordTable& w = flow.dossier.sheet_template.words;
  std::string who = w[Word::card_who];
  if (shares.size() > 1) who += fmt::format(" ({})", w[Word::card_shared]);
  Table table;
  table.columns = {order_column, {38 * mm, 1}, {38 * mm, 1}, {38 * mm, 1}, {38 * mm, 1}};
  table.head = {
      {Cell{{{w[Word::order], card_head}}}, Cell{{{who, card_head}}}}, 6.5 * mm, {order_column, {100 * mm, 1}}};
  for (const ShareOnPaper& share : shares) {
    add_pieces(table, w, share);
    for (std::size_t n = 0; n < static_cast<std::size_t>(share.witness_count); ++n) {
      add_witness(table, w, share, n, whole_room(flow).width);
    }
  }
  put_table(flow, table);
}

CardChecks::CardChecks(const WordTable& words, Length width) : words_{words}, width_{width} {
  table_.columns = {{width}};
  table_.head = {{Cell{{{words[Word::card_checks], card_head}}}}, 6.5 * mm};
}

Cell CardChecks::numbered(const std::string& words) {
  return {{{fmt::format("{}  {}", ++number_, words), check_text}}};
}

void CardChecks::pair(const CardCheck& left, const CardCheck& right) {
  Row row;
  // The longer words have more of the width.
  const double long_left = static_cast<double>(left.words.size() + 1);
  const double share = std::clamp(long_left / (long_left + static_cast<double>(right.words.size() + 1)), 0.4, 0.6);
  const Length room = width_ - 2 * field;
  row.own_columns = {{share * room}, {field}, {(1 - share) * room}, {field}};
  row.least_height = check_height;
  row.with_next = true;
  for (const CardCheck* check : {&left, &right}) {
    row.cells.push_back(numbered(check->words));
    row.cells.push_back({{{check->field, field_caption}}, true});
  }
  table_.rows.push_back(std::move(row));
}

void CardChecks::hold(const std::string& condition) {
  const TextStyle word{.capitals = 5 * mm, .face = Face::bold, .align = Align::centre, .least = 2 * mm};
  Row row;
  row.own_columns = {{24 * mm}, {70 * mm, 1}, {42 * mm}, {field}};
  row.cells = {Cell{{{words_[Word::hold], word}}}, Cell{{{condition, {.capitals = 3.5 * mm, .least = 2.2 * mm}}}},
               Cell{{{words_[Word::signature], field_caption}}, true},
               Cell{{{words_[Word::date_time], field_caption}}, true}};
  row.least_height = 13 * mm;
  row.box = hold_line;
  row.with_next = true;
  table_.rows.push_back(std::move(row));
}

void CardChecks::put(Flow& flow) const { put_table(flow, table_); }

}  // namespace blankwright

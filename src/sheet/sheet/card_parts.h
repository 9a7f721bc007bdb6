#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "sheet/frame/table.h"
#include "sheet/paper/limits.h"

namespace blankwright {

// What the cards of bath and oven have in common: read with wet gloves, from an arm's length.

inline constexpr TextStyle card_text{.capitals = 3 * mm, .least = 2.2 * mm};
inline constexpr TextStyle card_head{.capitals = 2.5 * mm, .face = Face::bold, .least = 2 * mm};

/// What is set, weighed or waited for: the figure large, its caption above, what goes with it below.
struct CardSetting {
  std::string caption;
  Printed value;  ///< its numbers stand large, its units smaller, the decimal of a fraction below
  std::string small = {};
};

/// Settings in a grid, row by row, in equal cells. Figures are 6 mm high where they find room.
void draw_card_settings(Canvas& canvas, const Box& box, const Template& sheet_template,
                        std::span<const CardSetting> settings, std::size_t columns);

/// Room between two things; less where the page ends before.
void leave(Flow& flow, Length room);

/// The strips of a card in the template's order, each with `gap` above it.
void put_strips(Flow& flow, std::span<const Given<CardStrip>> strips, Length gap,
                const std::function<void(CardStrip)>& put);

/// A captioned word or two at the head of a card.
struct CardFact {
  std::string caption, value;
  double share;  ///< of the width
};
void put_card_facts(Flow& flow, std::span<const CardFact> facts);

/// Orders and the IDs of their blanks; the witness marked. Goes on over as many pages as it takes.
void put_shares(OrderFlow& flow, const std::vector<ShareOnPaper>& shares);

/// "10 + 1 W": pieces and witnesses of all shares.
std::string count_text(const WordTable& words, const std::vector<ShareOnPaper>& shares);

/// What is written down while it happens.
struct CardCheck {
  std::string words;
  std::string field;  ///< caption of what is written in
};

/// Rows to write in, numbered from 1; a hold as a row of its own.
class CardChecks {
 public:
  CardChecks(const WordTable& words, Length width);

  /// Two checks side by side, one field each.
  void pair(const CardCheck& left, const CardCheck& right);
  void hold(const std::string& condition);
  void put(Flow& flow) const;

 private:
  Cell numbered(const std::string& words);
  const WordTable& words_;
  Length width_;
  Table table_;
  int number_ = 0;
};

}  // namespace blankwright

#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "sheet/frame/table.h"
#include "sheet/paper/limits.h"

namespace blankwright {

// What the cards of bath and oven have in common: read with wet gloves, from an arm's length.

/// What is set, weighed or waited for: the figure large, its caption above, what goes with it below.
struct CardSetting {
  std::string caption;
  Printed value;  ///< its numbers stand large, its units smaller, the decimal of a fraction below
  std::string small = {};
};

/// Settings in a grid, row by row, in equal cells. Figures are 6 mm high where they find room.
void draw_card_settings(Canvas& canvas, const Box& box, const Template& sheet_template,
                        std::span<const CardSetting> settings, std::size_t columns);

/// The least height of a row of them, in cells of that width, in which every figure stands 3.5 mm high between its
/// notes.
Length least_settings_row(const Canvas& canvas, Length width, const Template& sheet_template,
                          std::span<const CardSetting> settings);

/// Of a strip's width, what its settings take: from an edge of the checks on.
inline constexpr double card_settings_share = 2.0 / 3;
inline constexpr TextStyle hand_note{.size = Lettering::hand, .least = Lettering::hand};

/// How the blanks are dried before their bath, in a strip; nothing where they are not.
void put_drying(OrderFlow& flow);

/// A captioned word or two at the head of a card.
struct CardFact {
  std::string caption, value;
  double share;  ///< of the width
};

/// "10 + 1 W": pieces and witnesses of all shares.
std::string count_text(const WordTable& words, const std::vector<ShareOnPaper>& shares);

/// What is written down while it happens.
struct CardCheck {
  std::string words;
  std::string field;  ///< caption of what is written in
  bool hold = false;  ///< nothing goes on before it is signed
};

/// Fields to write in, three in a row, numbered from 1; a hold stands out by its line.
void put_checks(Flow& flow, std::span<const CardCheck> checks);

/// What stands at the head of a card: which one it is, the name and code of its bath or load, whose blanks are in it.
struct CardHead {
  Word title;
  int number = 0;
  std::string name;  ///< for entries, and in its code; empty in a draft
  std::vector<CardFact> facts;
  const std::vector<ShareOnPaper>& shares;
};

/// "B-NG7-32GX": a bath or load is named for its first blank, so that every card of it says the same; empty where
/// that has no ID yet.
std::string name_for_entries(char kind, const std::vector<ShareOnPaper>& shares);

/// A half sheet, to be cut off: read at bath and oven, written on with a pencil, its back left blank.
struct Card {
  Page page;  ///< its top at 0
  Length height;
  PartOnPage part;  ///< which one it is
};

/// Half a page, with a drawing; about a third, without; or as little as may be, in the fewest words.
enum class CardSize { half, third, least };

/// The card of one bath or load, and those that go on with IDs for which it has no room.
using Cards = std::vector<Card>;

/// Makes a card: what is below the head is put by `put`, whose drawing gets what the rest leaves of half a page; on
/// the smaller card it is to have no height.
Cards made_cards(const Dossier& dossier, const FontMetrics& fonts, const CardHead& head, CardSize size,
                 const std::function<void(OrderFlow&, Length drawing)>& put);

/// Adds cards to pages of their own, as many as find room, with a line between them to cut along.
void put_cards(OrderFlow& flow, std::vector<Cards> cards);

/// The cards of baths and of loads that blanks of the order are in.
std::vector<Cards> bath_cards_of(const Dossier& dossier, const FontMetrics& fonts);
std::vector<Cards> oven_cards_of(const Dossier& dossier, const FontMetrics& fonts, CardSize size);
/// Each bath's before those of its loads; where that takes more pages, all of the baths and then smaller ones of the
/// loads.
void bath_and_oven_cards(OrderFlow& flow);

}  // namespace blankwright

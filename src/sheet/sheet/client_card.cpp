#include "sheet/sheet/client_card.h"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

#include "diagnose/failure.h"
#include "sheet/frame/frame.h"
#include "sheet/mark/canvas.h"
#include "sheet/mark/fitted.h"
#include "sheet/mark/qr.h"
#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

const Paper a6{"A6", 105 * mm, 148 * mm};  // ISO 216
constexpr Length card_border = 6 * mm;
constexpr Length small_row = 9.5 * mm;

struct Cell {
  Word caption;
  std::optional<std::string> value;  ///< none: nobody recorded it, and it is left out
  double share = 1;
};

/// Draws one card from the top down.
class ClientCard {
 public:
  ClientCard(const PieceRecorded& piece, const Template& sheet_template, UnitSystem units, Canvas canvas)
      : p_{piece}, t_{sheet_template}, w_{sheet_template.words}, units_{units}, canvas_{canvas} {}

  void draw() {
    row(14 * mm, Lettering::machine,
        {{Word::card_seat, length(p_.squareness)},
         {Word::card_projection, length(p_.projection)},
         {Word::card_thread, thread()},
         {Word::card_tighten, tightening()}});
    draw_id();
    row(small_row, Lettering::hand, {{Word::order, p_.order, 1}, {Word::client, p_.client, 2}});
    row(11.2 * mm, Lettering::hand,  // an item's name may take two lines
        {{Word::item, p_.item, 2}, {Word::drawing, recorded(p_.drawing), 1}});
    row(small_row, Lettering::hand,
        {{Word::card_wood, p_.wood, 2}, {Word::card_board, recorded(p_.board)}, {Word::card_lot, recorded(p_.lots)}});
    row(small_row, Lettering::hand,
        {{Word::card_dry, in_units(p_.dry)}, {Word::card_cured, in_units(p_.cured)}, {Word::card_gain, gain()}});
    row(small_row, Lettering::hand,
        {{Word::card_gauge, in_units(p_.gauge)},
         {Word::card_vacuum, time(p_.vacuum)},
         {Word::card_soak, time(p_.soak)}});
    row(small_row, Lettering::hand,
        {{Word::card_cure, time(p_.cure)},
         {Word::card_core, in_units(p_.core)},
         {Word::card_finish, recorded(p_.finish)}});
    row(small_row, Lettering::hand,
        {{Word::card_bore, length(p_.bore)},
         {Word::card_offset, length(p_.offset)},
         {Word::card_inspected, recorded(p_.inspected)}});
    row(11 * mm, Lettering::note, {{Word::card_remarks, recorded(p_.remarks)}});
    row(small_row, Lettering::hand,
        {{Word::card_sent, recorded(p_.sent)}, {Word::card_by, recorded(p_.by)}, {Word::card_signature, ""}});
    fitted(canvas_, {card_border, y_ + 1 * mm, width, a6.height - card_border - y_ - 1 * mm}, w_[Word::card_states],
           {.size = Lettering::note});
  }

 private:
  static constexpr Length width = 105 * mm - 2 * card_border;

  /// Those of the cells that have a value share its width; a row without one takes no room.
  void row(Length height, Lettering size, std::vector<Cell> cells) {
    std::erase_if(cells, [](const Cell& cell) { return !cell.value; });
    if (cells.empty()) return;
    double shares = 0;
    for (const Cell& cell : cells) shares += cell.share;
    Length x = card_border;
    for (const Cell& cell : cells) {
      const Box box{x, y_, cell.share / shares * width, height};
      canvas_.rectangle(box, narrow_line);
      captioned(canvas_, box, w_[cell.caption], *cell.value, size, Face::regular);
      x = box.right();
    }
    y_ += height;
  }

  void draw_id() {
    const Box box{card_border, y_, width, 22 * mm};
    auto symbol =
        qr_symbol({.text = p_.blank->encoded(), .level = QrLevel::high, .least_version = 1, .most_version = 1});
    BW_EXPECT(symbol.has_value());  // an ID of seven symbols is held by version 1 at level H
    const auto place = placed_qr(symbol->side, {box.right() - 22 * mm, box.y, 22 * mm, 22 * mm});
    BW_EXPECT(place.has_value());
    canvas_.add(Matrix{place->at, place->module, symbol->side, std::move(symbol->black)}, Role::code);
    canvas_.text_fitted({box.x, box.y + 2 * mm, box.width - 24 * mm, 4 * mm}, w_[Word::client_card], {});
    canvas_.text_fitted({box.x, box.y + 7 * mm, box.width - 24 * mm, 8 * mm}, p_.blank->shown(),
                        {.size = Lettering::large, .face = Face::bold});
    canvas_.text_fitted({box.x, box.y + 16.5 * mm, box.width - 24 * mm, 4.5 * mm}, p_.maker, {});
    y_ = box.bottom();
  }

  static std::optional<std::string> recorded(const std::string& value) {
    return value.empty() ? std::nullopt : std::optional{value};
  }
  std::optional<std::string> length(const std::optional<Length>& value) const {
    if (!value) return std::nullopt;
    return shown(t_, printed(*value, {.system = units_, .fineness = Fineness::measured}));
  }
  std::optional<std::string> time(const std::optional<Duration>& value) const {
    return value ? std::optional{shown(t_, printed(*value))} : std::nullopt;
  }
  template <class Q>
  std::optional<std::string> in_units(const std::optional<Q>& value) const {
    return value ? std::optional{shown(t_, printed(*value, units_))} : std::nullopt;
  }
  std::optional<std::string> gain() const {
    if (!p_.dry || !p_.cured || *p_.dry <= Mass{}) return std::nullopt;
    return shown(t_, printed(decimal(100 * (*p_.cured / *p_.dry - 1), 0), PrintedUnit::per_cent));
  }
  std::string tightening() const {
    return p_.tightening ? shown(t_, at_most(*p_.tightening, units_)) : w_[Word::not_stated];
  }
  std::optional<std::string> thread() const {
    if (!p_.thread) return std::nullopt;
    return w_[*p_.thread == Outcome::pass ? Word::card_pass : Word::card_fail];
  }

  const PieceRecorded& p_;
  const Template& t_;
  const WordTable& w_;
  UnitSystem units_;
  Canvas canvas_;
  Length y_ = card_border;
};

}  // namespace

std::vector<Page> client_cards(const std::vector<PieceRecorded>& pieces, const Template& words, UnitSystem units,
                               const FontMetrics& fonts) {
  std::vector<Page> pages;
  for (const PieceRecorded& piece : pieces) {
    BW_EXPECT(piece.blank.has_value());
    pages.push_back({a6, {}, words.words[Word::client_card]});
    ClientCard{piece, words, units, Canvas{pages.back(), fonts}}.draw();
  }
  return pages;
}

}  // namespace blankwright

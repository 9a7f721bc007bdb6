#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <span>
#include <utility>

#include "sheet/frame/flowing_text.h"
#include "sheet/mark/moved.h"
#include "sheet/mark/qr.h"
#include "sheet/mark/text_code.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr Length cut_gap = 3 * mm;      // between two cards, its middle to be cut along
constexpr Length order_code = 17 * mm;  // at the left of a head
constexpr Length own_code = 28.2 * mm;  // at its right: 20 mm and more without the quiet zone
constexpr Length title_height = 7.4 * mm, facts_height = 9.6 * mm;
constexpr Length least_drawing = 24 * mm, most_drawing = 60 * mm;
constexpr std::size_t ids_in_row = 5;
constexpr Length id_height = 5.8 * mm, id_border = 0.5 * mm;
constexpr TextStyle id_text{
    .size = Lettering::machine, .face = Face::bold, .align = Align::centre, .least = Lettering::hand};

Box page_room(const Dossier& d) {
  const Paper paper = paper_of(d.sheet_template.paper.value);
  const Length margin = d.sheet_template.margin.value, foot = 6 * mm;
  return {margin, margin, paper.width - 2 * margin, paper.height - 2 * margin - foot};
}

/// A word, and where it says so an ID: of a share its order where there are several, its pieces, its witnesses.
std::vector<std::string> id_cells(const WordTable& w, const std::vector<ShareOnPaper>& shares) {
  std::vector<std::string> cells;
  for (const ShareOnPaper& share : shares) {
    if (shares.size() > 1) cells.push_back(fmt::format("{}: {}", share.order_id, count_text(w, {share})));
    for (const BlankId& id : share.blanks) cells.push_back(id.shown());
    for (const BlankId& id : share.witnesses)
      cells.push_back(fmt::format("{} {}", w[Word::witness_mark], id.shown()));
  }
  return cells;
}

void draw_ids(Canvas& canvas, Spot at, Length width, const std::vector<std::string>& cells) {
  const Length cell = width / static_cast<double>(ids_in_row);
  TextStyle style = id_text;  // one size for all IDs: none is more than the others; a witness's may have less room
  const auto is_too_wide = [&](const std::string& words) {
    return BlankId::read(words) && canvas.width_of(words, style) > cell - 2 * id_border;
  };
  if (std::ranges::any_of(cells, is_too_wide)) style.size = style.least;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Box box{at.x + static_cast<double>(i % ids_in_row) * cell,
                  at.y + static_cast<double>(i / ids_in_row) * id_height, cell, id_height};
    canvas.rectangle(box);
    canvas.text_fitted(inside(box, id_border), cells.at(i), style);
  }
}

void draw_title(Canvas& canvas, const Dossier& d, const CardHead& head, const Box& box) {
  const WordTable& w = d.sheet_template.words;
  const Length width = 0.6 * box.width;
  canvas.text_fitted({box.x, box.y, width, box.height},
                     fmt::format("{} {}{}{}", w[head.title], head.number, head.name.empty() ? "" : " · ", head.name),
                     {.size = Lettering::figure, .face = Face::bold, .least = Lettering::machine});
  const std::string issue = d.draft ? w[Word::draft] : fmt::format("{} {}", w[Word::issue], d.issue);
  canvas.text_fitted(
      {box.x + width, box.y, box.width - width, box.height}, fmt::format("{} · {}", d.order.id.value, issue),
      {.size = Lettering::machine, .face = Face::bold, .align = Align::right, .least = Lettering::hand});
}

void draw_facts(Canvas& canvas, std::span<const CardFact> facts, Box box) {
  const Length width = box.width;
  for (const CardFact& fact : facts) {
    box.width = width * fact.share;
    captioned(canvas, box, fact.caption, fact.value, Lettering::machine, Face::bold);
    canvas.rectangle(box);
    box.x = box.right();
  }
}

void put_head(OrderFlow& flow, const CardHead& head, const std::vector<std::string>& cells) {
  const Dossier& d = flow.dossier;
  const auto rows = static_cast<double>((cells.size() + ids_in_row - 1) / ids_in_row);
  const Length upper = title_height + facts_height;
  const Box box = take_strip(flow, std::max(own_code, upper + rows * id_height) + 1.5 * mm);
  Canvas canvas = canvas_of(flow);
  if (!d.draft) draw_text_code(canvas, {box.x, box.y, order_code, order_code}, page_code(d));
  if (!head.name.empty()) draw_text_code(canvas, {box.right() - own_code, box.y, own_code, own_code}, head.name);
  const Length left = box.x + order_code, right = box.right() - own_code - 1 * mm;
  draw_title(canvas, d, head, {left, box.y, right - left, title_height});
  draw_facts(canvas, head.facts, {left, box.y + title_height, right - left, facts_height - 0.5 * mm});
  draw_ids(canvas, {box.x, box.y + upper}, right - box.x, cells);
}

/// Which bath or load it is: by the name on the card, and by those under which the register has its blanks.
PartOnPage part_of(const Dossier& d, const CardHead& head) {
  const bool oven = head.title == Word::oven_card;
  PartOnPage part{oven ? SheetKind::oven : SheetKind::bath, head.number, {}, {}};
  const auto add = [&](const std::string& name) {
    if (!name.empty() && std::ranges::find(part.names, name) == part.names.end()) part.names.push_back(name);
  };
  add(head.name);
  for (const ShareOnPaper& share : head.shares) {
    for (const auto* ids : {&share.blanks, &share.witnesses})
      part.blanks.insert(part.blanks.end(), ids->begin(), ids->end());
    for (const BlankId& id : share.blanks) {
      if (const auto seen = d.seen.find(id); seen != d.seen.end()) add(oven ? seen->second.load : seen->second.bath);
    }
  }
  return part;
}

using PutRest = std::function<void(OrderFlow&)>;

/// On paper that is long enough for anything: how high it is shows when everything is on it.
Card card_with(const Dossier& d, const FontMetrics& fonts, const CardHead& head,
               const std::vector<std::string>& cells, const PutRest& put_rest) {
  OrderFlow flow = flow_for(d, fonts);
  const Box room = page_room(d);
  Sheet sheet;
  sheet.page.paper = paper_of(d.sheet_template.paper.value);
  sheet.page.label = d.sheet_template.words[head.title];
  sheet.body = {room.x, 0 * mm, room.width, 10 * metre};
  flow.sheets.push_back(std::move(sheet));
  put_head(flow, head, cells);
  if (head.shares.size() > 1) {
    put_text(flow, {d.sheet_template.words[Word::card_shared], {.size = Lettering::hand, .least = Lettering::hand}});
  }
  put_rest(flow);
  return {std::move(flow.sheets.front().page), flow.top, part_of(d, head)};
}

int pages_for(const Dossier& d, const std::vector<Cards>& cards) {
  const Length room = page_room(d).height;
  int pages = 0;
  Length left;
  for (const Cards& all : cards) {
    for (const Card& card : all) {
      const bool below = fits(left, cut_gap + card.height);
      pages += below ? 0 : 1;
      left = below ? left - cut_gap - card.height : room - card.height;
    }
  }
  return pages;
}

}  // namespace

std::string name_for_entries(char kind, const std::vector<ShareOnPaper>& shares) {
  for (const ShareOnPaper& share : shares) {
    for (const auto* ids : {&share.blanks, &share.witnesses}) {
      if (!ids->empty()) return fmt::format("{}-{}", kind, ids->front().shown());
    }
  }
  return {};
}

Cards made_cards(const Dossier& d, const FontMetrics& fonts, const CardHead& head, CardSize size,
                 const std::function<void(OrderFlow&, Length)>& put) {
  std::vector<std::string> cells = id_cells(d.sheet_template.words, head.shares);
  const auto with_drawing = [&](Length drawing) {
    return card_with(d, fonts, head, cells, [&](OrderFlow& flow) { put(flow, drawing); });
  };
  const Length least = size == CardSize::half ? least_drawing : 0 * mm, most = page_room(d).height;
  Card card = with_drawing(least);
  std::vector<std::string> rest;
  while (!fits(most, card.height) && cells.size() > ids_in_row) {  // a whole page is not enough
    rest.insert(rest.begin(), cells.end() - ids_in_row, cells.end());
    cells.resize(cells.size() - ids_in_row);
    card = with_drawing(least);
  }
  const Length half = (page_room(d).height - cut_gap) / 2 - 0.2 * mm;  // moved onto the printer's dots
  if (size == CardSize::half) {
    const Length drawing = most_drawing + std::min(0 * mm, half - with_drawing(most_drawing).height);
    if (drawing > least_drawing) card = with_drawing(drawing);
  }
  Cards all;
  all.push_back(std::move(card));
  const auto on_page = static_cast<std::size_t>((most - own_code) / id_height) * ids_in_row;
  for (std::size_t first = 0; first < rest.size(); first += on_page) {
    const auto begin = rest.begin() + static_cast<std::ptrdiff_t>(first);
    const auto count = static_cast<std::ptrdiff_t>(std::min(on_page, rest.size() - first));
    all.push_back(card_with(d, fonts, head, {begin, begin + count}, [](OrderFlow&) {}));
  }
  return all;
}

namespace {

void put_one(OrderFlow& flow, Card card, bool& begun) {
  const Dossier& d = flow.dossier;
  const Box room = page_room(d);
  const bool below = begun && fits(room.bottom() - flow.top, cut_gap + card.height);
  if (!below) {
    Sheet sheet;
    sheet.page.paper = card.page.paper;
    sheet.page.label = card.page.label;
    sheet.body = room;
    sheet.blank_back = true;
    flow.sheets.push_back(std::move(sheet));
    flow.top = room.y;
    begun = true;
    Canvas canvas = canvas_of(flow);
    if (d.draft) draw_draft(canvas);
  }
  flow.sheets.back().parts.push_back(std::move(card.part));
  Page& page = flow.sheets.back().page;
  Canvas canvas = canvas_of(flow);
  if (below) {
    const Length y = flow.top + cut_gap / 2;
    canvas.line({room.x, y}, {room.right(), y}, narrow_line, Dash::tear);
    flow.top += cut_gap;
  }
  const Length down = snapped_down(flow.top);
  for (Item& item : card.page.items) page.items.push_back({moved(std::move(item.mark), down), item.role});
  flow.top = down + card.height;
}

std::vector<Cards> in_turn(const Dossier& d, const std::vector<Cards>& baths, const std::vector<Cards>& ovens) {
  std::vector<Cards> out;
  for (std::size_t i = 0; i < d.baths.size(); ++i) {
    out.push_back(baths.at(i));
    for (std::size_t k = 0; k < d.loads.size(); ++k) {
      if (d.loads.at(k).bath_number == d.baths.at(i).number) out.push_back(ovens.at(k));
    }
  }
  return out;
}

}  // namespace

void put_cards(OrderFlow& flow, std::vector<Cards> cards) {
  bool begun = false;
  for (Cards& all : cards) {
    for (Card& card : all) put_one(flow, std::move(card), begun);
  }
  if (begun) flow.top = whole_room(flow).bottom();
}

namespace {

/// Takes of larger cards, which say more, what finds room on the pages that the others fill.
void grow(const Dossier& d, std::vector<Cards>& cards, std::span<const Cards> larger) {
  const Length room = page_room(d).height;
  const std::size_t before = cards.size() - larger.size();  // of baths, which are no larger
  for (std::size_t first = 0; first < cards.size();) {
    std::size_t end = first;
    Length used = -cut_gap;
    while (end < cards.size() && cards.at(end).size() == 1 &&
           fits(room, used + cut_gap + cards.at(end).front().height)) {
      used = used + cut_gap + cards.at(end++).front().height;
    }
    for (std::size_t i = std::max(first, before); i < end; ++i) {
      const Cards& other = larger[i - before];
      const Length more = other.front().height - cards.at(i).front().height;
      if (other.size() > 1 || !fits(room, used + more)) continue;
      used = used + more;
      cards.at(i) = other;
    }
    first = std::max(end, first + 1);
  }
}

}  // namespace

void bath_and_oven_cards(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  std::vector<Cards> baths = bath_cards_of(d, flow.fonts);
  const std::vector<Cards> ovens = oven_cards_of(d, flow.fonts, CardSize::half);
  std::vector<Cards> together = in_turn(d, baths, ovens);
  std::vector<Cards> apart = std::move(baths);
  std::ranges::move(oven_cards_of(d, flow.fonts, CardSize::least), std::back_inserter(apart));
  if (pages_for(d, apart) >= pages_for(d, together)) return put_cards(flow, std::move(together));
  grow(d, apart, oven_cards_of(d, flow.fonts, CardSize::third));
  grow(d, apart, ovens);
  put_cards(flow, std::move(apart));
}

}  // namespace blankwright

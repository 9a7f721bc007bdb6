#include "sheet/frame.h"

#include <fmt/format.h>

#include <array>
#include <chrono>

namespace blankwright {
namespace {

constexpr Length head_height = 24 * mm;
constexpr Length foot_height = 6 * mm;

std::span<const std::string> words_from(const Template& t, Word first, std::size_t count) {
  return std::span{t.words.words}.subspan(static_cast<std::size_t>(first), count);
}

Word condition_word(WoodCondition condition) {
  switch (condition) {
    case WoodCondition::sound:
      return Word::condition_sound;
    case WoodCondition::spalted:
      return Word::condition_spalted;
    case WoodCondition::punky:
      return Word::condition_punky;
    case WoodCondition::burl:
      return Word::condition_burl;
  }
  return Word::condition_sound;
}

struct HeadCell {
  Word caption;
  std::string value;
  double share;  ///< of the width
};

void draw_head(Canvas& canvas, const Dossier& d, const Box& head, Word title, bool goes_on) {
  const WordTable& w = d.sheet_template.words;
  const Box title_row{head.x, head.y, head.width, 12 * mm};
  std::string name = w[title];
  if (goes_on) name += ", " + w[Word::continued];
  canvas.text_fitted({title_row.x, title_row.y, title_row.width * 0.48, title_row.height}, name,
                     {.capitals = 5 * mm, .face = Face::bold, .least = 3 * mm});
  canvas.text_fitted({title_row.x + title_row.width * 0.5, title_row.y, title_row.width * 0.5, title_row.height},
                     d.order.id.value,
                     {.capitals = 7 * mm, .face = Face::bold, .align = Align::right, .least = 2.5 * mm});
  const std::array cells{
      HeadCell{Word::item, d.order.item.value, 0.28},
      HeadCell{Word::client, d.order.client.value, 0.26},
      HeadCell{Word::species, wood_text(d), 0.22},
      HeadCell{Word::quantity, fmt::format("{}", d.order.quantity.value), 0.10},
      HeadCell{Word::due, d.order.due ? day_text(d, d.order.due->value) : w[Word::not_stated], 0.14},
  };
  Box cell{head.x, title_row.bottom(), 0 * mm, head.bottom() - title_row.bottom() - 1 * mm};
  for (const HeadCell& c : cells) {
    cell.width = head.width * c.share;
    captioned(canvas, cell, w[c.caption], c.value);
    canvas.rectangle(cell);
    cell.x = cell.right();
  }
}

/// The letters of DRAFT as strokes on a grid 4 wide and 6 high, y down.
using Grid = std::vector<std::vector<std::array<double, 2>>>;
const std::array<Grid, 5>& draft_letters() {
  static const std::array<Grid, 5> letters{
      Grid{{{0, 0}, {0, 6}, {2, 6}, {4, 4}, {4, 2}, {2, 0}, {0, 0}}},
      Grid{{{0, 6}, {0, 0}, {3, 0}, {4, 1}, {4, 2}, {3, 3}, {0, 3}}, {{2, 3}, {4, 6}}},
      Grid{{{0, 6}, {2, 0}, {4, 6}}, {{1, 3.6}, {3, 3.6}}},
      Grid{{{0, 6}, {0, 0}, {4, 0}}, {{0, 3}, {3, 3}}},
      Grid{{{0, 0}, {4, 0}}, {{2, 0}, {2, 6}}},
  };
  return letters;
}

}  // namespace

Paper paper_of(PaperSize size) {
  return size == PaperSize::a4 ? Paper{"A4", 210 * mm, 297 * mm} : Paper{"Letter", 8.5 * inch, 11 * inch};
}

std::string moment_text(const Dossier& d, Instant instant) {
  return readable_text(local_time(d.shop.zone.value, instant), words_from(d.sheet_template, Word::monday, 7),
                       words_from(d.sheet_template, Word::january, 12));
}

std::string dated_text(const Dossier& d, Instant instant) {
  const LocalTime time = local_time(d.shop.zone.value, instant);
  return fmt::format("{} {} {:02}:{:02}", words_from(d.sheet_template, Word::monday, 7)[time.weekday],
                     day_text(d, time.date), time.hour, time.minute);
}

std::string day_text(const Dossier& d, Date date) {
  const auto months = words_from(d.sheet_template, Word::january, 12);
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()), months[static_cast<unsigned>(date.month()) - 1],
                     static_cast<int>(date.year()));
}

std::string wood_text(const Dossier& d) {
  return d.plan.species + ", " + d.sheet_template.words[condition_word(d.order.wood.condition.value)];
}

void captioned(Canvas& canvas, const Box& box, const std::string& caption, const std::string& value, Length capitals,
               Face face) {
  const Box room = inside(box, 1 * mm);
  const Length caption_height = 2.4 * mm;
  canvas.text_fitted({room.x, room.y, room.width, caption_height}, caption,
                     {.capitals = 1.8 * mm, .least = 1.2 * mm});
  canvas.text_fitted(
      {room.x, room.y + caption_height + 0.4 * mm, room.width, room.height - caption_height - 0.4 * mm}, value,
      {.capitals = capitals, .face = face, .least = 1.6 * mm});
}

void draw_draft(Canvas& canvas) {
  const Paper& paper = canvas.page().paper;
  const Length unit = paper.width / 36;
  std::vector<Path> paths;
  for (std::size_t i = 0; i < draft_letters().size(); ++i) {
    for (const auto& stroke : draft_letters().at(i)) {
      Path path;
      for (const auto& [x, y] : stroke) {
        // Each letter stands a little higher than the one before: the word rises across the page.
        const double n = static_cast<double>(i);
        path.push_back({(6 + 5 * n + x) * unit, paper.height / 2 + (y - 3 + 2 * (2 - n)) * unit});
      }
      paths.push_back(std::move(path));
    }
  }
  canvas.strokes(std::move(paths), 0.2 * mm);  // thin: what it crosses has to stay readable
}

Sheet begin_sheet(const Dossier& d, const FontMetrics& fonts, Word title, bool goes_on) {
  Sheet sheet;
  sheet.page.paper = paper_of(d.sheet_template.paper.value);
  sheet.page.label = d.sheet_template.words[title];
  const Length margin = d.sheet_template.margin.value;
  const Length width = sheet.page.paper.width - 2 * margin;
  Canvas canvas{sheet.page, fonts};
  if (d.draft) draw_draft(canvas);
  draw_head(canvas, d, {margin, margin, width, head_height}, title, goes_on);
  const Length top = margin + head_height + 1 * mm;
  sheet.body = {margin, top, width, sheet.page.paper.height - margin - foot_height - top};
  return sheet;
}

void number_sheets(std::vector<Page>& pages, const Dossier& d, const FontMetrics& fonts) {
  const WordTable& w = d.sheet_template.words;
  const Length margin = d.sheet_template.margin.value;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Canvas canvas{pages.at(i), fonts};
    const Paper& paper = pages.at(i).paper;
    const Box strip{margin, paper.height - margin - 5 * mm, paper.width - 2 * margin, 5 * mm};
    const std::string left = d.draft ? w[Word::draft_notice]
                                     : fmt::format("{} · {} {} · {}", d.shop.name.value, w[Word::printed],
                                                   moment_text(d, d.at), d.program);
    canvas.text_fitted({strip.x, strip.y, strip.width * 0.78, strip.height}, left,
                       {.capitals = 1.9 * mm, .least = 1.4 * mm});
    canvas.text_fitted({strip.x + strip.width * 0.8, strip.y, strip.width * 0.2, strip.height},
                       fmt::format("{} {} / {}", w[Word::sheet_of], i + 1, pages.size()),
                       {.capitals = 2.5 * mm, .align = Align::right});
  }
}

}  // namespace blankwright

#include "sheet/frame/frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheet/frame/block_drawing.h"
#include "sheet/frame/sign.h"
#include "sheet/paper/said_times.h"

namespace blankwright {
namespace {

constexpr Length below_head = 2 * mm;
constexpr Length foot_height = 6 * mm;

/// The kind of sheet that has this title; none for what belongs to no traveller.
std::optional<SheetKind> kind_titled(Word title) {
  constexpr auto titles = std::to_array<Word>({
#define BW_TITLE(kind, title, maker, hand, sign) Word::title,
      BW_SHEETS(BW_TITLE)
#undef BW_TITLE
  });
  const auto* const found = std::ranges::find(titles, title);
  return found == titles.end() ? std::nullopt : std::optional{static_cast<SheetKind>(found - titles.begin())};
}

void draw_head(Canvas& canvas, const Dossier& d, const Box& head, Word title, PageOfKind page) {
  const WordTable& w = d.sheet_template.words;
  BlockContent content = content_of(d);
  std::string& shown = content[BlockKind::title].words;
  shown = w[title];
  if (page == PageOfKind::further) shown += ", " + w[Word::continued];
  content.sign = kind_titled(title);
  if (!d.draft) {
    content.page_code = page_code(d);
    content[BlockKind::issue].words = fmt::format("{}", d.issue);
  }
  const auto blocks =
      placed_blocks(d.sheet_template.head, {.free = head, .codes = {}, .pictures = d.sheet_template.pictures});
  draw_blocks(canvas, blocks, content, {d.sheet_template, d.shop.units.value, NoRoom::shrink, {}});
}

/// A page with what is left between a head of that height and the foot.
Sheet empty_sheet(const Template& t, const std::string& label, Length head) {
  Sheet sheet;
  sheet.page.paper = paper_of(t.paper.value);
  sheet.page.label = label;
  const Length margin = t.margin.value;
  const Paper& paper = sheet.page.paper;
  const Length top = margin + head;
  sheet.body = {margin, top, paper.width - 2 * margin, paper.height - margin - foot_height - top};
  return sheet;
}

/// A stroke of a letter, so wide and with square ends.
Path bar(Spot from, Spot to, Length width) {
  const double length = std::hypot((to.x - from.x) / mm, (to.y - from.y) / mm);
  const double along_x = (to.x - from.x) / mm / length, along_y = (to.y - from.y) / mm / length;
  const auto corner = [&](Spot at, double along, double aside) {
    return Spot{at.x + (along * along_x - aside * along_y) * width / 2,
                at.y + (along * along_y + aside * along_x) * width / 2};
  };
  return {corner(from, -1, -1), corner(to, 1, -1), corner(to, 1, 1), corner(from, -1, 1)};
}

}  // namespace

Paper paper_of(PaperSize size) { return {size == PaperSize::a4 ? "A4" : "Letter", width_of(size), height_of(size)}; }

void captioned(Canvas& canvas, const Box& box, const std::string& caption, const std::string& value, Lettering size,
               Face face) {
  const Box room{box.x + 1 * mm, box.y + 0.7 * mm, box.width - 2 * mm, box.height - 1.2 * mm};
  const Length note = canvas.capitals(Lettering::note);
  // Whatever the lettering, the smallest value finds room below.
  const Length gap = std::clamp((room.height - 2 * note) / 2, 0.2 * mm, 0.9 * mm);
  canvas.text_fitted({room.x, room.y, room.width, note}, caption, {.size = Lettering::note});
  canvas.text_fitted({room.x, room.y + note + gap, room.width, room.height - note - gap}, value,
                     {.size = size, .face = face});
}

void draw_draft(Canvas& canvas) {
  const Paper& paper = canvas.page().paper;
  const Length left = paper.width / 8, right = paper.width - left, top = paper.height / 8, low = paper.height - top;
  const Length width = paper.width / 36;
  canvas.add(Fill{{bar({left, top}, {right, low}, width), bar({left, low}, {right, top}, width)}, Ink::grey},
             Role::note);
}

std::string page_code(const Dossier& d) { return fmt::format("{}/{}", d.order.id.value, d.issue); }

void draw_part_title(Canvas& canvas, const Dossier& d, const Box& box, Word title) {
  const Length sign = box.height - 1 * mm;
  if (const auto kind = kind_titled(title)) draw_sign(canvas, *kind, {box.x, box.y, sign, sign});
  canvas.text_fitted({box.x + sign + 1 * mm, box.y, box.width - sign - 1 * mm, sign}, d.sheet_template.words[title],
                     {.size = Lettering::figure, .face = Face::bold, .least = Lettering::machine});
  canvas.line({box.x, box.bottom() - 1 * mm}, {box.right(), box.bottom() - 1 * mm}, wide_line);
}

Sheet begin_sheet(const Dossier& d, const FontMetrics& fonts, Word title, PageOfKind page) {
  const Length head = d.sheet_template.head_height.value;
  Sheet sheet = empty_sheet(d.sheet_template, d.sheet_template.words[title], head + below_head);
  Canvas canvas{sheet.page, fonts, lettering_of(d.sheet_template)};
  if (d.draft) draw_draft(canvas);
  draw_head(canvas, d, {sheet.body.x, d.sheet_template.margin.value, sheet.body.width, head}, title, page);
  return sheet;
}

Sheet begin_shop_sheet(const Template& t, const FontMetrics& fonts, const ShopHead& head, PageOfKind page) {
  constexpr Length title_height = 8 * mm;
  constexpr Length note_height = 5 * mm;
  Sheet sheet = empty_sheet(t, head.title, title_height + note_height + below_head);
  Canvas canvas{sheet.page, fonts, lettering_of(t)};
  if (head.draft) draw_draft(canvas);
  const Length top = t.margin.value;
  const std::string title =
      page == PageOfKind::further ? fmt::format("{}, {}", head.title, t.words[Word::continued]) : head.title;
  canvas.text_fitted({sheet.body.x, top, sheet.body.width, title_height}, title,
                     {.size = Lettering::figure, .face = Face::bold});
  canvas.text_fitted({sheet.body.x, top + title_height, sheet.body.width, note_height}, head.note, {});
  return sheet;
}

void number_sheets(std::vector<Page>& pages, const Template& t, const FontMetrics& fonts, const std::string& left) {
  const Length margin = t.margin.value;
  const auto is_printed = [](const Page& page) { return !page.items.empty(); };
  const auto count = std::ranges::count_if(pages, is_printed);
  int number = 0;
  for (Page& page : pages) {
    if (!is_printed(page)) continue;
    Canvas canvas{page, fonts, lettering_of(t)};
    const Box strip{margin, page.paper.height - margin - 5 * mm, page.paper.width - 2 * margin, 5 * mm};
    canvas.text_fitted({strip.x, strip.y, strip.width * 0.78, strip.height}, left, {.size = Lettering::note});
    canvas.text_fitted({strip.x + strip.width * 0.8, strip.y, strip.width * 0.2, strip.height},
                       fmt::format("{} {} / {}", t.words[Word::sheet_of], ++number, count),
                       {.size = Lettering::hand, .align = Align::right});
  }
}

std::string foot_text(const Template& t, const Shop& shop, Instant at, const std::string& program) {
  return fmt::format("{} · {} {} · {}", shop.name.value, t.words[Word::printed], moment_text(t, shop.zone.value, at),
                     program);
}

std::string foot_text(const Dossier& d) {
  if (d.draft) return d.sheet_template.words[Word::draft_notice];
  return foot_text(d.sheet_template, d.shop, d.at, d.program);
}

}  // namespace blankwright

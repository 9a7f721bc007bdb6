#include "sheet/tag/tags.h"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/frame/block_drawing.h"
#include "sheet/frame/frame.h"
#include "sheet/tag/bottle_label.h"
#include "sheet/tag/label.h"
#include "sheet/tag/tie_tag.h"

namespace blankwright {
namespace {

/// What the n-th tag of an order says, from 0.
BlockContent content_of_tag(BlockContent content, const Dossier& d, const std::optional<BlankId>& id, int n) {
  const WordTable& w = d.sheet_template.words;
  const Place& at = d.sheet_template.tag_sheet.at;
  content.id = id;
  content[BlockKind::id] = {id ? id->shown() : w[Word::draft], at};
  const int pieces = piece_count(d);
  content[BlockKind::count] = {
      n < pieces ? fmt::format("{} {} {}", n + 1, w[Word::of_blanks], pieces) : w[Word::witness], at};
  return content;
}

std::optional<BlankId> id_of(const Dossier& d, int n) {
  return d.draft ? std::nullopt : std::optional{d.blanks.at(static_cast<std::size_t>(n))};
}

/// The blanks that get tags, by their numbers.
std::vector<int> tagged(const Dossier& d, std::span<const BlankId> without) {
  std::vector<int> out;
  for (int n = 0; n < blank_count(d); ++n) {
    const auto id = id_of(d, n);
    if (!id || std::ranges::find(without, *id) == without.end()) out.push_back(n);
  }
  return out;
}

std::string widest_id(const Dossier& d, const FontMetrics& fonts) {
  const auto width = [&](const BlankId& id) { return fonts.width(id.shown(), Face::bold, 1 * mm); };
  if (d.draft || d.blanks.empty()) return d.sheet_template.words[Word::draft];
  return std::ranges::max(d.blanks, {}, width).shown();
}

/// Draws the tags of those blanks, by a function for the tag at a place.
template <class Put>
void put_tags(const Dossier& d, const std::vector<int>& blanks, const FontMetrics& fonts, Diagnostics& out, Put put) {
  BlockContent content = content_of(d);
  content.widest_id = widest_id(d, fonts);
  for (int place = 0; const int n : blanks) {
    const auto without_room = put(content_of_tag(content, d, id_of(d, n), n), place++);
    if (!without_room) continue;
    say_no_room(d.sheet_template, *without_room, out);
    return;  // the next tags would say the same
  }
}

Page tag_page(const Dossier& d, const Paper& paper, const FontMetrics& fonts) {
  Page page{paper, {}, d.sheet_template.words[Word::tags_sheet], {}};
  Canvas canvas{page, fonts};
  if (d.draft) draw_draft(canvas);
  return page;
}

/// Labels of bottles on the places behind the tags.
void put_bottles(const Dossier& d, const LabelRun& run, int place, const FontMetrics& fonts,
                 std::vector<Page>& pages) {
  for (const BathOnPaper* bath : bottles_of(d)) {
    const LabelSpot spot = run.spot(place++);
    while (static_cast<int>(pages.size()) <= spot.page) {
      pages.push_back(tag_page(d, paper_of(tag_sheet(d.sheet_template).paper.value), fonts));
    }
    Canvas canvas{pages.back(), fonts};
    draw_bottle_label(canvas, d, *bath, spot.label);
  }
}

std::vector<Page> label_pages(const Dossier& d, const std::vector<int>& blanks, const FontMetrics& fonts,
                              const UsedPlaces& used, Diagnostics& out) {
  const LabelSheet& sheet = tag_sheet(d.sheet_template);
  const LabelRun run{sheet, d.shop.printer, used};
  const LabelLayout layout = tag_layout(d.sheet_template);
  const BlockStyle style = label_style(d.sheet_template, d.shop.units.value);
  std::vector<Page> pages;
  put_tags(d, blanks, fonts, out, [&](const BlockContent& content, int n) {
    const LabelSpot spot = run.spot(n);
    while (static_cast<int>(pages.size()) <= spot.page)
      pages.push_back(tag_page(d, paper_of(sheet.paper.value), fonts));
    Canvas canvas{pages.back(), fonts};
    return draw_blocks(canvas, layout, content, style, {spot.label.x, spot.label.y});
  });
  if (out.errors() == 0 && bottles_go_with_tags(d)) {
    put_bottles(d, run, static_cast<int>(blanks.size()), fonts, pages);
  }
  return pages;
}

std::vector<Page> tie_tag_pages(const Dossier& d, const std::vector<int>& blanks, const FontMetrics& fonts,
                                Diagnostics& out) {
  const TieTagLayout layout = tie_tag_layout(d.sheet_template);
  const BlockStyle style = label_style(d.sheet_template, d.shop.units.value);
  std::vector<Page> pages;
  put_tags(d, blanks, fonts, out, [&](const BlockContent& content, int n) {
    if (n % layout.on_a_page == 0) pages.push_back(tag_page(d, paper_of(d.sheet_template.paper.value), fonts));
    Canvas canvas{pages.back(), fonts};
    return draw_tie_tag(canvas, layout, content, style, n % layout.on_a_page);
  });
  return pages;
}

}  // namespace

void check_tags(const Dossier& d, const FontMetrics& fonts, Diagnostics& out) {
  const Template& t = d.sheet_template;
  const BlockContent content = content_of_tag(content_of(d), d, BlankId::nth(0), blank_count(d) - 1);
  Page scratch{paper_of(t.paper.value), {}, {}, {}};
  Canvas canvas{scratch, fonts};
  const BlockStyle style = label_style(t, d.shop.units.value);
  if (t.tags.value == TagForm::tie_tags) {
    if (const auto without_room = draw_tie_tag(canvas, tie_tag_layout(t), content, style, 0)) {
      say_no_room(t, *without_room, out);
    }
    return;
  }
  if (const auto without_room = draw_blocks(canvas, tag_layout(t), content, style)) {
    say_no_room(t, *without_room, out);
  }
}

std::vector<Page> tag_pages(const Dossier& d, const FontMetrics& fonts, const UsedPlaces& used, Diagnostics& out,
                            std::span<const BlankId> without) {
  const std::vector<int> blanks = tagged(d, without);
  return d.sheet_template.tags.value == TagForm::tie_tags ? tie_tag_pages(d, blanks, fonts, out)
                                                          : label_pages(d, blanks, fonts, used, out);
}

}  // namespace blankwright

#include "sheet/sheet/caution_sheet.h"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <utility>

#include "plan/order/cautions.h"
#include "sheet/frame/flow.h"
#include "sheet/mark/block.h"
#include "sheet/sheet/sheets.h"

namespace blankwright {
namespace {

constexpr TextStyle first_text{.size = Lettering::machine, .face = Face::bold, .least = Lettering::machine};
constexpr TextStyle step_text{.size = Lettering::machine, .face = Face::bold, .least = Lettering::hand};
constexpr TextStyle caution_text{.size = Lettering::hand, .least = Lettering::hand};
constexpr Length indent = 5 * mm;
constexpr Length between_cautions = 1.2 * mm;
constexpr Length between_steps = 3 * mm;

Word word_of(CautionStep step) {
  switch (step) {
    case CautionStep::sawing:
      return Word::caution_sawing;
    case CautionStep::drying:
      return Word::caution_drying;
    case CautionStep::bath:
      return Word::caution_bath;
    case CautionStep::cure:
      return Word::caution_cure;
    case CautionStep::boring:
      return Word::caution_boring;
    case CautionStep::turning:
      return Word::caution_turning;
    case CautionStep::use:
      return Word::caution_use;
  }
  return Word::caution_use;
}

Block block_of(Flow& flow, const std::string& words, const TextStyle& style, Length width) {
  const std::array phrase{Phrase{words, style}};
  return set_block(canvas_of(flow), phrase, width);
}

/// The head of a step stays with its first caution, and no caution is cut.
void put_caution(Flow& flow, const std::string* head, const std::string& words) {
  const Length width = whole_room(flow).width;
  const Block caution = block_of(flow, words, caution_text, width - indent);
  const Block title = block_of(flow, head == nullptr ? "" : *head, step_text, width);
  const Length above = head == nullptr ? between_cautions : between_steps;
  const Length title_height = head == nullptr ? 0 * mm : title.height + between_cautions;
  const Box strip = next_strip(flow, above + title_height + caution.height);
  Canvas canvas = canvas_of(flow);
  place_block(canvas, {strip.x, strip.y + above}, title);
  const Spot at{strip.x + indent, strip.y + above + title_height};
  place_block(canvas, {strip.x + 1.5 * mm, at.y}, block_of(flow, "•", caution_text, indent));
  place_block(canvas, at, caution);
}

void put_cautions(Flow& flow, std::span<const Caution> cautions) {
  const WordTable& w = flow.sheet_template.words;
  const CautionTable& texts = flow.sheet_template.cautions;
  const Block first = block_of(flow, w[Word::cautions_first], first_text, whole_room(flow).width);
  const Box strip = take_strip(flow, first.height + between_cautions);
  Canvas canvas = canvas_of(flow);
  place_block(canvas, {strip.x, strip.y}, first);
  std::optional<CautionStep> before;
  for (const Caution caution : cautions) {
    const CautionStep step = step_of(caution);
    put_caution(flow, step == before ? nullptr : &w[word_of(step)], texts[caution]);
    before = step;
  }
  for (const auto& own : texts.more) {
    put_caution(flow, &own == &texts.more.front() ? &w[Word::caution_own] : nullptr, own.value);
  }
}

}  // namespace

/// The cautions that fit what the plan contains, step by step, and the shop's own; at the top what comes before them.
void caution_sheets(OrderFlow& flow) {
  begin_part(flow, Word::cautions_title);
  put_cautions(flow, cautions_for(flow.dossier.order, flow.dossier.shop, flow.dossier.plan));
}

std::vector<Page> shop_cautions(const Shop& shop, const Template& t, const FontMetrics& fonts) {
  Flow flow = flow_of(t, fonts, [&](PageOfKind page) {
    return begin_shop_sheet(t, fonts, {t.words[Word::cautions_title], shop.name.value}, page);
  });
  std::vector<Caution> all;
  for (std::size_t n = 0; n < caution_keys.size(); ++n) all.push_back(static_cast<Caution>(n));
  put_cautions(flow, all);
  return pages_of(std::move(flow));
}

}  // namespace blankwright

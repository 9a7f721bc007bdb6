#include "sheet/frame/block_drawing.h"

#include <fmt/format.h>

#include <algorithm>

#include "plan/figure/figure.h"
#include "sheet/frame/sign.h"
#include "sheet/mark/text_code.h"
#include "sheet/paper/limits.h"
#include "sheet/paper/said_times.h"
#include "sheet/paper/wood_text.h"

namespace blankwright {
namespace {

constexpr Length all_mass_fields = 80 * mm;  // room for four boxes; less has two, wide enough to write in

/// The word that names what a block shows, for its caption.
std::optional<Word> caption_of(BlockKind kind) {
  switch (kind) {
    case BlockKind::id:
      return Word::blank_id;
    case BlockKind::order:
      return Word::order;
    case BlockKind::item:
      return Word::item;
    case BlockKind::client:
      return Word::client;
    case BlockKind::wood:
      return Word::species;
    case BlockKind::quantity:
      return Word::quantity;
    case BlockKind::due:
      return Word::due;
    case BlockKind::drawing:
      return Word::drawing;
    case BlockKind::thread:
      return Word::thread;
    case BlockKind::size:
      return Word::state_sawn;
    case BlockKind::count:
      return Word::quantity;
    case BlockKind::owner:
      return Word::owner;
    case BlockKind::tare_field:
      return Word::tare;
    case BlockKind::date_field:
      return Word::date;
    case BlockKind::issue:
      return Word::issue;
    case BlockKind::text:
    case BlockKind::picture:
    case BlockKind::title:
    case BlockKind::sign:
    case BlockKind::code:
    case BlockKind::mass_fields:
    case BlockKind::keep_out:
      return std::nullopt;
  }
  return std::nullopt;
}

Align align_of(BlockAlign align) {
  return align == BlockAlign::left ? Align::left : align == BlockAlign::right ? Align::right : Align::centre;
}

/// "sawn 48 × 48 × 128 mm", "sawn 1-7/8 × 1-7/8 × 2-5/16 in": as the saw's fence is set.
std::string sawn_text(const Dossier& d) {
  const BlankSize& b = d.plan.blank;
  if (!b.sawn_section) return {};
  const std::string word = d.sheet_template.words[Word::sawn];
  const Number section = rule_number(*b.sawn_section, figure_printing(d, Figure::blank_sawn_section));
  const Number length = rule_number(*b.sawn_length, figure_printing(d, Figure::blank_sawn_length));
  return fmt::format("{0} {1} × {1} × {2}", word, shown(d, section),
                     shown(d, Amount{length, column_unit<Length>(d.shop.units.value)}));
}

/// Names beside the blank's own ID: a long one is cut, with a sign, and refuses no label.
bool is_name(BlockKind kind) {
  return kind == BlockKind::client || kind == BlockKind::item || kind == BlockKind::wood ||
         kind == BlockKind::owner || kind == BlockKind::order;
}

class BlockDrawing {
 public:
  BlockDrawing(Canvas& canvas, const BlockContent& content, const BlockStyle& style)
      : canvas_{canvas}, content_{content}, style_{style}, words_{style.sheet_template.words} {}

  /// False where its words found no room.
  bool draw(const BlockFacts& block, const Box& box) {
    if (block.frame.value) canvas_.rectangle(box);
    switch (block.kind.value) {
      case BlockKind::code:
        return draw_code(box);
      case BlockKind::sign:
        if (content_.sign) draw_sign(canvas_, *content_.sign, box);
        return true;
      case BlockKind::picture:
        draw_picture(block, box);
        return true;
      case BlockKind::mass_fields:
        if (content_.is_treated) draw_mass_fields(box);
        return true;
      case BlockKind::keep_out:
        return !content_.is_treated || draw_words(block, box);
      case BlockKind::tare_field:
        if (content_.is_treated) draw_field(box, words_[Word::tare] + ", " + mass_unit());
        return true;
      case BlockKind::date_field:
        draw_field(box, words_[Word::date]);
        return true;
      case BlockKind::order:
      case BlockKind::item:
      case BlockKind::client:
      case BlockKind::wood:
      case BlockKind::quantity:
      case BlockKind::due:
      case BlockKind::issue:
      case BlockKind::drawing:
      case BlockKind::thread:
      case BlockKind::owner:
      case BlockKind::text:
      case BlockKind::title:
      case BlockKind::id:
      case BlockKind::size:
      case BlockKind::count:
        return draw_words(block, box);
    }
    return true;
  }

 private:
  const std::string& mass_unit() const { return style_.sheet_template.spelling[column_unit<Mass>(style_.units)]; }

  bool draw_code(const Box& box) {
    if (!content_.page_code.empty()) draw_text_code(canvas_, box, content_.page_code);
    if (!content_.id) return true;
    const auto place = placed_code(style_.codes, box);
    if (!place) return false;
    canvas_.add(code_matrix(style_.sheet_template, *content_.id, *place), Role::code);
    if (style_.sheet_template.code_base) {
      canvas_.page().links.push_back({place->place.with_border, code_text(style_.sheet_template, *content_.id)});
    }
    return true;
  }

  void draw_picture(const BlockFacts& block, const Box& box) {
    const auto found = style_.sheet_template.pictures.find(block.file->value);
    if (found == style_.sheet_template.pictures.end()) return;
    const GreyPixels& pixels = *found->second;
    const Length pixel = std::min(box.width / pixels.width, box.height / pixels.height);
    const Length width = pixel * pixels.width, height = pixel * pixels.height;
    const BlockAlign align = block.align.value;
    const double along = align == BlockAlign::left ? 0 : align == BlockAlign::right ? 1 : 0.5;
    canvas_.add(
        Image{{box.x + along * (box.width - width), box.y + (box.height - height) / 2, width, height}, found->second},
        Role::note);
  }

  void draw_field(const Box& box, const std::string& caption) {
    canvas_.rectangle(box);
    canvas_.text_fitted({box.x + 0.8 * mm, box.y + 0.6 * mm, box.width - 1.6 * mm, 2.2 * mm}, caption,
                        {.size = Lettering::note});
  }

  void draw_mass_fields(const Box& box) {
    const std::array captions{words_[Word::tare], words_[Word::dry_mass], words_[Word::wet_mass],
                              words_[Word::cured_mass]};
    const std::size_t first = box.width >= all_mass_fields ? 0 : 1;
    const std::size_t count = box.width >= all_mass_fields ? captions.size() : 2;
    const Length width = box.width / static_cast<double>(count);
    for (std::size_t i = 0; i < count; ++i) {
      draw_field({box.x + static_cast<double>(i) * width, box.y, width, box.height},
                 captions.at(first + i) + ", " + mass_unit());
    }
  }

  bool draw_words(const BlockFacts& block, Box box) {
    const std::string& words =
        block.kind.value == BlockKind::text ? block.words->value : content_[block.kind.value].words;
    if (block.frame.value || block.caption.value) box = inside(box, 1 * mm);
    const auto caption = block.caption.value ? caption_of(block.kind.value) : std::nullopt;
    Canvas usual = canvas_.not_enlarged();
    const auto caption_on = [](const Canvas& canvas) { return 1.2 * canvas.capitals(Lettering::note); };
    Canvas& of_caption = box.height > 2 * caption_on(canvas_) ? canvas_ : usual;
    const Length caption_height = caption_on(of_caption);
    if (caption && box.height > 2 * caption_height) {
      of_caption.text_fitted({box.x, box.y, box.width, caption_height}, words_[*caption], {.size = Lettering::note});
      const Length below = caption_height + 0.4 * mm;
      box = {box.x, box.y + below, box.width, box.height - below};
    }
    if (words.empty()) return true;
    const Lettering size = lettering_within(std::min(block.capitals.value, box.height * capitals_share));
    if (!block.frame.value) box.height = above_tails(box.height, canvas_.capitals(size));
    TextStyle style{.size = size,
                    .face = block.bold.value ? Face::bold : Face::regular,
                    .align = align_of(block.align.value),
                    .least = std::min(lettering_within(block.least.value), size)};
    if (block.kind.value == BlockKind::id) style.size = size_of_ids(box.width, style);
    if (style_.no_room == NoRoom::refuse && !is_name(block.kind.value)) {
      if (canvas_.text_in(box, words, style)) return true;
      if (block.kind.value != BlockKind::size) return false;
      const std::size_t figures = words.find_first_of("0123456789");  // without the state before them
      return figures != std::string::npos && canvas_.text_in(box, words.substr(figures), style);
    }
    canvas_.text_fitted(box, words, style);
    return true;
  }

  /// All IDs of an order have one size: that in which its widest one finds room.
  Lettering size_of_ids(Length width, TextStyle style) const {
    while (style.size > style.least && canvas_.width_of(content_.widest_id, narrowed(style)) > width)
      style.size = smaller(style.size);
    return style.size;
  }

  /// What is left of a line's height, so that letters with a tail do not reach what stands below it.
  static Length above_tails(Length height, Length capitals) {
    constexpr double tail = 0.3;
    if (capitals > height) return height;
    return std::clamp(2 * (height - tail * capitals) - capitals, capitals, height);
  }

  static constexpr double capitals_share = 0.66;  // of a line's height

  Canvas& canvas_;
  const BlockContent& content_;
  const BlockStyle& style_;
  const WordTable& words_;
};

}  // namespace

BlockContent content_of(const Order& order, const Shop& shop, const Template& t) {
  const Place& of_template = t.tag_sheet.at;
  BlockContent c;
  c[BlockKind::order] = {order.id.value, order.id.at};
  c[BlockKind::item] = {order.item.value, order.item.at};
  c[BlockKind::client] = {order.client.value, order.client.at};
  c[BlockKind::quantity] = {fmt::format("{}", order.quantity.value), order.quantity.at};
  c[BlockKind::due] = {order.due ? day_text(t, order.due->value) : t.words[Word::not_stated], of_template};
  if (order.drawing) {
    const std::string revision = order.revision ? " " + order.revision->value : "";
    c[BlockKind::drawing] = {order.drawing->value + revision, order.drawing->at};
  }
  c[BlockKind::thread] = {order.stud.thread.value.designation, order.stud.thread.at};
  c[BlockKind::owner] = {shop.name.value, shop.name.at};
  return c;
}

BlockContent content_of(const Dossier& d) {
  BlockContent c = content_of(d.order, d.shop, d.sheet_template);
  c[BlockKind::wood] = {wood_text(d), d.order.wood.species.at};
  c[BlockKind::size] = {sawn_text(d), d.sheet_template.tag_sheet.at};
  c[BlockKind::keep_out] = {d.sheet_template.words[Word::tag_keep_out], d.sheet_template.tag_sheet.at};
  c.is_treated = d.order.treatment.has_value();
  return c;
}

std::optional<BlockWords> draw_blocks(Canvas& canvas, std::span<const PlacedBlock> blocks,
                                      const BlockContent& content, const BlockStyle& style, Spot move) {
  BlockDrawing drawing{canvas, content, style};
  for (const PlacedBlock& placed : blocks) {
    const Box box{placed.box.x + move.x, placed.box.y + move.y, placed.box.width, placed.box.height};
    if (drawing.draw(*placed.facts, box)) continue;
    if (placed.facts->kind.value == BlockKind::text)
      return BlockWords{placed.facts->words->value, placed.facts->place};
    if (placed.facts->kind.value != BlockKind::code) return content[placed.facts->kind.value];
    return BlockWords{code_text(style.sheet_template, *content.id), style.sheet_template.tag_sheet.at};
  }
  return std::nullopt;
}

}  // namespace blankwright

#include <md4c.h>

#include "diagnose/failure.h"
#include "write/manual.h"

namespace blankwright {
namespace {

using Type = ManualBlock::Type;
using Look = ManualWords::Look;

constexpr int not_ours = -1;  // what is above zero ends the paragraph alone, and nothing is said

/// Takes what the parser tells, block by block.
class Taker {
 public:
  int enter_block(MD_BLOCKTYPE type, const void* detail) {
    switch (type) {
      case MD_BLOCK_H:
        begin(Type::heading, static_cast<int>(static_cast<const MD_BLOCK_H_DETAIL*>(detail)->level));
        break;
      case MD_BLOCK_UL:
        ++depth_;
        break;
      case MD_BLOCK_LI:
        begin(Type::item, depth_ - 1);
        break;
      case MD_BLOCK_P:  // the first one of an item is the item's own
        if (blocks.empty() || blocks.back().type != Type::item || !blocks.back().line.empty() || depth_ == 0)
          begin(Type::paragraph, depth_);
        break;
      case MD_BLOCK_CODE:
        begin(Type::example, 0);
        break;
      case MD_BLOCK_TABLE:
        begin(Type::table, 0);
        break;
      case MD_BLOCK_TR:
        blocks.back().rows.emplace_back();
        break;
      case MD_BLOCK_TH:
      case MD_BLOCK_TD:
        blocks.back().rows.back().emplace_back();
        break;
      default:
        return type == MD_BLOCK_DOC || type == MD_BLOCK_THEAD || type == MD_BLOCK_TBODY ? 0 : not_ours;
    }
    return 0;
  }
  int leave_block(MD_BLOCKTYPE type) {
    if (type == MD_BLOCK_UL) --depth_;
    return 0;
  }
  int enter_span(MD_SPANTYPE type, const void* detail) {
    if (type == MD_SPAN_CODE) {
      look_ = Look::code;
    } else if (type == MD_SPAN_STRONG) {
      look_ = Look::strong;
    } else if (type == MD_SPAN_A) {
      const auto& to = static_cast<const MD_SPAN_A_DETAIL*>(detail)->href;
      leads_to_.assign(to.text, to.size);
    } else {
      return not_ours;
    }
    return 0;
  }
  int leave_span(MD_SPANTYPE type) {
    if (type == MD_SPAN_A) leads_to_.clear();
    if (type != MD_SPAN_A) look_ = Look::plain;
    return 0;
  }
  int take_text(MD_TEXTTYPE type, std::string_view text) {
    if (type == MD_TEXT_ENTITY || type == MD_TEXT_HTML || type == MD_TEXT_BR || blocks.empty()) return not_ours;
    ManualBlock& block = blocks.back();
    if (block.type == Type::example) {
      block.example += text;
      return 0;
    }
    ManualLine& line = block.type == Type::table ? block.rows.back().back() : block.line;
    const std::string_view words = type == MD_TEXT_SOFTBR ? " " : text;
    if (!line.empty() && line.back().look == look_ && line.back().leads_to == leads_to_) {
      line.back().text += words;
    } else {
      line.push_back({std::string{words}, look_, leads_to_});
    }
    return 0;
  }

  std::vector<ManualBlock> blocks;

 private:
  void begin(Type type, int level) {
    blocks.emplace_back();
    blocks.back().type = type;
    blocks.back().level = level;
  }

  int depth_ = 0;
  Look look_ = Look::plain;
  std::string leads_to_;
};

Taker& taker(void* data) { return *static_cast<Taker*>(data); }

}  // namespace

std::vector<ManualBlock> read_manual(std::string_view markdown) {
  MD_PARSER parser{};
  parser.flags = MD_FLAG_TABLES | MD_FLAG_NOHTML;
  parser.enter_block = [](MD_BLOCKTYPE type, void* detail, void* data) {
    return taker(data).enter_block(type, detail);
  };
  parser.leave_block = [](MD_BLOCKTYPE type, void*, void* data) { return taker(data).leave_block(type); };
  parser.enter_span = [](MD_SPANTYPE type, void* detail, void* data) { return taker(data).enter_span(type, detail); };
  parser.leave_span = [](MD_SPANTYPE type, void*, void* data) { return taker(data).leave_span(type); };
  parser.text = [](MD_TEXTTYPE type, const MD_CHAR* text, MD_SIZE size, void* data) {
    return taker(data).take_text(type, {text, size});
  };
  Taker taken;
  const int fault = md_parse(markdown.data(), static_cast<MD_SIZE>(markdown.size()), &parser, &taken);
  BW_EXPECT(fault == 0);
  return std::move(taken.blocks);
}

}  // namespace blankwright

#include "sheet/frame/block_layout.h"

#include <algorithm>

namespace blankwright {
namespace {

constexpr Length code_border = 0.25 * mm;  // of a label, that a code keeps clear of
constexpr Length narrowest = 0.5 * mm;     // a box below this is none

bool is_across(const BlockFacts& block) {
  return block.side.value == BlockSide::top || block.side.value == BlockSide::bottom;
}

std::optional<Length> smaller(const std::optional<Given<Length>>& length, const std::optional<Given<Share>>& share,
                              Length of) {
  std::optional<Length> out;
  if (length) out = length->value;
  if (share) out = std::min(out.value_or(of), (share->value / whole) * of);
  return out;
}

/// Blocks that share a strip: the first one, and those that stand beside it.
using Strip = std::vector<const BlockFacts*>;

std::vector<Strip> strips_of(std::span<const BlockFacts> blocks, const BlockRoom& room) {
  std::vector<Strip> strips;
  for (const BlockFacts& block : blocks) {
    if (block.from_height && room.label_height < block.from_height->value) continue;
    if (!block.beside.value || strips.empty()) strips.emplace_back();
    strips.back().push_back(&block);
  }
  return strips;
}

class Layout {
 public:
  Layout(std::span<const BlockFacts> blocks, const BlockRoom& room)
      : room_{room}, free_{room.free}, strips_{strips_of(blocks, room)} {}

  std::vector<PlacedBlock> placed() && {
    for (std::size_t i = 0; i < strips_.size(); ++i) {
      if (is_across(*strips_.at(i).front())) {
        place_across(strips_.at(i), height_of(i));
      } else {
        place_at_side(*strips_.at(i).front(), i);
      }
    }
    return std::move(out_);
  }

 private:
  std::optional<Length> own_height(const BlockFacts& first) const {
    return smaller(first.height, first.height_share, free_.height);
  }
  std::optional<Length> own_width(const BlockFacts& block, Length of) const {
    return smaller(block.width, block.width_share, of);
  }

  Length height_of(std::size_t i) const {
    if (const auto own = own_height(*strips_.at(i).front())) return std::min(*own, free_.height);
    Length left = free_.height;
    double sharing = 0;
    for (std::size_t k = i; k < strips_.size(); ++k) {
      const BlockFacts& first = *strips_.at(k).front();
      if (!is_across(first)) continue;
      const auto own = own_height(first);
      left -= own.value_or(0 * mm);
      sharing += own ? 0 : 1;
    }
    return std::max(left, 0 * mm) / sharing;
  }

  /// Width of a code or picture that may be as high as the box.
  std::optional<Length> natural_width(const BlockFacts& block, Length height) const {
    if (block.kind.value == BlockKind::code || block.kind.value == BlockKind::sign) return height;
    if (block.kind.value != BlockKind::picture) return std::nullopt;
    const auto picture = room_.pictures.find(block.file->value);
    if (picture == room_.pictures.end()) return std::nullopt;
    return height * (static_cast<double>(picture->second->width) / picture->second->height);
  }

  std::vector<Length> widths_of(const Strip& strip, Length width, Length height) const {
    std::vector<std::optional<Length>> own;
    Length left = width;
    double sharing = 0;
    for (const BlockFacts* block : strip) {
      own.push_back(own_width(*block, width));
      if (const auto natural = natural_width(*block, height))
        own.back() = std::min(own.back().value_or(*natural), *natural);
      left -= own.back().value_or(0 * mm);
      sharing += own.back() ? 0 : 1;
    }
    std::vector<Length> out;
    const double shrunk = left < 0 * mm ? width / (width - left) : 1;
    for (const auto& w : own) out.push_back(w ? *w * shrunk : std::max(left, 0 * mm) / sharing);
    return out;
  }

  void place_across(const Strip& strip, Length height) {
    const Length y = strip.front()->side.value == BlockSide::top ? free_.y : free_.bottom() - height;
    Box box{free_.x, y, {}, height};
    const std::vector<Length> widths = widths_of(strip, free_.width, height);
    for (std::size_t i = 0; i < strip.size(); ++i) {
      box.width = widths.at(i);
      add(*strip.at(i), box);
      box.x = box.right();
    }
    free_.height -= height;
    if (strip.front()->side.value == BlockSide::top) free_.y += height;
  }

  void place_at_side(const BlockFacts& block, std::size_t i) {
    const bool at_left = block.side.value == BlockSide::left;
    const Length high = own_height(block).value_or(free_.height);
    Length width = own_width(block, free_.width).value_or(free_.width);
    const bool is_code = block.kind.value == BlockKind::code;
    if (is_code) {
      width = std::min(width, high + 2 * room_.white);
    } else if (const auto natural = natural_width(block, high)) {
      width = std::min(width, *natural);
    } else if (!block.width && !block.width_share) {
      width = free_.width / static_cast<double>(strips_.size() - i);
    }
    add(block, {at_left ? free_.x : free_.right() - width, free_.y, width, std::min(high, free_.height)});
    if (const auto code = is_code && !out_.empty() ? placed_code(room_.codes, out_.back().box) : std::nullopt) {
      // It is snapped to the printer's dots, and so may be narrower than its box.
      const Box& drawn = code->place.with_border;
      width = at_left ? drawn.right() - free_.x : free_.right() - drawn.x;
    }
    free_.width -= width;
    if (at_left) free_.x += width;
  }

  void add(const BlockFacts& block, const Box& box) {
    if (box.width < narrowest || box.height < narrowest) return;
    out_.push_back({&block, block.kind.value == BlockKind::code ? with_white(box, block.align.value) : box});
  }

  /// A code's box, and the white round the room where it touches that: a quiet zone is white anyhow. As large as the
  /// width allows, and square.
  Box with_white(Box box, BlockAlign align) const {
    const Box& all = room_.free;
    const Length middle = box.x + box.width / 2;
    const Length more = std::max(room_.white - code_border, 0 * mm);
    if (box.y <= all.y) {
      box.y -= more;
      box.height += more;
    }
    if (box.bottom() >= all.bottom() * (1 - 1e-9)) box.height += more;
    const Length side = std::min(box.width, box.height);
    if (align == BlockAlign::centre) {
      box.x = middle - side / 2;
    } else if (box.x <= all.x) {
      box.x -= more;
    } else if (box.right() >= all.right() * (1 - 1e-9)) {
      box.x = box.right() + more - side;
    }
    box.width = box.height = side;
    return box;
  }

  const BlockRoom& room_;
  Box free_;
  std::vector<Strip> strips_;
  std::vector<PlacedBlock> out_;
};

}  // namespace

std::vector<PlacedBlock> placed_blocks(std::span<const BlockFacts> blocks, const BlockRoom& room) {
  return Layout{blocks, room}.placed();
}

}  // namespace blankwright

#pragma once

// The keys of a block, and what a list of blocks has to hold.

#include <array>

#include "read/block.h"
#include "read/keys.h"
#include "read/template.h"

namespace blankwright {

template <>
struct Words<BlockKind> {
  static constexpr auto list = std::to_array<std::string_view>(
      {"order", "item",        "client",     "wood",       "quantity", "due",     "drawing", "thread",
       "owner", "text",        "picture",    "title",      "sign",     "id",      "code",    "size",
       "count", "mass_fields", "tare_field", "date_field", "issue",    "keep_out"});
};
template <>
struct Words<BlockSide> {
  static constexpr std::array<std::string_view, 4> list{"top", "bottom", "left", "right"};
};
template <>
struct Words<BlockAlign> {
  static constexpr std::array<std::string_view, 3> list{"left", "centre", "right"};
};

template <>
struct Keys<BlockFacts> {
  static inline const KeyList list{
      key("kind", &BlockFacts::kind, "what it shows"),
      key("side", &BlockFacts::side, "edge of what is still free from which it takes its box"),
      key("beside", &BlockFacts::beside, "stands in the strip of the block before it, to the right of that"),
      key("width", &BlockFacts::width, "at most", within(1 * mm, 300 * mm)),
      key("height", &BlockFacts::height, "at most", within(1 * mm, 300 * mm)),
      key("width_share", &BlockFacts::width_share, "of what is free or of its strip, at most",
          within(1 * percent, 100 * percent)),
      key("height_share", &BlockFacts::height_share, "of what is free, at most", within(1 * percent, 100 * percent)),
      key("from_height", &BlockFacts::from_height, "of the label; it is left out on lower ones",
          within(1 * mm, 300 * mm)),
      key("capitals", &BlockFacts::capitals, "height of its capitals, at most", within(1.2 * mm, 20 * mm)),
      key("least", &BlockFacts::least, "what they may shrink to", within(1 * mm, 20 * mm)),
      key("bold", &BlockFacts::bold, "in bold"),
      key("align", &BlockFacts::align, "how it stands in its box"),
      key("caption", &BlockFacts::caption, "with a small word above it that names it"),
      key("frame", &BlockFacts::frame, "with a line round it"),
      key("words", &BlockFacts::words, "what a text says", within(1, 200)),
      key("file", &BlockFacts::file, "a picture's PNG file, from the template's folder", within(1, 200),
          "\"logo.png\""),
  };
};

/// Does each list of blocks hold what it is for, and nothing that has no place there? Says what is wrong.
void check_blocks(const Template& t, Diagnostics& out);

}  // namespace blankwright

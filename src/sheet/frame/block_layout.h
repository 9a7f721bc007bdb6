#pragma once

#include <span>
#include <vector>

#include "read/block.h"
#include "sheet/mark/code_form.h"
#include "sheet/mark/page.h"

namespace blankwright {

/// Where blocks may stand: in a head or on a label.
struct BlockRoom {
  Box free;                     ///< what they share
  Length white = 0 * mm;        ///< all round it, which a code's quiet zone may reach into
  Length label_height{};        ///< for blocks that are for higher labels only
  std::vector<CodeForm> codes;  ///< that a code may have, the one that is liked best first
  const Pictures& pictures;
};

/// A block with its box.
struct PlacedBlock {
  const BlockFacts* facts = nullptr;
  Box box;  ///< of a code: with the white that its quiet zone may reach into
};

/// Gives blocks their boxes, in their order: a strip from the named edge of what is still free, as high (or, at the
/// sides, as wide) as the block allows; without a size an equal part of what is free, together with those after it
/// that have none either, or the natural width of a code or a picture. Blocks that stand beside each other share
/// their strip likewise. A block whose box would be empty is left out; so is one for higher labels.
/// The facts have to outlive the answer.
std::vector<PlacedBlock> placed_blocks(std::span<const BlockFacts> blocks, const BlockRoom& room);

}  // namespace blankwright

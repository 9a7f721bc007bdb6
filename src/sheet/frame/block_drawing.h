#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>

#include "sheet/frame/block_layout.h"
#include "sheet/mark/canvas.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

inline constexpr std::size_t block_kinds = static_cast<std::size_t>(BlockKind::keep_out) + 1;

/// What a block says, and whose words they are, for the case that they find no room.
struct BlockWords {
  std::string words;
  Place from;
};

/// What the blocks of a head or of a label say.
struct BlockContent {
  std::array<BlockWords, block_kinds> words;  ///< by kind
  std::optional<SheetKind> sign{};
  std::optional<BlankId> id{};  ///< that a code says; without one the code's place stays white
  std::string page_code{};      ///< that the code of a head says; likewise
  std::string widest_id{};      ///< of those beside each other, all of which get its size; none where each has its own
  bool is_treated = true;       ///< else nothing is weighed, and no bath or oven to stay out of

  BlockWords& operator[](BlockKind kind) { return words.at(static_cast<std::size_t>(kind)); }
  const BlockWords& operator[](BlockKind kind) const { return words.at(static_cast<std::size_t>(kind)); }
};

/// What blocks can say of an order alone; titles, IDs and counts, wood and size are left to the caller.
BlockContent content_of(const Order& order, const Shop& shop, const Template& t);
/// The same with the wood and the size that were planned.
BlockContent content_of(const Dossier& dossier);

/// What to do with words that find no room at their least size: names are cut, whatever is to be done with others.
enum class NoRoom { shrink, refuse };

/// How blocks are drawn.
struct BlockStyle {
  const Template& sheet_template;
  UnitSystem units = UnitSystem::metric;
  NoRoom no_room = NoRoom::refuse;
  std::vector<CodeForm> codes{};  ///< as the blocks were placed with
};

/// Draws placed blocks, moved by `move`. Returns the first one's words that found no room, where that is refused.
std::optional<BlockWords> draw_blocks(Canvas& canvas, std::span<const PlacedBlock> blocks,
                                      const BlockContent& content, const BlockStyle& style, Spot move = {});

}  // namespace blankwright

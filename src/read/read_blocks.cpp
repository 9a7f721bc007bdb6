#include <algorithm>
#include <span>

#include "diagnose/problem.h"
#include "diagnose/says_facts.h"
#include "read/block_keys.h"

namespace blankwright {
namespace {

using Kinds = std::span<const BlockKind>;

constexpr auto of_an_order = std::to_array<BlockKind>(
    {BlockKind::order, BlockKind::item, BlockKind::client, BlockKind::wood, BlockKind::quantity, BlockKind::due,
     BlockKind::drawing, BlockKind::thread, BlockKind::owner, BlockKind::text, BlockKind::picture});
constexpr auto of_a_head =
    std::to_array<BlockKind>({BlockKind::title, BlockKind::sign, BlockKind::code, BlockKind::issue});
constexpr auto of_a_blank = std::to_array<BlockKind>({BlockKind::id, BlockKind::code});
constexpr auto of_a_tag = std::to_array<BlockKind>({BlockKind::id, BlockKind::code, BlockKind::size, BlockKind::count,
                                                    BlockKind::mass_fields, BlockKind::tare_field,
                                                    BlockKind::date_field, BlockKind::keep_out});

bool has(Kinds kinds, BlockKind kind) { return std::ranges::find(kinds, kind) != kinds.end(); }

std::string_view name_of(BlockKind kind) { return Words<BlockKind>::list.at(static_cast<std::size_t>(kind)); }

/// A list of blocks: what it is called, what may stand there besides what is of an order, and what has to.
struct BlockList {
  std::string_view name;
  const std::vector<BlockFacts>& blocks;
  Kinds own, needed;
};

void check_block(const BlockList& list, const BlockFacts& block, Diagnostics& out) {
  const BlockKind kind = block.kind.value;
  if (!has(of_an_order, kind) && !has(list.own, kind)) {
    std::vector<std::string> known;
    for (const BlockKind k : of_an_order) known.emplace_back(name_of(k));
    for (const BlockKind k : list.own) known.emplace_back(name_of(k));
    out.error(Problem::keys_disagree, block.kind.at, says::block_out_of_place, name_of(kind), list.name)
        .hint(says::there_may_stand, listed(known, says::as_it_is, says::one_and_next));
  }
  if (kind == BlockKind::text && !block.words) {
    out.error(Problem::missing_key, block.place, says::block_lacks_key, name_of(kind), Keyword{"words"});
  }
  if (kind == BlockKind::picture && !block.file) {
    out.error(Problem::missing_key, block.place, says::block_lacks_key, name_of(kind), Keyword{"file"});
  }
}

void check_block_list(const BlockList& list, const Place& file, Diagnostics& out) {
  for (const BlockFacts& block : list.blocks) check_block(list, block, out);
  if (!list.blocks.empty() && list.blocks.front().beside.value) {
    out.error(Problem::keys_disagree, list.blocks.front().beside.at, says::nothing_to_stand_beside, list.name);
  }
  for (const BlockKind kind : list.needed) {
    if (std::ranges::any_of(list.blocks, [&](const BlockFacts& b) { return b.kind.value == kind; })) continue;
    out.error(Problem::missing_key, list.blocks.empty() ? file : list.blocks.front().place, says::list_lacks_block,
              list.name, name_of(kind))
        .hint(says::such_as_block, list.name, name_of(kind));
  }
}

}  // namespace

void check_blocks(const Template& t, Diagnostics& out) {
  constexpr auto of_a_named_sheet = std::to_array<BlockKind>({BlockKind::title, BlockKind::order});
  constexpr auto with_id = std::to_array<BlockKind>({BlockKind::id});
  const Place file{t.source};
  check_block_list({"head", t.head, of_a_head, of_a_named_sheet}, file, out);
  check_block_list({"tag", t.tag, of_a_tag, with_id}, file, out);
  check_block_list({"end_tag", t.end_tag, of_a_tag, with_id}, file, out);
  check_block_list({"stub", t.stub, of_a_tag, with_id}, file, out);
  check_block_list({"parcel", t.parcel, of_a_blank, with_id}, file, out);
}

std::vector<const BlockFacts*> picture_blocks(const Template& t) {
  std::vector<const BlockFacts*> out;
  for (const auto* blocks : {&t.head, &t.tag, &t.end_tag, &t.stub, &t.parcel}) {
    for (const BlockFacts& block : *blocks) {
      if (block.kind.value == BlockKind::picture) out.push_back(&block);
    }
  }
  return out;
}

}  // namespace blankwright

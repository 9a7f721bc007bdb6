#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "diagnose/place.h"
#include "measure/quantity.h"

namespace blankwright {

/// What can stand in the head of a sheet or on a label. A closed list: a template chooses, places and words them.
enum class BlockKind {
  order,
  item,
  client,
  wood,
  quantity,
  due,
  drawing,
  thread,
  owner,
  text,
  picture,
  title,
  sign,
  id,
  code,
  size,
  count,
  mass_fields,
  tare_field,
  date_field,
  issue,
  keep_out,
};

/// The edge of what is still free from which a block takes its box.
enum class BlockSide { top, bottom, left, right };

enum class BlockAlign { left, centre, right };

/// A block of a template, in the order in which they take their boxes.
struct BlockFacts {
  Given<BlockKind> kind;
  Given<BlockSide> side = standard_value(BlockSide::top, "one below the other");
  Given<bool> beside = standard_value(false, "a strip of its own");
  std::optional<Given<Length>> width, height;             ///< at most
  std::optional<Given<Share>> width_share, height_share;  ///< of what is free, at most
  std::optional<Given<Length>> from_height;               ///< of the label; on lower ones it is left out
  Given<Length> capitals = standard_value(2.5 * mm, "ISO 3098");
  Given<Length> least = standard_value(1.1 * mm, "still readable by hand");
  Given<bool> bold = standard_value(false, "bold is for what is looked for first");
  Given<BlockAlign> align = standard_value(BlockAlign::left, "as text is read");
  Given<bool> caption = standard_value(false, "the words alone");
  Given<bool> frame = standard_value(false, "no line round it");
  std::optional<Given<std::string>> words;  ///< of a text
  std::optional<Given<std::string>> file;   ///< of a picture
  Place place;
};

/// The pixels of a picture, row by row from the top, 0 black to 255 white.
struct GreyPixels {
  int width = 0, height = 0;
  std::vector<std::uint8_t> grey;
};

/// The pictures that a template names, by its name for the file.
using Pictures = std::map<std::string, std::shared_ptr<const GreyPixels>, std::less<>>;

}  // namespace blankwright

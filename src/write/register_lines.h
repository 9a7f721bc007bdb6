#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "entries/entry.h"
#include "entries/stored_order.h"

namespace blankwright {

/// All that a register holds, apart from its file.
struct RegisterContents {
  BlankId series = BlankId::nth(0);  ///< the first ID of its series
  std::vector<StoredOrder> orders;
  std::vector<Entry> entries;
};

/// A register as text that needs no program of ours to be read: JSON, one object a line (RFC 8259), in UTF-8. The
/// first line is {"format": "blankwright-register/1", "series": "K7T4X54"} with the first ID of the register's series
/// (NG732GX where an earlier version wrote no series); then a line an order, then a line an entry, in the order of
/// their numbers. Quantities are SI values, written so that reading gives the same number; times are RFC 3339 with
/// the shop's offset.
std::string register_as_lines(const RegisterContents& contents);

/// The way back; what register_as_lines() wrote comes out equal. A fault is told with its line.
tl::expected<RegisterContents, std::string> register_from_lines(std::string_view text);

}  // namespace blankwright

#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "entries/stored_order.h"

namespace blankwright {

/// What an export gives.
struct ReadRegister {
  RegisterContents contents;
  bool is_whole = true;  ///< false where it cannot be told: an earlier version wrote no end line
};

/// A register as text that needs no program of ours to be read: JSON, one object a line (RFC 8259), in UTF-8. The
/// first line is {"format": "blankwright-register/2", "series": "K7T4X54"} with the first ID of the register's
/// series; then a line a text of job, shop or template, a line an order, a line a print, which names its texts by
/// their places from 1 on, and a line an entry, in the order of their numbers. The end line has the number of each,
/// and the CRC-32 of all bytes before it. Quantities are SI values, written so that reading gives the same number;
/// times are RFC 3339 with the shop's offset, and when an entry was written, in UTC; that is left out where it is not
/// known.
std::string register_as_lines(const RegisterContents& contents);

/// The way back; what register_as_lines() wrote comes out equal. A fault is told with its line. An export of format 1
/// is read too: each order then has one print, and its series is NG732GX where it names none.
tl::expected<ReadRegister, std::string> register_from_lines(std::string_view text);

}  // namespace blankwright

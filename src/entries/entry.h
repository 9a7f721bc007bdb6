#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "entries/blank_id.h"

namespace blankwright {

/// Entries are numbered from 1 in the order in which they were answered; 0 stands before the first.
using EntryNumber = std::int64_t;

/// What an entry says has happened.
enum class EntryKind {
  issued,  ///< a blank's ID was given to an order
};

/// The kind's name in the register and in what is exported.
constexpr std::string_view name_of(EntryKind kind) {
  switch (kind) {
    case EntryKind::issued:
      return "issued";
  }
  return {};
}

/// One fact in the register. Entries are only added, never changed; the register gives the number.
struct Entry {
  EntryKind kind = EntryKind::issued;
  std::int64_t at_unix = 0;  ///< when it happened, seconds since 1970-01-01 UTC
  std::string order_id;
  BlankId blank;
};

}  // namespace blankwright

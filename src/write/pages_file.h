#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "sheet/mark/page.h"

namespace blankwright {

/// A document that is laid out and not printed yet.
struct LaidOut {
  DocumentInfo info;
  int pictures = 0;  ///< dots an inch of each page as a picture; 0 for none
  std::vector<Page> pages;
};

/// The document as bytes from which it can be printed without anything else: a line with format, size and checksum,
/// and in zlib's format JSON (RFC 8259) of that size, with lengths in metres to the last bit.
std::string pages_file(const LaidOut& document);

/// Reads them back; or in words why they are none: no file of pages, one of a newer format, damaged.
tl::expected<LaidOut, std::string> read_pages_file(std::string_view bytes);

}  // namespace blankwright

#pragma once

#include <span>
#include <string>

#include "sheet/mark/page.h"

namespace blankwright {

/// The two faces that pages are set in, upright, as the bytes of TrueType files (outlines in `glyf`).
struct PdfFonts {
  std::string regular;
  std::string bold;
};

/// The pages as a PDF 1.7 document (ISO 32000-1), fonts embedded as far as their characters are used.
///
/// One page at least, 2 mm to 5 m a side; marks within ±32 m; text in well-formed UTF-8 of the basic plane without
/// control characters; `made_at_unix` in the years 0 to 9999. Anything else breaks a promise (BW_EXPECT). Throws
/// WorldError when a font cannot be used. Pages with the same label in a row make one group: a bookmark to the first,
/// and page labels "Tags 1", "Tags 2". The same input gives the same bytes. Any number of calls may run at once in
/// several threads.
std::string pdf_of(std::span<const Page> pages, const DocumentInfo& info, const PdfFonts& fonts);

}  // namespace blankwright

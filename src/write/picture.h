#pragma once

#include <string>

#include "sheet/mark/page.h"
#include "write/pdf.h"

namespace blankwright {

/// A page as a PNG picture (ISO/IEC 15948), black on white, for those who have no viewer at hand: what pdf_of() prints,
/// with its resolution stated. `dots_per_inch` from 36 to 600 (BW_EXPECT). Throws WorldError when a font cannot be used
/// or memory runs out. The same input gives the same bytes. Any number of calls may run at once in several threads.
std::string png_of(const Page& page, int dots_per_inch, const PdfFonts& fonts);

}  // namespace blankwright

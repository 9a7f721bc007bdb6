#pragma once

#include <string>
#include <string_view>

#include "write/pdf_file.h"

namespace blankwright {

/// Embeds a TrueType font, cut down to `characters`, as a font whose strings are UTF-16, most significant byte first.
///
/// `tag`: six capital letters, others for each font of a document (ISO 32000-1, 9.6.4).
/// `characters`: those shown in this font, ascending, each once, not none. One that it lacks prints as an empty box.
/// Throws WorldError when the bytes are not a font that can be embedded.
PdfObject embedded_font(PdfFile& file, std::string_view bytes, std::string_view tag, std::u16string_view characters);

}  // namespace blankwright

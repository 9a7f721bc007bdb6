#pragma once

#include <string>
#include <string_view>

#include "write/pdf_library.h"

namespace blankwright {

/// Embeds a TrueType font, cut down to `characters`, as a font whose strings are UTF-16, most significant byte first.
///
/// Built from the library's objects and not by its HPDF_GetFont, which cuts and compresses the font anew for each
/// document and goes through 65,536 characters for it: the better part of a small document's time. The cut and
/// compressed font is kept for the next document with the same characters. May be called from several threads.
///
/// `tag`: six capital letters, others for each font of a document (ISO 32000-1, 9.6.4).
/// `characters`: those shown in this font, ascending, each once, not none. One that it lacks prints as an empty box.
/// Throws WorldError when the bytes are not a font that can be embedded.
HPDF_Dict embedded_font(HPDF_Doc document, std::string_view bytes, const char* tag, const std::u16string& characters);

}  // namespace blankwright

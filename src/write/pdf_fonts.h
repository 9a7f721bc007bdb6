#pragma once

#include <string>
#include <string_view>

#include "write/pdf_library.h"

namespace blankwright {

/// An encoder for the characters that a document shows in any of its fonts, for embedded_font(): strings are UTF-16,
/// most significant byte first, and character identifiers are Unicode values. `characters`: not empty. Once a
/// document.
HPDF_Encoder encoder_of(HPDF_Doc document, std::u16string_view characters);

/// Embeds the used part of a TrueType font.
/// `tag`: six capital letters, others for each font of a document (ISO 32000-1, 9.6.4).
/// `characters`: those shown in this font. One that it lacks prints as an empty box.
/// Throws WorldError when the bytes are not a font that can be embedded.
HPDF_Font embedded_font(HPDF_Doc document, HPDF_Encoder encoder, std::string_view bytes, const char* tag,
                        std::u16string_view characters);

}  // namespace blankwright

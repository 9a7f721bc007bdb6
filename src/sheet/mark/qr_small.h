#pragma once

#include <cstddef>
#include <qrcodegen/qrcodegen.hpp>
#include <span>

#include "sheet/mark/qr_mask.h"

namespace blankwright {

// Symbols as small as those of the tags, which are made by the thousand. qrcodegen draws the function patterns and
// works out the error correction anew for each symbol; here both are kept, and a symbol takes a tenth of the time.

/// The library's symbol, of version 11 at most.
ModuleGrid grid_of(const qrcodegen::QrCode& code);

/// The versions whose data and error correction make one block each at every level (ISO/IEC 18004, table 9).
inline constexpr int most_small_version = 2;

/// How many codewords of eight bits a symbol holds (ISO/IEC 18004, table 7). `version`: 1 to most_small_version.
std::size_t data_codewords(int version, qrcodegen::QrCode::Ecc level);

/// The modules of a symbol with mask 0. The segments must fit: qrcodegen::QrSegment::getTotalBits is at most eight
/// times data_codewords. May be called from several threads.
ModuleGrid small_symbol(std::span<const qrcodegen::QrSegment> segments, int version, qrcodegen::QrCode::Ecc level);

}  // namespace blankwright

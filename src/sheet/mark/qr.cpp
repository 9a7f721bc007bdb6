#include "sheet/mark/qr.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <memory>
#include <mutex>
#include <qrcodegen/qrcodegen.hpp>

#include "diagnose/failure.h"
#include "sheet/mark/qr_mask.h"
#include "sheet/mark/qr_small.h"

namespace blankwright {
namespace {

using qrcodegen::QrCode;
using qrcodegen::QrSegment;

constexpr int masks = 8;
constexpr int most_grid_version = (ModuleGrid::most_side - 17) / 4;

QrCode::Ecc level_of(QrLevel level) {
  switch (level) {
    case QrLevel::low:
      return QrCode::Ecc::LOW;
    case QrLevel::medium:
      return QrCode::Ecc::MEDIUM;
    case QrLevel::quartile:
      return QrCode::Ecc::QUARTILE;
    case QrLevel::high:
      break;
  }
  return QrCode::Ecc::HIGH;
}

/// For each mask the modules that differ from the symbol with mask 0. They depend on version and level only: the data
/// modules by the two masks, the format information by the two mask numbers; so any text gives the same.
using MaskChanges = std::array<ModuleGrid, masks>;

MaskChanges made_mask_changes(int version, QrCode::Ecc level) {
  const ModuleGrid first = grid_of(QrCode::encodeSegments({}, level, version, version, 0, false));
  MaskChanges changes;
  for (int mask = 0; mask < masks; ++mask) {
    ModuleGrid& grid = changes.at(static_cast<std::size_t>(mask));
    grid = grid_of(QrCode::encodeSegments({}, level, version, version, mask, false));
    grid.flip(first);
  }
  return changes;
}

/// Made when first asked for, and kept: they cost more than a symbol. May be called from several threads.
const MaskChanges& mask_changes(int version, QrCode::Ecc level) {
  constexpr std::size_t levels = 4;
  static std::array<std::once_flag, most_grid_version * levels> once;
  static std::array<std::unique_ptr<const MaskChanges>, most_grid_version * levels> kept;
  const std::size_t which = static_cast<std::size_t>(version - 1) * levels + static_cast<std::size_t>(level);
  std::call_once(once.at(which),
                 [&] { kept.at(which) = std::make_unique<const MaskChanges>(made_mask_changes(version, level)); });
  return *kept.at(which);
}

/// The symbol with the least penalty of the eight; of equals the one with the lowest mask number.
ModuleGrid best_masked(const ModuleGrid& with_mask_0, int version, QrCode::Ecc level) {
  ModuleGrid best = with_mask_0;
  long least = penalty_of(with_mask_0);
  const MaskChanges& changes = mask_changes(version, level);
  for (std::size_t mask = 1; mask < masks; ++mask) {
    ModuleGrid masked = with_mask_0;
    masked.flip(changes[mask]);
    const long penalty = penalty_of(masked);
    if (penalty >= least) continue;
    least = penalty;
    best = masked;
  }
  return best;
}

QrSymbol symbol_of(int version, const ModuleGrid& grid) {
  const std::size_t side = static_cast<std::size_t>(grid.side);
  QrSymbol symbol{.version = version, .side = grid.side, .black = std::vector<bool>(side * side)};
  for (std::size_t y = 0; y < side; ++y) {
    for (std::uint64_t row = grid.rows[y]; row != 0; row &= row - 1) {
      symbol.black[y * side + static_cast<std::size_t>(std::countr_zero(row))] = true;
    }
  }
  return symbol;
}

QrSymbol symbol_of(const QrCode& code) {
  QrSymbol symbol{.version = code.getVersion(), .side = code.getSize(), .black = {}};
  for (int y = 0; y < symbol.side; ++y) {
    for (int x = 0; x < symbol.side; ++x) symbol.black.push_back(code.getModule(x, y));
  }
  return symbol;
}

/// The highest level at which the version holds so many bits, since the error correction costs no room then; none
/// where it does not hold them at the level wanted.
std::optional<QrCode::Ecc> highest_level(int version, QrCode::Ecc wanted, std::size_t bits) {
  for (const QrCode::Ecc level : {QrCode::Ecc::HIGH, QrCode::Ecc::QUARTILE, QrCode::Ecc::MEDIUM, QrCode::Ecc::LOW}) {
    if (level >= wanted && bits <= 8 * data_codewords(version, level)) return level;
  }
  return std::nullopt;
}

/// The smallest version among the small ones that holds the segments; none where they need a larger one.
std::optional<QrSymbol> best_small_symbol(const std::vector<QrSegment>& segments, const QrWish& wish) {
  for (int version = wish.least_version; version <= std::min(wish.most_version, most_small_version); ++version) {
    const int bits = QrSegment::getTotalBits(segments, version);
    if (bits < 0) continue;  // a segment with more characters than its count can say
    const auto level = highest_level(version, level_of(wish.level), static_cast<std::size_t>(bits));
    if (level) return symbol_of(version, best_masked(small_symbol(segments, version, *level), version, *level));
  }
  return std::nullopt;
}

}  // namespace

std::optional<QrSymbol> qr_symbol(const QrWish& wish) {
  BW_EXPECT(!wish.text.empty() && wish.text.find('\0') == std::string::npos);
  BW_EXPECT(1 <= wish.least_version && wish.least_version <= wish.most_version && wish.most_version <= 40);
  const std::vector<QrSegment> segments = QrSegment::makeSegments(wish.text.c_str());
  if (auto small = best_small_symbol(segments, wish)) return small;
  const auto encoded = [&](int mask) {
    return QrCode::encodeSegments(segments, level_of(wish.level), wish.least_version, wish.most_version, mask);
  };
  try {
    const QrCode code = encoded(0);
    if (code.getVersion() > most_grid_version) return symbol_of(encoded(-1));
    return symbol_of(code.getVersion(),
                     best_masked(grid_of(code), code.getVersion(), code.getErrorCorrectionLevel()));
  } catch (const qrcodegen::data_too_long&) {
    return std::nullopt;
  }
}

namespace {

/// A length meant to be whole dots must not lose one to rounding.
constexpr double dot_slack = 1e-6;

int dots_below(Length length) { return static_cast<int>(std::floor(length / printer_dot + dot_slack)); }
int dots_above(Length length) { return static_cast<int>(std::ceil(length / printer_dot - dot_slack)); }

}  // namespace

Length snapped_down(Length length) {
  BW_EXPECT(length >= Length{});
  return dots_below(length) * printer_dot;
}

std::optional<QrPlacing> placed_qr(int side, const Box& room) {
  BW_EXPECT(side >= 21 && room.x >= Length{} && room.y >= Length{});
  constexpr int least_dots = 4;
  const int modules = side + 2 * quiet_modules;
  const int left = dots_above(room.x);
  const int top = dots_above(room.y);
  const int wide = dots_below(room.width) - 1;
  const int high = dots_below(room.height) - 1;
  const int dots = std::min(wide, high) / modules;
  if (dots < least_dots) return std::nullopt;
  const Length module = dots * printer_dot;
  const Spot corner{(left + (wide - modules * dots) / 2) * printer_dot,
                    (top + (high - modules * dots) / 2) * printer_dot};
  const Length border = quiet_modules * module;
  return QrPlacing{.at = {corner.x + border, corner.y + border},
                   .module = module,
                   .with_border = {corner.x, corner.y, modules * module, modules * module}};
}

}  // namespace blankwright

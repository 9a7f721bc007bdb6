#include "sheet/qr.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <mutex>
#include <qrcodegen/qrcodegen.hpp>

#include "diagnose/failure.h"
#include "sheet/qr_mask.h"

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

ModuleGrid grid_of(const QrCode& code) {
  ModuleGrid grid;
  grid.side = code.getSize();
  for (int y = 0; y < grid.side; ++y) {
    for (int x = 0; x < grid.side; ++x) {
      const std::uint64_t black = code.getModule(x, y) ? 1 : 0;
      grid.rows[static_cast<std::size_t>(y)] |= black << x;
      grid.columns[static_cast<std::size_t>(x)] |= black << y;
    }
  }
  return grid;
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
ModuleGrid best_masked(const QrCode& with_mask_0) {
  const ModuleGrid plain = grid_of(with_mask_0);
  ModuleGrid best = plain;
  long least = penalty_of(plain);
  const MaskChanges& changes = mask_changes(with_mask_0.getVersion(), with_mask_0.getErrorCorrectionLevel());
  for (std::size_t mask = 1; mask < masks; ++mask) {
    ModuleGrid masked = plain;
    masked.flip(changes[mask]);
    const long penalty = penalty_of(masked);
    if (penalty >= least) continue;
    least = penalty;
    best = masked;
  }
  return best;
}

QrSymbol symbol_of(int version, const ModuleGrid& grid) {
  QrSymbol symbol{.version = version, .side = grid.side, .black = {}};
  symbol.black.reserve(static_cast<std::size_t>(grid.side) * static_cast<std::size_t>(grid.side));
  for (std::size_t y = 0; y < static_cast<std::size_t>(grid.side); ++y) {
    for (int x = 0; x < grid.side; ++x) symbol.black.push_back((grid.rows[y] >> x & 1) != 0);
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

}  // namespace

std::optional<QrSymbol> qr_symbol(const QrWish& wish) {
  BW_EXPECT(!wish.text.empty() && wish.text.find('\0') == std::string::npos);
  BW_EXPECT(1 <= wish.least_version && wish.least_version <= wish.most_version && wish.most_version <= 40);
  const std::vector<QrSegment> segments = QrSegment::makeSegments(wish.text.c_str());
  const auto encoded = [&](int mask) {
    return QrCode::encodeSegments(segments, level_of(wish.level), wish.least_version, wish.most_version, mask);
  };
  try {
    const QrCode code = encoded(0);
    if (code.getVersion() <= most_grid_version) return symbol_of(code.getVersion(), best_masked(code));
    return symbol_of(encoded(-1));
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

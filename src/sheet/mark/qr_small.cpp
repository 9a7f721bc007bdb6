#include "sheet/mark/qr_small.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

using qrcodegen::QrCode;
using qrcodegen::QrSegment;
using Codewords = std::vector<std::uint8_t>;

constexpr std::size_t levels = 4;
constexpr std::array<std::size_t, most_small_version> all_codewords{26, 44};  // ISO/IEC 18004, table 1

/// Powers of 2 in the field of 256 elements with the polynomial x^8 + x^4 + x^3 + x^2 + 1 (ISO/IEC 18004, error
/// correction), and the exponents that give them.
struct Field {
  std::array<std::uint8_t, 2 * 255> power{};  ///< twice over, so that a sum of two exponents needs no remainder
  std::array<std::uint8_t, 256> exponent{};
};

constexpr Field made_field() {
  Field field;
  unsigned element = 1;
  for (std::size_t n = 0; n < field.power.size(); ++n) {
    field.power[n] = static_cast<std::uint8_t>(element);
    field.exponent[element] = static_cast<std::uint8_t>(n % 255);
    element = element << 1 ^ (element >= 0x80 ? 0x11D : 0);
  }
  return field;
}

constexpr Field field = made_field();

std::uint8_t product(std::uint8_t a, std::uint8_t b) {
  if (a == 0 || b == 0) return 0;
  return field.power[std::size_t{field.exponent[a]} + field.exponent[b]];
}

/// The coefficients of (x − 1)(x − 2)(x − 4)… with `degree` factors, from the second highest down; the highest is 1.
Codewords generator(std::size_t degree) {
  Codewords coefficients(degree, 0);
  coefficients.back() = 1;
  for (std::size_t n = 0; n < degree; ++n) {
    const std::uint8_t root = field.power[n];
    for (std::size_t i = 0; i < degree; ++i) {
      coefficients[i] = product(coefficients[i], root);
      if (i + 1 < degree) coefficients[i] ^= coefficients[i + 1];
    }
  }
  return coefficients;
}

/// The Reed–Solomon codewords of the data: what is left of them after division by the generator.
Codewords correction(const Codewords& data, const Codewords& generator) {
  Codewords left(generator.size() + 1, 0);  // one more, which makes each shift end with a nought
  for (const std::uint8_t codeword : data) {
    const std::uint8_t factor = codeword ^ left[0];
    for (std::size_t i = 0; i < generator.size(); ++i) left[i] = left[i + 1] ^ product(generator[i], factor);
  }
  left.pop_back();
  return left;
}

struct Module {
  std::size_t x, y;
};

/// Whether a module belongs to the finder patterns with their format information, the timing patterns or the
/// alignment pattern.
bool is_function(int x, int y, int side) {
  constexpr int finder = 9;  // with separator and format information; on the far sides one less
  if ((x < finder && y < finder) || (x > side - finder && y < finder) || (x < finder && y > side - finder))
    return true;
  constexpr int timing = 6;
  if (x == timing || y == timing) return true;
  const int centre = side - 7;
  return side > 21 && std::abs(x - centre) <= 2 && std::abs(y - centre) <= 2;
}

/// The modules that hold data, in the order of the bits: pairs of columns from the right, upwards and downwards in
/// turn, leaving out the column of the timing pattern (ISO/IEC 18004, codeword placement).
std::vector<Module> data_modules(int side) {
  std::vector<Module> modules;
  bool upwards = true;
  for (int right = side - 1; right >= 1; right -= right == 8 ? 3 : 2) {
    for (int step = 0; step < side; ++step) {
      const int y = upwards ? side - 1 - step : step;
      for (const int x : {right, right - 1}) {
        if (is_function(x, y, side)) continue;
        modules.push_back({static_cast<std::size_t>(x), static_cast<std::size_t>(y)});
      }
    }
    upwards = !upwards;
  }
  return modules;
}

/// What all symbols of a version and level share.
struct Plan {
  ModuleGrid blank;  ///< with mask 0, all codewords zero
  std::vector<Module> modules;
  Codewords generator;
};

Plan made_plan(int version, QrCode::Ecc level) {
  const Codewords zeros(data_codewords(version, level), 0);
  const QrCode code{version, level, zeros, 0};
  return {grid_of(code), data_modules(code.getSize()),
          generator(all_codewords.at(static_cast<std::size_t>(version - 1)) - zeros.size())};
}

/// Made when first asked for, and kept.
const Plan& plan_of(int version, QrCode::Ecc level) {
  static std::array<std::once_flag, most_small_version * levels> once;
  static std::array<std::unique_ptr<const Plan>, most_small_version * levels> kept;
  const std::size_t which = static_cast<std::size_t>(version - 1) * levels + static_cast<std::size_t>(level);
  std::call_once(once.at(which), [&] { kept.at(which) = std::make_unique<const Plan>(made_plan(version, level)); });
  return *kept.at(which);
}

/// Bits to codewords, the first bit the highest.
class BitWriter {
 public:
  explicit BitWriter(std::size_t codewords) : codewords_(codewords, 0) {}

  void add(bool bit) {
    if (bit) codewords_.at(next_ / 8) |= static_cast<std::uint8_t>(0x80 >> next_ % 8);
    ++next_;
  }
  void add_number(unsigned number, int bits) {
    for (int n = bits; n-- > 0;) add((number >> n & 1) != 0);
  }
  /// The terminator, noughts up to a whole codeword, and the two pad codewords in turn (ISO/IEC 18004, 7.4.10).
  Codewords padded() && {
    constexpr std::size_t terminator = 4;
    std::size_t next = (std::min(next_ + terminator, codewords_.size() * 8) + 7) / 8;
    for (std::uint8_t pad = 0xEC; next < codewords_.size(); ++next, pad ^= 0xEC ^ 0x11) codewords_[next] = pad;
    return std::move(codewords_);
  }

 private:
  Codewords codewords_;
  std::size_t next_ = 0;
};

Codewords data_of(std::span<const QrSegment> segments, int version, std::size_t codewords) {
  BitWriter bits{codewords};
  for (const QrSegment& segment : segments) {
    bits.add_number(static_cast<unsigned>(segment.getMode().getModeBits()), 4);
    bits.add_number(static_cast<unsigned>(segment.getNumChars()), segment.getMode().numCharCountBits(version));
    for (const bool bit : segment.getData()) bits.add(bit);
  }
  return std::move(bits).padded();
}

}  // namespace

ModuleGrid grid_of(const qrcodegen::QrCode& code) {
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

std::size_t data_codewords(int version, QrCode::Ecc level) {
  BW_EXPECT(1 <= version && version <= most_small_version);
  constexpr std::array<std::array<std::size_t, levels>, most_small_version> counts{
      {{19, 16, 13, 9}, {34, 28, 22, 16}}};
  return counts.at(static_cast<std::size_t>(version - 1)).at(static_cast<std::size_t>(level));
}

ModuleGrid small_symbol(std::span<const QrSegment> segments, int version, QrCode::Ecc level) {
  const Plan& plan = plan_of(version, level);
  Codewords codewords = data_of(segments, version, data_codewords(version, level));
  const Codewords check = correction(codewords, plan.generator);
  codewords.insert(codewords.end(), check.begin(), check.end());
  ModuleGrid grid = plan.blank;
  for (std::size_t bit = 0; bit < codewords.size() * 8; ++bit) {
    const std::uint64_t black = codewords[bit / 8] >> (7 - bit % 8) & 1;
    const Module& module = plan.modules[bit];
    grid.rows[module.y] ^= black << module.x;
    grid.columns[module.x] ^= black << module.y;
  }
  return grid;
}

}  // namespace blankwright

#include "write/png_reader.h"

#include <doctest/doctest.h>
#include <zlib.h>

#include <cstdint>
#include <string>
#include <vector>

using namespace blankwright;

namespace {

std::string big_endian(std::uint32_t number) {
  std::string out;
  for (int shift = 24; shift >= 0; shift -= 8) out += static_cast<char>(number >> shift & 255);
  return out;
}

/// A chunk of a PNG file (specification, 5.3).
std::string chunk(const std::string& type, const std::string& data) {
  const std::string body = type + data;
  const auto sum = crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size()));
  return big_endian(static_cast<std::uint32_t>(data.size())) + body + big_endian(static_cast<std::uint32_t>(sum));
}

/// A PNG file of 8 bits a sample, written by the specification: colour type 0 grey, 2 RGB, 6 RGB with opacity. `rows`
/// are the samples, each row without its filter byte.
std::string png(std::uint32_t width, int colour_type, const std::vector<std::string>& rows) {
  std::string lines;
  for (const std::string& row : rows) lines += std::string(1, '\0') + row;
  std::string packed(compressBound(lines.size()), '\0');
  uLongf size = packed.size();
  REQUIRE(compress(reinterpret_cast<Bytef*>(packed.data()), &size, reinterpret_cast<const Bytef*>(lines.data()),
                   lines.size()) == Z_OK);
  packed.resize(size);
  std::string header = big_endian(width) + big_endian(static_cast<std::uint32_t>(rows.size()));
  header += std::string{"\x08", 1} + static_cast<char>(colour_type) + std::string(3, '\0');
  return std::string{"\x89PNG\r\n\x1a\n", 8} + chunk("IHDR", header) + chunk("IDAT", packed) + chunk("IEND", "");
}

}  // namespace

TEST_CASE("grey, coloured and transparent pictures are read as grey over white") {
  const auto grey = pixels_of_png(png(3, 0, {std::string{"\x00\x80\xff", 3}, std::string{"\xff\xff\x00", 3}}));
  REQUIRE(grey.has_value());
  CHECK(grey->width == 3);
  CHECK(grey->height == 2);
  CHECK(grey->grey == std::vector<std::uint8_t>{0, 128, 255, 255, 255, 0});

  // ITU-R BT.601: 0.299 red, 0.587 green, 0.114 blue.
  const auto colours = pixels_of_png(png(3, 2, {std::string{"\xff\x00\x00\x00\xff\x00\x00\x00\xff", 9}}));
  REQUIRE(colours.has_value());
  CHECK(colours->grey == std::vector<std::uint8_t>{76, 150, 29});

  // Black, and black that is half and not at all opaque.
  const auto clear = pixels_of_png(png(3, 6, {std::string{"\0\0\0\xff\0\0\0\x80\0\0\0\0", 12}}));
  REQUIRE(clear.has_value());
  CHECK(clear->grey == std::vector<std::uint8_t>{0, 127, 255});
}

TEST_CASE("what is no picture, damaged or too large is refused in words") {
  const std::string good = png(2, 0, {std::string{"\x00\xff", 2}, std::string{"\xff\x00", 2}});
  REQUIRE(pixels_of_png(good).has_value());
  CHECK(pixels_of_png("").error() == "it is not a PNG file");
  CHECK(pixels_of_png("GIF89a" + std::string(100, 'x')).error() == "it is not a PNG file");
  for (std::size_t size = 0; size + 12 < good.size(); ++size) {  // the last chunk says only that it ends
    CAPTURE(size);
    CHECK_FALSE(pixels_of_png(good.substr(0, size)).has_value());
  }
  std::string damaged = good;
  damaged.at(45) = static_cast<char>(damaged.at(45) ^ 0x55);
  CHECK_FALSE(pixels_of_png(damaged).has_value());
  CHECK(pixels_of_png(png(2001, 0, {std::string(2001, 'x')})).error() == "it has more than 2,000 pixels a side");
  std::string huge = good;
  huge.replace(16, 8, big_endian(4'000'000'000U) + big_endian(4'000'000'000U));
  CHECK(pixels_of_png(huge).error() == "it has more than 2,000 pixels a side");
  std::string none = good;
  none.replace(16, 4, big_endian(0));
  CHECK_FALSE(pixels_of_png(none).has_value());
}

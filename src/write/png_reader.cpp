#include "write/png_reader.h"

#include <cairo.h>
#include <zlib.h>

#include <algorithm>
#include <cstring>
#include <memory>

namespace blankwright {
namespace {

constexpr std::size_t header_size = 33;  // signature and IHDR chunk: PNG specification, 5.2 and 11.2.2
constexpr std::uint32_t most_pixels = 2000;

std::uint32_t big_endian(std::string_view bytes) {
  std::uint32_t number = 0;
  for (const char byte : bytes) number = number << 8 | static_cast<unsigned char>(byte);
  return number;
}

/// Looked at before the library makes room for the pixels.
bool is_within_size(std::string_view bytes) {
  const std::uint32_t width = big_endian(bytes.substr(16, 4)), height = big_endian(bytes.substr(20, 4));
  return width >= 1 && height >= 1 && width <= most_pixels && height <= most_pixels;
}

cairo_status_t read_more(void* rest, unsigned char* into, unsigned int size) {
  auto& bytes = *static_cast<std::string_view*>(rest);
  if (bytes.size() < size) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(into, bytes.data(), size);
  bytes.remove_prefix(size);
  return CAIRO_STATUS_SUCCESS;
}

struct FreeSurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeSurface>;

/// Luma of a pixel that has been multiplied by its opacity, over white (ITU-R BT.601).
std::uint8_t grey_of(std::uint32_t argb, bool has_alpha) {
  const std::uint32_t alpha = has_alpha ? argb >> 24 : 255;
  const std::uint32_t red = argb >> 16 & 255, green = argb >> 8 & 255, blue = argb & 255;
  return static_cast<std::uint8_t>(std::min(255U, (299 * red + 587 * green + 114 * blue + 500) / 1000 + 255 - alpha));
}

}  // namespace

tl::expected<GreyPixels, std::string> pixels_of_png(std::string_view bytes) {
  constexpr std::string_view signature = "\x89PNG\r\n\x1a\n";
  if (bytes.size() < header_size || !bytes.starts_with(signature))
    return tl::unexpected{std::string{"it is not a PNG file"}};
  if (!is_within_size(bytes)) return tl::unexpected{std::string{"it has more than 2,000 pixels a side"}};
  const Surface surface{cairo_image_surface_create_from_png_stream(read_more, &bytes)};
  const cairo_format_t format = cairo_image_surface_get_format(surface.get());
  const bool has_alpha = format == CAIRO_FORMAT_ARGB32;
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS || (!has_alpha && format != CAIRO_FORMAT_RGB24)) {
    return tl::unexpected{std::string{"it is damaged, or of a kind that is not read"}};
  }
  GreyPixels out{cairo_image_surface_get_width(surface.get()), cairo_image_surface_get_height(surface.get()), {}};
  const int stride = cairo_image_surface_get_stride(surface.get());
  const unsigned char* rows = cairo_image_surface_get_data(surface.get());
  for (int y = 0; y < out.height; ++y) {
    for (int x = 0; x < out.width; ++x) {
      std::uint32_t argb = 0;
      std::memcpy(&argb, rows + y * stride + 4 * x, sizeof argb);
      out.grey.push_back(grey_of(argb, has_alpha));
    }
  }
  return out;
}

std::uint32_t fingerprint(std::string_view bytes) {
  const auto sum = crc32(0, reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uInt>(bytes.size()));
  return static_cast<std::uint32_t>(sum);
}

}  // namespace blankwright

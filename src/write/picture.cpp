#include "write/picture.h"

#include <cairo-ft.h>
#include <cairo.h>
#include <zlib.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <memory>
#include <numbers>
#include <variant>
#include <vector>

#include "diagnose/failure.h"
#include "write/dashes.h"

namespace blankwright {
namespace {

void must(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) throw WorldError{"picture", cairo_status_to_string(status)};
}

struct FreeCairo {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_font_face_t* face) const { cairo_font_face_destroy(face); }
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};
template <class T>
using Owned = std::unique_ptr<T, FreeCairo>;

/// FreeType and its two faces. Cairo keeps a font for as long as one of its caches does, so that the faces are freed
/// by the last of them.
class FontFaces {
 public:
  explicit FontFaces(const PdfFonts& fonts) : library_{new_library()} {
    for (const std::string* bytes : {&fonts.regular, &fonts.bold}) faces_.push_back(new_face(*bytes));
  }
  cairo_font_face_t* of(Face face) const { return faces_.at(static_cast<std::size_t>(letters_of(face))).get(); }

 private:
  /// What a Cairo face needs until it is gone.
  struct Kept {
    std::shared_ptr<FT_LibraryRec_> library;
    std::string bytes;
    FT_Face face = nullptr;
    ~Kept() { FT_Done_Face(face); }
  };

  static std::shared_ptr<FT_LibraryRec_> new_library() {
    FT_Library library = nullptr;
    if (FT_Init_FreeType(&library) != 0) throw WorldError{"font", "FreeType cannot be used"};
    return {library, FT_Done_FreeType};
  }

  Owned<cairo_font_face_t> new_face(const std::string& bytes) const {
    auto kept = std::make_unique<Kept>();
    kept->library = library_;
    kept->bytes = bytes;
    const auto* start = reinterpret_cast<const FT_Byte*>(kept->bytes.data());
    if (FT_New_Memory_Face(library_.get(), start, static_cast<FT_Long>(bytes.size()), 0, &kept->face) != 0) {
      throw WorldError{"font", "FreeType refuses it"};
    }
    Owned<cairo_font_face_t> face{
        cairo_ft_font_face_create_for_ft_face(kept->face, FT_LOAD_NO_HINTING | FT_LOAD_NO_BITMAP)};
    static constexpr cairo_user_data_key_t key{};
    must(cairo_font_face_set_user_data(face.get(), &key, kept.get(),
                                       [](void* gone) { delete static_cast<Kept*>(gone); }));
    kept.release();
    return face;
  }

  std::shared_ptr<FT_LibraryRec_> library_;
  std::vector<Owned<cairo_font_face_t>> faces_;
};

/// Draws marks in millimetres.
class Painter {
 public:
  Painter(cairo_t* cairo, const FontFaces& faces) : cairo_{cairo}, faces_{faces} {}

  void operator()(const Text& text) const {
    cairo_save(cairo_);
    cairo_translate(cairo_, text.at.x / mm, text.at.y / mm);
    cairo_rotate(cairo_, -(text.turn / radian));  // y runs downwards
    cairo_set_font_face(cairo_, faces_.of(text.face));
    cairo_set_font_size(cairo_, text.size / mm);
    cairo_scale(cairo_, letter_width(text.face), 1);
    cairo_move_to(cairo_, 0, 0);
    cairo_show_text(cairo_, text.words.c_str());
    cairo_restore(cairo_);
  }
  void operator()(const Stroke& stroke) const {
    set_line(stroke.width, stroke.dash);
    for (const Path& path : stroke.paths) add(path, stroke.closed);
    cairo_stroke(cairo_);
  }
  void operator()(const Fill& fill) const {
    constexpr bool is_closed = true;
    const double light = light_of(fill.ink);
    cairo_set_source_rgb(cairo_, light, light, light);
    for (const Path& path : fill.paths) add(path, is_closed);
    cairo_fill(cairo_);
    cairo_set_source_rgb(cairo_, 0, 0, 0);
  }
  void operator()(const Ellipse& ellipse) const {
    const Box& box = ellipse.box;
    cairo_save(cairo_);
    cairo_translate(cairo_, (box.x + box.width / 2) / mm, (box.y + box.height / 2) / mm);
    cairo_scale(cairo_, box.width / mm / 2, box.height / mm / 2);
    cairo_new_sub_path(cairo_);
    cairo_arc(cairo_, 0, 0, 1, 0, 2 * std::numbers::pi);
    cairo_close_path(cairo_);
    cairo_restore(cairo_);  // a pen of the same width all round
    if (ellipse.width == Length{}) {
      cairo_fill(cairo_);
    } else {
      set_line(ellipse.width, ellipse.dash);
      cairo_stroke(cairo_);
    }
  }
  void operator()(const Matrix& matrix) const {
    const double module = matrix.module / mm;
    const std::size_t side = static_cast<std::size_t>(matrix.side);
    for (std::size_t i = 0; i < matrix.black.size(); ++i) {
      if (!matrix.black[i]) continue;
      cairo_rectangle(cairo_, matrix.at.x / mm + static_cast<double>(i % side) * module,
                      matrix.at.y / mm + static_cast<double>(i / side) * module, module, module);
    }
    cairo_fill(cairo_);  // as one path: no seams between neighbours
  }
  void operator()(const Image& image) const {
    const GreyPixels& pixels = *image.pixels;
    const Owned<cairo_surface_t> surface{cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels.width, pixels.height)};
    must(cairo_surface_status(surface.get()));
    unsigned char* rows = cairo_image_surface_get_data(surface.get());
    const int stride = cairo_image_surface_get_stride(surface.get());
    for (int y = 0; y < pixels.height; ++y) {
      for (int x = 0; x < pixels.width; ++x) {
        const std::size_t place =
            static_cast<std::size_t>(y) * static_cast<std::size_t>(pixels.width) + static_cast<std::size_t>(x);
        for (int byte = 0; byte < 3; ++byte) rows[y * stride + 4 * x + byte] = pixels.grey.at(place);
      }
    }
    cairo_surface_mark_dirty(surface.get());
    cairo_save(cairo_);
    cairo_translate(cairo_, image.box.x / mm, image.box.y / mm);
    cairo_scale(cairo_, image.box.width / mm / pixels.width, image.box.height / mm / pixels.height);
    cairo_set_source_surface(cairo_, surface.get(), 0, 0);
    cairo_paint(cairo_);
    cairo_restore(cairo_);
  }

 private:
  void set_line(Length width, Dash dash) const {
    std::vector<double> dashes;
    for (const Length length : dash_lengths(dash, width)) dashes.push_back(length / mm);
    cairo_set_dash(cairo_, dashes.data(), static_cast<int>(dashes.size()), 0);
    cairo_set_line_width(cairo_, width / mm);
  }
  void add(const Path& path, bool closed) const {
    BW_EXPECT(path.size() >= 2);
    cairo_new_sub_path(cairo_);
    for (const Spot& corner : path) cairo_line_to(cairo_, corner.x / mm, corner.y / mm);
    if (closed) cairo_close_path(cairo_);
  }

  cairo_t* cairo_;
  const FontFaces& faces_;
};

cairo_status_t append(void* out, const unsigned char* bytes, unsigned int size) {
  static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(bytes), size);
  return CAIRO_STATUS_SUCCESS;
}

void add_big_endian(std::string& out, std::uint32_t number) {
  for (int shift = 24; shift >= 0; shift -= 8) out += static_cast<char>(number >> shift & 255);
}

/// The resolution, which Cairo does not write: a pHYs chunk behind the header (PNG specification, 11.3.5.3).
void state_resolution(std::string& png, int dots_per_inch) {
  constexpr std::size_t header_size = 33;  // signature and IHDR chunk, 5.2 and 11.2.2
  const auto dots_per_metre = static_cast<std::uint32_t>(std::lround(dots_per_inch / 0.0254));
  std::string chunk = "pHYs";
  add_big_endian(chunk, dots_per_metre);
  add_big_endian(chunk, dots_per_metre);
  chunk += '\1';  // the unit is the metre
  const auto sum = crc32(0, reinterpret_cast<const Bytef*>(chunk.data()), static_cast<uInt>(chunk.size()));
  std::string all;
  add_big_endian(all, static_cast<std::uint32_t>(chunk.size() - 4));
  all += chunk;
  add_big_endian(all, static_cast<std::uint32_t>(sum));
  png.insert(header_size, all);
}

}  // namespace

std::string png_of(const Page& page, int dots_per_inch, const PdfFonts& fonts) {
  BW_EXPECT(dots_per_inch >= 36 && dots_per_inch <= 600);
  const auto dots = [&](Length side) { return static_cast<int>(std::ceil(side / inch * dots_per_inch - 0.01)); };
  const Owned<cairo_surface_t> surface{
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, dots(page.paper.width), dots(page.paper.height))};
  must(cairo_surface_status(surface.get()));
  const FontFaces faces{fonts};
  {
    const Owned<cairo_t> cairo{cairo_create(surface.get())};
    cairo_set_source_rgb(cairo.get(), 1, 1, 1);
    cairo_paint(cairo.get());
    cairo_set_source_rgb(cairo.get(), 0, 0, 0);
    cairo_scale(cairo.get(), mm / inch * dots_per_inch, mm / inch * dots_per_inch);
    cairo_set_line_join(cairo.get(), CAIRO_LINE_JOIN_ROUND);
    const Owned<cairo_font_options_t> options{cairo_font_options_create()};
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(cairo.get(), options.get());
    const Painter painter{cairo.get(), faces};
    for (const Item& item : page.items) std::visit(painter, item.mark);
    must(cairo_status(cairo.get()));
  }
  std::string png;
  must(cairo_surface_write_to_png_stream(surface.get(), append, &png));
  state_resolution(png, dots_per_inch);
  return png;
}

}  // namespace blankwright

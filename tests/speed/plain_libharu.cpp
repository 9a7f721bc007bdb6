// What the tags cost an ordinary, careful program: libharu through its documented interface, qrcodegen as it comes,
// one PDF document an order. The speed comparison (run.sh) sets it beside Blankwright; nothing of Blankwright is
// used.
//
//   plain_libharu ORDERS TAGS_AN_ORDER OUTPUT_FOLDER FONT_FOLDER
//
// pdfkit_tags.mjs puts the same marks at the same places: a change to one is a change to both.

#include <fmt/format.h>
#include <hpdf.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <exception>
#include <filesystem>
#include <memory>
#include <qrcodegen/qrcodegen.hpp>
#include <stdexcept>
#include <string>
#include <string_view>

namespace {

constexpr float points_per_mm = 72.0F / 25.4F;
constexpr float dot = 72.0F / 300.0F;  // of a 300 dpi printer, in points
constexpr float module = 9 * dot;      // 0.762 mm
constexpr int columns = 3;
constexpr int rows = 8;
constexpr float label_width = 70, label_height = 37, left_margin = 0, top_margin = 0.5F;  // mm

struct Tag {
  std::string id;  // K7T4X54
  std::array<std::string, 4> lines;
};

/// Seven symbols, the last a check symbol: weights 5^1 … 5^6 and 1, the sum is 0 modulo 23.
std::string tag_id(std::uint64_t number) {
  constexpr std::string_view alphabet = "23456789BCDFGHJKNPRSTVX";
  constexpr std::array<unsigned, 6> weights{5, 2, 10, 4, 20, 8};
  std::uint64_t rest = number * 99'991 % 148'035'889;
  std::string id(7, '2');
  unsigned sum = 0;
  for (std::size_t i = 6; i-- > 0; rest /= 23) {
    const auto digit = static_cast<unsigned>(rest % 23);
    id.at(i) = alphabet.at(digit);
    sum += weights.at(i) * digit;
  }
  id.at(6) = alphabet.at((23 - sum % 23) % 23);
  return id;
}

Tag made_tag(int order, int piece, int pieces) {
  constexpr std::array<std::string_view, 4> species{"European beech", "Black walnut", "Yellow-poplar", "Sugar maple"};
  const auto kind = static_cast<std::size_t>(order) % species.size();
  const int section = 36 + order % 9;
  return {tag_id(static_cast<std::uint64_t>(order) * 10'000 + static_cast<std::uint64_t>(piece)),
          {fmt::format("Order S-{:04}", order), fmt::format("{} of {}", piece, pieces), std::string{species.at(kind)},
           fmt::format("{0} × {0} × {1} mm sawn", section, 126 + order % 31)}};
}

[[noreturn]] void fail(HPDF_STATUS error, HPDF_STATUS detail, void*) {
  throw std::runtime_error{fmt::format("libharu: error {:#06x}, detail {}", error, detail)};
}

struct Fonts {
  HPDF_Font regular, bold;
};

Fonts load_fonts(HPDF_Doc document, const std::filesystem::path& folder) {
  HPDF_UseUTFEncodings(document);
  const auto font = [&](const char* file) {
    const char* name = HPDF_LoadTTFontFromFile(document, (folder / file).c_str(), HPDF_TRUE);
    return HPDF_GetFont(document, name, "UTF-8");
  };
  return {font("BlankwrightSans-Regular.ttf"), font("BlankwrightSans-Bold.ttf")};
}

/// A label's place on its page: turns millimetres from its top left corner into points from the page's bottom left.
struct Label {
  HPDF_Page page;
  float left, top;  // mm
  float x(float mm) const { return (left + mm) * points_per_mm; }
  float y(float mm) const { return HPDF_Page_GetHeight(page) - (top + mm) * points_per_mm; }
};

float on_a_dot(float points) { return std::round(points / dot) * dot; }

void draw_code(const Label& label, const std::string& id) {
  using qrcodegen::QrCode;
  const auto segments = qrcodegen::QrSegment::makeSegments(id.c_str());
  const QrCode code = QrCode::encodeSegments(segments, QrCode::Ecc::HIGH, 2, 2, -1, false);
  const float left = on_a_dot(label.x(6.1F));
  const float top = on_a_dot(label.y(9));
  for (int row = 0; row < code.getSize(); ++row) {
    for (int column = 0; column < code.getSize(); ++column) {
      if (!code.getModule(column, row)) continue;
      HPDF_Page_Rectangle(label.page, left + static_cast<float>(column) * module,
                          top - static_cast<float>(row + 1) * module, module, module);
    }
  }
  HPDF_Page_Fill(label.page);
}

void draw_box(const Label& label, float x, float y, float width, float height) {
  HPDF_Page_Rectangle(label.page, label.x(x), label.y(y + height), width * points_per_mm, height * points_per_mm);
}

void draw_tag(const Label& label, const Tag& tag, const Fonts& fonts) {
  HPDF_Page page = label.page;
  draw_code(label, tag.id);

  HPDF_Page_SetLineWidth(page, 0.25F * points_per_mm);
  draw_box(label, 1.5F, 1.5F, 67, 34);
  draw_box(label, 30, 25.9F, 18, 8);
  draw_box(label, 49, 25.9F, 18, 8);
  HPDF_Page_Stroke(page);

  HPDF_Page_BeginText(page);
  HPDF_Page_SetFontAndSize(page, fonts.bold, 18);
  HPDF_Page_TextOut(page, label.x(30), label.y(9.5F), (tag.id.substr(0, 3) + "-" + tag.id.substr(3)).c_str());
  HPDF_Page_SetFontAndSize(page, fonts.regular, 8.5F);
  float baseline = 13.6F;
  for (const std::string& line : tag.lines) {
    HPDF_Page_TextOut(page, label.x(30), label.y(baseline), line.c_str());
    baseline += 3.5F;
  }
  HPDF_Page_SetFontAndSize(page, fonts.regular, 6);
  HPDF_Page_TextOut(page, label.x(30.8F), label.y(28.3F), "dry mass, g");
  HPDF_Page_TextOut(page, label.x(49.8F), label.y(28.3F), "wet mass, g");
  HPDF_Page_EndText(page);
}

HPDF_Page add_page(HPDF_Doc document) {
  HPDF_Page page = HPDF_AddPage(document);
  HPDF_Page_SetSize(page, HPDF_PAGE_SIZE_A4, HPDF_PAGE_PORTRAIT);
  return page;
}

void write_order(int order, int pieces, const std::filesystem::path& folder,
                 const std::filesystem::path& font_folder) {
  const std::unique_ptr<_HPDF_Doc_Rec, void (*)(HPDF_Doc)> owner{HPDF_New(fail, nullptr), HPDF_Free};
  HPDF_Doc document = owner.get();
  if (document == nullptr) throw std::runtime_error{"libharu: no document"};
  HPDF_SetCompressionMode(document, HPDF_COMP_ALL);
  const Fonts fonts = load_fonts(document, font_folder);
  HPDF_SetInfoAttr(document, HPDF_INFO_TITLE, fmt::format("Tags S-{:04}", order).c_str());

  HPDF_Page page = nullptr;
  for (int piece = 1; piece <= pieces; ++piece) {
    const int place = (piece - 1) % (columns * rows);
    if (place == 0) page = add_page(document);
    const Label label{page, left_margin + label_width * static_cast<float>(place % columns),
                      top_margin + label_height * static_cast<float>(place / columns)};
    draw_tag(label, made_tag(order, piece, pieces), fonts);
  }
  HPDF_SaveToFile(document, (folder / fmt::format("S-{:04}.pdf", order)).c_str());
}

int count_from(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || value < 1 || value > 9999) {
    throw std::runtime_error{fmt::format("{} is not a count from 1 to 9999", text)};
  }
  return value;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    if (argc != 5) throw std::runtime_error{"usage: plain_libharu ORDERS TAGS_AN_ORDER OUTPUT_FOLDER FONT_FOLDER"};
    const int orders = count_from(argv[1]);
    const int pieces = count_from(argv[2]);
    std::filesystem::create_directories(argv[3]);
    for (int order = 1; order <= orders; ++order) write_order(order, pieces, argv[3], argv[4]);
    return 0;
  } catch (const std::exception& error) {
    fmt::print(stderr, "plain_libharu: {}\n", error.what());
    return 1;
  }
}

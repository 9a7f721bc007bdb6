#include "sheet/tag/label_sheet.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"
#include "paper.h"
#include "template_for_test.h"

using namespace blankwright;

namespace {

const std::vector<LabelSheet>& shipped_sheets() {
  static const std::vector<LabelSheet> sheets = template_for_test("A4").label_sheets;
  return sheets;
}

/// The neighbourhood of a box on a page, printed fine: a whole page at this fineness takes most of the test's time.
struct Closely {
  static constexpr int dots_per_inch = 600;
  static constexpr double dot = 25.4 / dots_per_inch;  // mm

  Closely(const std::string& pdf, double left, double top, double width, double height)
      : part{dots(left - 3), dots(top - 3), dots(width + 6), dots(height + 6)},
        picture{printed(pdf, 1, dots_per_inch, part)} {}

  static int dots(double mm_on_page) { return std::max(0, static_cast<int>(mm_on_page / dot)); }

  /// Where the dark line crosses a row or column near a place of the page, in mm: the middle of its grey weight.
  double line_at(bool across, double beside, double near_by) const {
    double weight = 0, moment = 0;
    const int middle = static_cast<int>(near_by / dot);
    for (int i = middle - 8; i <= middle + 8; ++i) {
      const int x = (across ? i : static_cast<int>(beside / dot)) - part.left;
      const int y = (across ? static_cast<int>(beside / dot) : i) - part.top;
      if (i < 0 || (across ? x >= picture.width : y >= picture.height)) continue;
      const double dark = 255 - picture.at(x, y);
      weight += dark;
      moment += dark * (i + 0.5);
    }
    REQUIRE(weight > 0);
    return moment / weight * dot;
  }

  Dots part;
  Picture picture;
};

}  // namespace

TEST_CASE("places of a sheet are read as numbers and ranges, and nothing else is") {
  CHECK(read_places("1") == UsedPlaces{1});
  CHECK(read_places("1-4, 9") == UsedPlaces{1, 2, 3, 4, 9});
  CHECK(read_places("9,2-3,3") == UsedPlaces{2, 3, 9});
  for (const char* wrong : {"", "0", "-3", "3-", "4-2", "1,,2", "one", "1;2", "2501", "99999999999", "1-2-3"}) {
    CAPTURE(wrong);
    CHECK_FALSE(read_places(wrong).has_value());
  }
}

TEST_CASE("tags begin at the first free place of a used sheet, leave out used places, and fill the next sheet") {
  const LabelSheet& sheet = shipped_sheets().front();  // 3 x 7
  REQUIRE(places_of(sheet) == 21);
  const LabelRun run{sheet, PrinterFacts{}, *read_places("1-4,6,21")};
  const std::vector<int> expected{4, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19};
  for (std::size_t n = 0; n < expected.size(); ++n) {
    const LabelSpot spot = run.spot(static_cast<int>(n));
    CHECK(spot.page == 0);
    CHECK(spot.label == run.label_at(expected.at(n)));
  }
  CHECK(run.spot(15).page == 1);
  CHECK(run.spot(15).label == run.label_at(0));
  CHECK(run.spot(15 + 21).page == 2);
  CHECK_THROWS_AS((LabelRun{sheet, PrinterFacts{}, *read_places("1-21")}), BrokenPromise);
}

TEST_CASE("outlines stand where the makers' figures put them, to 0.05 mm on the picture, whatever the printer does") {
  // The geometries are in templates/standard.toml as their boxes state them: generic sheets, common practice.
  for (const LabelSheet& sheet : shipped_sheets()) {
    CAPTURE(sheet.name.value);
    PrinterFacts printer;
    printer.bar_x.value = 99.5 * mm;
    printer.bar_y.value = 100.4 * mm;
    printer.label_shift_x.value = 0.7 * mm;
    printer.label_shift_y.value = -0.4 * mm;
    const Template t = template_for_test(sheet.paper.value == PaperSize::a4 ? "A4" : "Letter");
    const std::vector<Page> pages{label_outlines(sheet, printer, t, fonts_for_test())};
    const std::string pdf = pdf_of(pages, {}, font_files_for_test());
    for (const int place : {0, places_of(sheet) - 1}) {
      const int column = place % sheet.columns.value, row = place / sheet.columns.value;
      const double left = (sheet.left.value + column * sheet.pitch_x.value) / mm;
      const double top = (sheet.top.value + row * sheet.pitch_y.value) / mm;
      const double right = left + sheet.width.value / mm, bottom = top + sheet.height.value / mm;
      const auto x = [&](double true_x) { return true_x * 100 / 99.5 + 0.7; };
      const auto y = [&](double true_y) { return true_y * 100 / 100.4 - 0.4; };
      const Closely seen{pdf, x(left), y(top), x(right) - x(left), y(bottom) - y(top)};
      const double paper_width = width_of(sheet.paper.value) / mm, paper_height = height_of(sheet.paper.value) / mm;
      const double beside_y = y(bottom - 1), beside_x = x(left + 1.2);
      const auto inside_paper = [](double at, double limit) { return at > 0.5 && at < limit - 0.5; };
      if (inside_paper(x(left), paper_width)) CHECK(std::abs(seen.line_at(true, beside_y, x(left)) - x(left)) < 0.05);
      if (inside_paper(x(right), paper_width)) {
        CHECK(std::abs(seen.line_at(true, beside_y, x(right)) - x(right)) < 0.05);
      }
      if (inside_paper(y(top), paper_height)) CHECK(std::abs(seen.line_at(false, beside_x, y(top)) - y(top)) < 0.05);
      if (inside_paper(y(bottom), paper_height)) {
        CHECK(std::abs(seen.line_at(false, beside_x, y(bottom)) - y(bottom)) < 0.05);
      }
    }
  }
}

TEST_CASE("a sheet whose words come within 5 mm of the paper's edge is known") {
  for (const LabelSheet& sheet : shipped_sheets()) {
    CAPTURE(sheet.name.value);
    // Of the shipped ones only that without a left margin: its words begin 3 mm from the edge.
    CHECK(is_near_edge(sheet, PrinterFacts{}, 3 * mm) == (sheet.name.value == "a4-3x8-70x37"));
  }
  PrinterFacts shifted;
  shifted.label_shift_x.value = -4 * mm;
  const auto wide = std::ranges::find(shipped_sheets(), "letter-2x5-101.6x50.8",
                                      [](const LabelSheet& sheet) { return sheet.name.value; });
  CHECK(is_near_edge(*wide, shifted, 3 * mm));  // 3.97 + 3 - 4
}

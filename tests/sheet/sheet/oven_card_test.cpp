#include "sheet/sheet/sheets.h"

#include <algorithm>
#include <string>

#include "bath_fixture.h"
#include "sheet/mark/canvas.h"

using namespace blankwright;
using table_pages::count_of;
using table_pages::reduction_of;
using table_pages::shows;
using table_pages::shared_fonts;
using table_pages::texts_of;

namespace {

bool lies_in(const Box& inner, const Box& outer) {
  return inner.x > outer.x && inner.right() < outer.right() && inner.y > outer.y && inner.bottom() < outer.bottom();
}

/// The oven's walls: the rectangle in wide lines that holds others.
Box walls_of(const Page& page) {
  const auto all = rectangles_of(page, wide_line);
  for (const Box& box : all) {
    if (std::ranges::any_of(all, [&](const Box& other) { return lies_in(other, box); })) return box;
  }
  return {};
}

/// How far two boxes lie apart, along or across.
Length apart(const Box& a, const Box& b) {
  const Length x = std::max(a.x, b.x) - std::min(a.right(), b.right());
  const Length y = std::max(a.y, b.y) - std::min(a.bottom(), b.bottom());
  return std::max(x, y);
}

}  // namespace

TEST_CASE("the tray is drawn to scale, with the clearance to the walls and the gap between blanks kept") {
  for (const bool inches : {false, true}) {
    for (const int margin : {8, 12, 30}) {
      for (const int pieces : {1, 10}) {
        for (const int layers : {1, 2}) {  // blanks 140 or 65 mm long
          CAPTURE(inches);
          CAPTURE(pieces);
          const BathedOrder order{
              {.inches = inches, .letter = inches, .margin = margin, .pieces = pieces, .layers = layers}};
          const Dossier d = order.dossier();
          const Page page = oven_cards(d, shared_fonts()).front();
          const PlannedLoad& load = *d.loads.front().planned;
          const int n = reduction_of(page);
          REQUIRE(n >= 1);
          const Box walls = walls_of(page);
          auto blanks = rectangles_of(page, wide_line);
          std::erase_if(blanks, [&](const Box& box) { return !lies_in(box, walls); });
          CHECK(blanks.size() == static_cast<std::size_t>(std::min(pieces + 1, load.layout.on_shelf())));
          const Length slack = 0.001 * mm;
          CHECK(abs(n * walls.width - load.oven->width.value) < slack);
          CHECK(abs(n * walls.height - load.oven->depth.value) < slack);
          const Length clearance = load.oven->clearance.value - slack, gap = load.oven->gap.value - slack;
          for (std::size_t i = 0; i < blanks.size(); ++i) {
            const Box& blank = blanks.at(i);
            CHECK(n * (blank.x - walls.x) >= clearance);
            CHECK(n * (walls.right() - blank.right()) >= clearance);
            CHECK(n * (blank.y - walls.y) >= clearance);
            CHECK(n * (walls.bottom() - blank.bottom()) >= clearance);
            const Length length = layers == 1 ? 140 * mm : 65 * mm;
            CHECK(abs(n * std::max(blank.width, blank.height) - length) < slack);
            CHECK(abs(n * std::min(blank.width, blank.height) - 30 * mm) < slack);
            for (std::size_t j = i + 1; j < blanks.size(); ++j) CHECK(n * apart(blank, blanks.at(j)) >= gap);
          }
        }
      }
    }
  }
}

TEST_CASE("an oven card's words keep to the margins and clear of each other, and every ID stands on it once") {
  for (const bool inches : {false, true}) {
    for (const int margin : {8, 12, 30}) {
      for (const int pieces : {3, 11, 60}) {
        CAPTURE(inches);
        CAPTURE(margin);
        CAPTURE(pieces);
        const BathedOrder order{
            {.inches = inches, .letter = inches, .margin = margin, .pieces = pieces, .others = 2}};
        const Dossier d = order.dossier();
        const auto pages = oven_cards(d, shared_fonts());
        for (const Page& page : pages) check_words(page, d.sheet_template.margin.value);
        const auto texts = texts_of(pages);
        for (const ShareOnPaper& share : d.loads.front().shares) {
          for (const BlankId& id : share.blanks) CHECK(count_of(texts, id.shown()) == 1);
          for (const BlankId& id : share.witnesses) CHECK(count_of(texts, "W " + id.shown()) == 1);
        }
      }
    }
  }
}

TEST_CASE("an oven card gives dial and true temperature, core and times") {
  const BathedOrder order{{}};
  const auto pages = oven_cards(order.dossier(), shared_fonts());
  for (const char* said :
       {"Dial 95 °C", "True air temperature 93 °C", "independent thermometer", "Core temperature 85 °C",
        "likely 2 h 15 min", "allow 3 h 25 min", "In the oven at least 4 h 25 min", "In the oven at most 8 h",
        "Hold until core + 1 h", "HOLD", "no tack"}) {
    CAPTURE(said);
    CHECK(shows(pages, said));
  }
  const auto texts = texts_of(pages);
  for (const char* figure : {"95", "93", "85", "15", "25"}) {
    CAPTURE(figure);  // height: common practice, no source
    CHECK(std::ranges::any_of(
        texts, [&](const Text& text) { return text.words == figure && capitals_of(text) >= 3.5 - 0.001; }));
  }
}

TEST_CASE("a card of eleven blanks is one page of A4") {
  const BathedOrder order{{}};
  CHECK(oven_cards(order.dossier(), shared_fonts()).size() == 1);
}

TEST_CASE("times that are not known stand as dashes") {
  const BathedOrder order{{.figures = false}};
  const auto pages = oven_cards(order.dossier(), shared_fonts());
  CHECK(count_of(texts_of(pages), "–") >= 5);
  CHECK(!shows(pages, "not known"));
}

TEST_CASE("blanks fill one shelf after the other") {
  // 13 find room on a shelf of that oven at its gaps; the rest lies on the second.
  const BathedOrder order{{.inches = true, .letter = true, .pieces = 20, .in_layer = 13, .layers = 1}};
  const Dossier d = order.dossier();
  const OvenLoad& layout = d.loads.front().planned->layout;
  REQUIRE(layout.on_shelf() == 13);
  CHECK(shows(oven_cards(d, shared_fonts()), "shelf 1: 13, shelf 2: 8"));
}

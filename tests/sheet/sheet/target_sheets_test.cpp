#include "sheet/sheet/sheets.h"

#include <cmath>

#include "paper.h"
#include "treated_fixture.h"
#include "true_size_fixture.h"
#include "write/pdf.h"

namespace blankwright::true_size {
namespace {

std::string pdf_of_pages(const std::vector<Page>& pages) {
  return pdf_of(pages, {.title = "true size", .language = "en", .true_to_size = true},
                {project_file("fonts/BlankwrightSans-Regular.ttf"), project_file("fonts/BlankwrightSans-Bold.ttf")});
}

}  // namespace

TEST_CASE("every sheet has bars that a printer of its measured error prints 100 mm or 4 in long") {
  for (const Handle& h : kinds()) {
    CAPTURE(h.bar_x);
    CAPTURE(h.letter);
    const TestOrder order = order_of(h);
    for (const Page& page : pages_of(order)) {
      const auto bars = bars_on(page);
      REQUIRE(bars.size() == 2);
      const Length bar = h.inches ? 4 * inch : 100 * mm;
      CHECK(near((bars[0][1].x - bars[0][0].x) * (h.bar_x / 100), bar));
      CHECK(near((bars[1][1].y - bars[1][0].y) * (h.bar_y / 100), bar));
      CHECK(shows(page, "ACTUAL SIZE 100 %, no scaling"));
      check_page(page, 12 * mm);
    }
  }
}

TEST_CASE("a target's rings have their diameters on the print, about one centre") {
  for (const Handle& h : kinds()) {
    CAPTURE(h.bar_x);
    const TestOrder order = order_of(h);
    const Length position = 2 * order.dossier().plan.centring.seat_offset;
    // Seat Ø26 and tail Ø24 of the job, each + 2 × 1.5 for the finish; pilot Ø3; the job's drill; dots Ø0.5.
    const std::vector<Length> seat{0.5 * mm, 3 * mm, 9 * mm, 26 * mm, 29 * mm, position};
    const std::vector<Length> tail{0.5 * mm, 24 * mm, 27 * mm};
    int seats = 0, tails = 0;
    for (const Page& page : pages_of(order)) {
      if (!is_target_page(page)) continue;
      for (const Box& target : targets_on(page)) {
        std::vector<Box> rings;
        for (const Box& r : rings_on(page)) {
          if (holds(target, r)) rings.push_back(r);
        }
        for (const Box& dot : rings_on(page, true)) {
          if (holds(target, dot)) rings.push_back(dot);
        }
        const bool is_seat = rings.size() == seat.size();
        (is_seat ? seats : tails) += 1;
        const auto& expected = is_seat ? seat : tail;
        REQUIRE(rings.size() == expected.size());
        for (const Length diameter : expected) {
          CAPTURE(diameter / mm);
          CHECK(std::any_of(rings.begin(), rings.end(), [&](const Box& r) {
            return near(r.width * (h.bar_x / 100), diameter) && near(r.height * (h.bar_y / 100), diameter);
          }));
        }
        for (const Box& r : rings) {
          CHECK(near(r.x + r.width / 2, rings.front().x + rings.front().width / 2));
          CHECK(near(r.y + r.height / 2, rings.front().y + rings.front().height / 2));
        }
      }
    }
    CHECK(seats == piece_count(order.dossier()));
    CHECK(tails == piece_count(order.dossier()));
  }
}

TEST_CASE("the square, its diagonals, and the cross lines that stop 1 mm short of the dot are true to size") {
  Handle h{small};
  h.bar_x = 98;
  h.bar_y = 101;
  h.section = "45 mm";
  const TestOrder order = order_of(h);
  const Page page = pages_of(order).front();
  const Box target = targets_on(page).front();
  const Box ring = rings_on(page).front();
  const Spot centre{ring.x + ring.width / 2, ring.y + ring.height / 2};
  const double x = 98.0 / 100, y = 101.0 / 100;  // from drawn to printed
  bool square = false, cross = false, diagonals = false;
  for (const Stroke& s : strokes_on(page)) {
    const Box box = box_of(s.paths);
    if (!holds(target, box)) continue;
    if (s.closed && s.paths.front().size() == 4) {
      square = square || (near(box.width * x, 45 * mm) && near(box.height * y, 45 * mm));
    }
    if (s.paths.size() != 4 || s.paths.front().size() != 2) continue;
    int lies_square = 0, lies_oblique = 0;
    for (const Path& p : s.paths) {
      const Length dx0 = abs(p[0].x - centre.x) * x, dy0 = abs(p[0].y - centre.y) * y;
      const Length dx1 = abs(p[1].x - centre.x) * x, dy1 = abs(p[1].y - centre.y) * y;
      // 0.25 + 1 from the middle; to 4 mm past the edge.
      lies_square += near(dx0 + dy0, 1.25 * mm) && near(std::min(dx0, dy0), 0 * mm) && near(dx1 + dy1, 26.5 * mm);
      lies_oblique += near(dx0, dy0) && near(dx1, dy1) && dx1 > 22.499 * mm;
    }
    cross = cross || lies_square == 4;
    diagonals = diagonals || lies_oblique == 4;
  }
  CHECK(square);
  CHECK(cross);
  CHECK(diagonals);
}

TEST_CASE("every piece has a target with its ID for either end, and a draft one pair with a field") {
  const TestOrder order = order_of({small});
  const auto pages = pages_of(order);
  const Dossier& d = order.dossier();
  REQUIRE(piece_count(d) >= 3);
  for (int n = 0; n < piece_count(d); ++n) {
    const std::string id = d.blanks.at(static_cast<std::size_t>(n)).shown();
    long found = 0;
    for (const Page& page : pages) {
      const auto texts = texts_on(page);
      found += std::count_if(texts.begin(), texts.end(), [&](const Text& t) { return t.words == id; });
    }
    CHECK(found == 2);
  }
  Handle draft{small};
  draft.draft = true;
  const TestOrder drafted = order_of(draft);
  const auto page = pages_of(drafted).front();
  const auto targets = targets_on(page);
  CHECK(targets.size() == 8);  // as many pairs as the sheet holds
  const auto texts = texts_on(page);
  for (const char* end : {"Seat end", "Tail end"}) {
    CHECK(std::count_if(texts.begin(), texts.end(), [&](const Text& t) {
            return t.words == end &&
                   std::any_of(targets.begin(), targets.end(), [&](const Box& box) { return holds(box, ink_of(t)); });
          }) == 4);
  }
  for (const Text& t : texts) CHECK(!BlankId::read(t.words));
}

TEST_CASE("targets stand twelve a page, and a shop may print one sheet without IDs to be copied") {
  // A square of 45 mm: 55 mm with its arms on 176 mm of A4's width are three in a row. Asked for.
  Handle h{small};
  h.section = "45 mm";
  const TestOrder each = order_of(h);
  const auto pages = target_sheets(each.dossier(), fonts_for_test());
  REQUIRE(!pages.empty());
  const TestOrder master{treated_job(), treated_shop(), "format = 1\ntargets = \"master\"\n"};
  const auto one = target_sheets(master.dossier(), fonts_for_test());
  REQUIRE(one.size() == 1);
  for (const Text& t : texts_on(one.front())) CHECK(!BlankId::read(t.words));
  const TestOrder all{treated_job(), treated_shop(), "format = 1\ntargets = \"each\"\n"};
  const auto several = target_sheets(all.dossier(), fonts_for_test());
  REQUIRE(several.size() >= 2);
  std::size_t most = 0;
  for (const Page& page : several) most = std::max(most, targets_on(page).size());
  CHECK(targets_on(several.front()).size() == 12);  // the last page says what explains them
  CHECK(most == 12);
}

TEST_CASE("targets for a 90 mm section stand in pairs where the paper holds them, and never overlap") {
  for (const bool inches : {false, true}) {
    for (const bool letter : {false, true}) {
      for (const int margin : {8, 12, 30}) {
        CAPTURE(letter);
        CAPTURE(margin);
        Handle h{{{0, 40}, {100, 72}, {180, 62}, {250, 44}}};
        h.inches = inches;
        h.letter = letter;
        h.margin = margin;
        h.section = "90 mm";
        const TestOrder order = order_of(h);
        const auto pages = pages_of(order);
        std::size_t targets = 0;
        for (const Page& page : pages) {
          check_page(page, margin * mm);
          if (is_target_page(page)) targets += targets_on(page).size();
        }
        CHECK(targets == 2 * static_cast<std::size_t>(piece_count(order.dossier())));
        if (!letter && margin == 12) CHECK(targets_on(pages.front()).size() == 2);
      }
    }
  }
}

TEST_CASE("what is larger than the sheet is left out of a target, and said to be") {
  Handle h{{{0, 40}, {100, 240}, {200, 230}}};
  h.letter = true;
  const TestOrder order = order_of(h);
  const auto pages = pages_of(order);
  for (const Page& page : pages) check_page(page, 12 * mm);
  CHECK(shows(last_targets(order), "(Ø230.00 mm)"));
  CHECK(shows(last_targets(order), "Figures in brackets are larger than this sheet"));
  CHECK(rings_on(pages.at(0)).size() == 5);
  CHECK(rings_on(pages.at(1)).empty());
  CHECK(shows(pages.back(), "Too thick for this sheet"));
}

TEST_CASE("a rescaled sheet tells its correction, the limits of the bars and how to correct further") {
  Handle h{small};
  h.bar_x = 99.8;
  h.bar_y = 100.3;
  const TestOrder metric = order_of(h);
  std::string words;
  for (const Text& t : texts_on(last_targets(metric))) words += t.words + " ";
  // 100/99.8 and 100/100.3; 100 ± 0.3 mm.
  for (const char* said : {"across ×1.0020", "down ×0.9970", "99.70 mm – 100.30 mm", "bar_x = 99.80 mm",
                           "bar_y = 100.30 mm", "old figure × measured length of the bar / 100.00 mm"}) {
    CAPTURE(said);
    CHECK(words.find(said) != std::string::npos);
  }
  Handle inch{small};
  inch.inches = true;
  const TestOrder inches = order_of(inch);
  words.clear();
  for (const Text& t : texts_on(last_targets(inches))) words += t.words + " ";
  // 101.6 ± 0.3 mm are 3.9882 and 4.0118 in: printed to the side that keeps them.
  CHECK(words.find("3.989 in – 4.011 in") != std::string::npos);
  CHECK(words.find("Not corrected") != std::string::npos);
  CHECK(words.find("4.000 in") != std::string::npos);
}

TEST_CASE("bars and rings measured on the picture of the sheet are right to 0.1 mm") {
  Handle h{small};
  h.bar_x = 98;
  h.bar_y = 102;
  const TestOrder order = order_of(h);
  const auto pages = pages_of(order);
  const Picture picture = printed(pdf_of_pages(pages), 1, 300);
  const double dot = 25.4 / 300;
  const auto black = [&](int x, int y) { return picture.at(x, y) < 128; };
  const auto dots = [&](Length l) { return static_cast<int>(std::lround(l / mm / dot)); };
  // The bar across, from the middle of one end tick to the middle of the other, along a row beside the bar itself.
  const auto bars = bars_on(pages.front());
  const auto middles = [&](bool across, int beside, int from, int to) {
    std::vector<double> out;
    int begin = -1;
    for (int i = from; i <= to; ++i) {
      const bool is = across ? black(i, beside) : black(beside, i);
      if (is && begin < 0) begin = i;
      if (!is && begin >= 0) out.push_back((begin + i) / 2.0), begin = -1;
    }
    return out;
  };
  const auto x_ticks =
      middles(true, dots(bars[0][0].y + 1 * mm), dots(bars[0][0].x - 2 * mm), dots(bars[0][1].x + 2 * mm));
  const auto y_ticks =
      middles(false, dots(bars[1][0].x + 1 * mm), dots(bars[1][0].y - 2 * mm), dots(bars[1][1].y + 2 * mm));
  REQUIRE(x_ticks.size() == 2);
  REQUIRE(y_ticks.size() == 2);
  CHECK(std::abs((x_ticks[1] - x_ticks[0]) * dot - 100 * 100 / 98.0) < 0.1);
  CHECK(std::abs((y_ticks[1] - y_ticks[0]) * dot - 100 * 100 / 102.0) < 0.1);
  // The finished ring at the seat, Ø26, a little beside the cross lines: the chord at 1.5 mm from the middle of a
  // circle of radius 13 is 2 √(13² − 1.5²) = 25.825 long.
  const Box target = targets_on(pages.front()).front();
  for (const Box& ring : rings_on(pages.front())) {
    if (!holds(target, ring) || !near(ring.width * 0.98, 26 * mm)) continue;
    const Spot c{ring.x + ring.width / 2, ring.y + ring.height / 2};
    const int left = dots(ring.x - 0.8 * mm), right = dots(ring.right() + 0.8 * mm);
    const auto across = middles(true, dots(c.y + 1.5 * mm / 1.02), left, right);
    const int top = dots(ring.y - 0.8 * mm), bottom = dots(ring.bottom() + 0.8 * mm);
    const auto down = middles(false, dots(c.x + 1.5 * mm / 0.98), top, bottom);
    REQUIRE(across.size() >= 2);
    REQUIRE(down.size() >= 2);
    CHECK(std::abs((across.back() - across.front()) * dot * 0.98 - 25.825) < 0.1);
    CHECK(std::abs((down.back() - down.front()) * dot * 1.02 - 25.825) < 0.1);
    return;
  }
  FAIL("no ring for the finished diameter");
}

}  // namespace blankwright::true_size

#include "page_dump.h"

#include <doctest/doctest.h>

using namespace blankwright;

TEST_CASE("a page is told as text, one mark a line") {
  // The lines are those that page_dump.h promises.
  Page page{.paper = {"A4", 210 * mm, 297 * mm}, .items = {}, .label = "Tags"};
  const auto add = [&](Mark mark) { page.items.push_back({std::move(mark), Role::note}); };
  const Length point = inch / 72;
  add(Text{.at = {12 * mm, 18.5 * mm}, .words = "K7T-4X54", .size = 14 * point, .turn = {}});
  add(Text{
      .at = {12 * mm, 18.5 * mm}, .words = "2\" \\ ½", .face = Face::bold, .size = 9.5 * point, .turn = 90 * degree});
  add(Stroke{.paths = {{{10 * mm, 30 * mm}, {200 * mm, 30 * mm}}}, .width = 0.25 * mm});
  add(Stroke{.paths = {{{1 * mm, 2 * mm}, {3 * mm, 4 * mm}}, {{-0.0001 * mm, 5 * mm}, {6.1254 * mm, 7 * mm}}},
             .width = 0.5 * mm,
             .dash = Dash::centre,
             .closed = true});
  Stroke wave{.paths = {{}}, .width = 0.25 * mm};
  for (int i = 0; i < 7; ++i) wave.paths.front().push_back({(10 + i) * mm, (i % 2 == 0 ? 5.06 : 7) * mm});
  add(wave);
  add(Fill{.paths = {{{1 * mm, 2 * mm}, {3 * mm, 2 * mm}, {3 * mm, 4 * mm}}}, .ink = Ink::white});
  add(Ellipse{.box = {1 * mm, 2 * mm, 3 * mm, 4 * mm}, .width = 0.25 * mm, .dash = Dash::hidden});
  add(Ellipse{.box = {1 * mm, 2 * mm, 3 * mm, 4 * mm}, .width = {}});
  add(Matrix{.at = {12 * mm, 20 * mm}, .module = 0.508 * mm, .side = 2, .black = {true, false, true, true}});
  CHECK(page_dump({&page, 1}) ==
        "page \"Tags\" A4 210.0 297.0\n"
        "text 12.0 18.5 14.0pt \"K7T-4X54\"\n"
        "text 12.0 18.5 9.5pt \"2\\\" \\\\ ½\" bold turn 90.0\n"
        "line 10.0 30.0 200.0 30.0 0.25\n"
        "line 1.0 2.0 3.0 4.0 / 0.0 5.0 6.1 7.0 0.5 centre closed\n"
        "line 7 corners in 10.0 5.1 6.0 1.9 0.25\n"
        "fill 1.0 2.0 3.0 2.0 3.0 4.0 white\n"
        "ellipse 1.0 2.0 3.0 4.0 0.25 hidden\n"
        "ellipse 1.0 2.0 3.0 4.0 filled\n"
        "matrix 12.0 20.0 2x2 0.508 3 black\n");
}

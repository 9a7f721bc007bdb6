#include "plan/wood/cutting.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>
#include <vector>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "cutting_cases.h"
#include "planning.h"

using namespace blankwright;

namespace {

constexpr CaseSizes workshop{120, 1500, 20, 260, 18, 45, 60, 210, 3, 6, 5, 30};

CuttingInput one_board(Length length, Length width, std::vector<BoardArea> defects = {}) {
  CuttingInput in;
  in.section = 30 * mm;
  in.length = 200 * mm;
  in.count = 1000;
  in.kerf = 3 * mm;
  in.end_trim = 20 * mm;
  in.boards = {{"B1", length, width, 30 * mm, std::move(defects)}};
  return in;
}

/// "1.2 426-626 x 33-63": strip and position, then along x across.
std::vector<std::string> places(const CuttingPlan& plan) {
  std::vector<std::string> out;
  for (const CutBlank& b : plan.blanks) {
    out.push_back(fmt::format("{}.{} {:g}-{:g} x {:g}-{:g}", b.strip, b.position, b.area.from / mm, b.area.to / mm,
                              b.area.near / mm, b.area.far / mm));
  }
  return out;
}

/// "rip 30-33 (20-829)": where the blade goes, and over which stretch.
std::vector<std::string> cuts(const CuttingPlan& plan) {
  constexpr const char* names[] = {"across", "rip", "resaw", "crosscut"};
  std::vector<std::string> out;
  for (const Cut& c : plan.cuts) {
    out.push_back(fmt::format("{} {:g}-{:g} ({:g}-{:g})", names[static_cast<int>(c.kind)], c.at / mm, c.until / mm,
                              c.from / mm, c.to / mm));
  }
  return out;
}

using Texts = std::vector<std::string>;

bool alike(Length a, Length b) { return abs(a - b) < 1e-3 * mm; }
bool alike(const BoardArea& a, const BoardArea& b) {
  return alike(a.from, b.from) && alike(a.to, b.to) && alike(a.near, b.near) && alike(a.far, b.far);
}
bool apart(const BoardArea& a, const BoardArea& b, Length gap) {
  const Length least = gap - 1e-3 * mm;
  return b.from - a.to >= least || a.from - b.to >= least || b.near - a.far >= least || a.near - b.far >= least;
}

/// Nothing overlaps anything, a kerf between blanks included, and everything lies on its board.
void check_places(const CuttingPlan& plan, const CuttingInput& in) {
  for (std::size_t i = 0; i < plan.blanks.size(); ++i) {
    const CutBlank& blank = plan.blanks[i];
    const Board& board = in.boards.at(blank.board);
    const BoardArea& a = blank.area;
    CHECK(alike(a.to - a.from, in.length));
    CHECK(alike(a.far - a.near, in.section));
    CHECK(a.from >= in.end_trim - 1e-3 * mm);
    CHECK(a.to <= board.length - in.end_trim + 1e-3 * mm);
    CHECK(a.near >= 0 * mm);
    CHECK(a.far <= board.width + 1e-3 * mm);
    CHECK(blank.layer >= 1);
    CHECK(blank.layer * in.section + (blank.layer - 1) * in.kerf <= board.thickness + 1e-3 * mm);
    CHECK(std::ranges::all_of(board.defects, [&](const BoardArea& defect) { return apart(a, defect, 0 * mm); }));
    CHECK(std::all_of(
        plan.blanks.begin(), plan.blanks.begin() + static_cast<std::ptrdiff_t>(i), [&](const CutBlank& other) {
          return other.board != blank.board || other.layer != blank.layer || apart(a, other.area, in.kerf);
        }));
  }
}

/// Saws as the cuts say. Each has to go through one piece from edge to edge; returns the pieces that are left.
std::vector<BoardArea> sawn(const CuttingPlan& plan, const CuttingInput& in, std::size_t board) {
  std::vector<BoardArea> pieces{{0 * mm, in.boards[board].length, 0 * mm, in.boards[board].width}};
  for (const Cut& cut : plan.cuts) {
    if (cut.board != board || cut.kind == Cut::Kind::resaw) continue;
    CAPTURE(cut.number);
    const bool along = cut.kind == Cut::Kind::rip;
    const BoardArea blade =
        along ? BoardArea{cut.from, cut.to, cut.at, cut.until} : BoardArea{cut.at, cut.until, cut.from, cut.to};
    CHECK((cut.until > cut.at || in.kerf == 0 * mm));
    CHECK(cut.until - cut.at <= in.kerf + 1e-3 * mm);
    const auto piece = std::ranges::find_if(pieces, [&](const BoardArea& p) {
      const bool from_edge_to_edge = along ? alike(p.from, blade.from) && alike(p.to, blade.to)
                                           : alike(p.near, blade.near) && alike(p.far, blade.far);
      const bool inside = along ? p.near <= blade.near + 1e-3 * mm && blade.far <= p.far + 1e-3 * mm
                                : p.from <= blade.from + 1e-3 * mm && blade.to <= p.to + 1e-3 * mm;
      return from_edge_to_edge && inside;
    });
    REQUIRE(piece != pieces.end());
    BoardArea first = *piece, second = *piece;
    (along ? first.far : first.to) = cut.at;
    (along ? second.near : second.from) = cut.until;
    pieces.erase(piece);
    for (const BoardArea& p : {first, second}) {
      if (p.to - p.from > 1e-3 * mm && p.far - p.near > 1e-3 * mm) pieces.push_back(p);
    }
  }
  return pieces;
}

/// Does the cut make an edge of a blank?
bool bounds_a_blank(const Cut& cut, const CuttingPlan& plan, const CuttingInput& in) {
  return std::ranges::any_of(plan.blanks, [&](const CutBlank& b) {
    if (b.board != cut.board) return false;
    const Length lower = (b.layer - 1) * (in.section + in.kerf);
    switch (cut.kind) {
      case Cut::Kind::rip:
        return alike(b.area.far, cut.at) || alike(b.area.near, cut.until);
      case Cut::Kind::resaw:
        return b.strip == cut.strip && (alike(lower + in.section, cut.at) || alike(lower, cut.until));
      case Cut::Kind::crosscut:
        if (b.strip != cut.strip) return false;
        [[fallthrough]];
      case Cut::Kind::across:
        return alike(b.area.to, cut.at) || alike(b.area.from, cut.until);
    }
    return false;
  });
}

void check_sawing(const CuttingPlan& plan, const CuttingInput& in) {
  for (std::size_t board = 0; board < in.boards.size(); ++board) {
    CAPTURE(board);
    const auto pieces = sawn(plan, in, board);
    for (const CutBlank& b : plan.blanks) {
      if (b.board != board) continue;
      CHECK(std::ranges::any_of(pieces, [&](const BoardArea& p) { return alike(p, b.area); }));
    }
  }
}

void check_order(const CuttingPlan& plan, const CuttingInput& in) {
  std::set<std::size_t> done;
  for (std::size_t i = 0; i < plan.cuts.size(); ++i) {
    const Cut& cut = plan.cuts[i];
    CAPTURE(cut.number);
    CHECK(cut.number == static_cast<int>(i) + 1);
    CHECK(bounds_a_blank(cut, plan, in));
    CHECK_FALSE(done.contains(cut.board));
    if (i + 1 < plan.cuts.size() && plan.cuts[i + 1].board != cut.board) done.insert(cut.board);
    if (i == 0 || plan.cuts[i - 1].board != cut.board) continue;
    const Cut& before = plan.cuts[i - 1];
    const auto place = [](const Cut& c) {
      return std::tuple{c.kind, c.strip, c.kind == Cut::Kind::rip ? c.from : 0 * mm, c.at};
    };
    CHECK(place(before) < place(cut));
  }
}

int layers_of(const Board& board, const CuttingInput& in) {
  int n = 0;
  while ((n + 1) * in.section + n * in.kerf <= board.thickness + 1e-4 * mm) ++n;
  return n;
}

/// Plain rows and columns from the near edge and the trimmed end; what lies on a defect is lost.
int rows_and_columns(const CuttingInput& in) {
  int out = 0;
  for (const Board& board : in.boards) {
    for (Length y = 0 * mm; y + in.section <= board.width + 1e-4 * mm; y += in.section + in.kerf) {
      for (Length x = in.end_trim; x + in.length <= board.length - in.end_trim + 1e-4 * mm;
           x += in.length + in.kerf) {
        const BoardArea cell{x, x + in.length, y, y + in.section};
        if (std::ranges::all_of(board.defects, [&](const BoardArea& d) { return apart(cell, d, 0 * mm); })) {
          out += layers_of(board, in);
        }
      }
    }
  }
  return out;
}

std::size_t blanks_of(const CuttingInput& in) { return cutting_plan(in).blanks.size(); }

CuttingInput mirrored(CuttingInput in, bool along) {
  for (Board& board : in.boards) {
    for (BoardArea& d : board.defects) {
      d = along ? BoardArea{board.length - d.to, board.length - d.from, d.near, d.far}
                : BoardArea{d.from, d.to, board.width - d.far, board.width - d.near};
    }
  }
  return in;
}

}  // namespace

// The figures of these boards are reckoned by hand: section 30, length 200, kerf 3, end trim 20 mm.

TEST_CASE("a clean board is sawn into rows and columns with the fewest cuts") {
  // Along 1000 − 2·20 = 960: four take 4·200 + 3·3 = 809, five 1012. Across 100: three take 96, four 129.
  const CuttingPlan plan = cutting_plan(one_board(1000 * mm, 100 * mm));
  CHECK(places(plan) == Texts{"1.1 20-220 x 0-30", "1.2 223-423 x 0-30", "1.3 426-626 x 0-30", "1.4 629-829 x 0-30",
                              "2.1 20-220 x 33-63", "2.2 223-423 x 33-63", "2.3 426-626 x 33-63",
                              "2.4 629-829 x 33-63", "3.1 20-220 x 66-96", "3.2 223-423 x 66-96",
                              "3.3 426-626 x 66-96", "3.4 629-829 x 66-96"});
  // No rip at the near edge, which is there; none but one kerf between neighbours; a crosscut less than blanks a
  // strip.
  CHECK(cuts(plan) == Texts{"across 17-20 (0-100)", "across 829-832 (0-100)", "rip 30-33 (20-829)",
                            "rip 63-66 (20-829)", "rip 96-99 (20-829)", "crosscut 220-223 (0-30)",
                            "crosscut 423-426 (0-30)", "crosscut 626-629 (0-30)", "crosscut 220-223 (33-63)",
                            "crosscut 423-426 (33-63)", "crosscut 626-629 (33-63)", "crosscut 220-223 (66-96)",
                            "crosscut 423-426 (66-96)", "crosscut 626-629 (66-96)"});
}

TEST_CASE("wood that fits to a hair is cut without a cut for an edge that is there") {
  // 3·30 + 2·3 = 96 across, 2·200 + 3 = 403 along, no end trim: two rips and a crosscut in each strip.
  CuttingInput in = one_board(403 * mm, 96 * mm);
  in.end_trim = 0 * mm;
  CHECK(cuts(cutting_plan(in)) == Texts{"rip 30-33 (0-403)", "rip 63-66 (0-403)", "crosscut 200-203 (0-30)",
                                        "crosscut 200-203 (33-63)", "crosscut 200-203 (66-96)"});
  // A millimetre more is less than a kerf: the blade takes what there is.
  in.boards.front().width = 97 * mm;
  CHECK(cuts(cutting_plan(in)).at(2) == "rip 96-97 (0-403)");
  in.boards.front().width = 95.9 * mm;
  CHECK(blanks_of(in) == 4);
}

TEST_CASE("inches that fit exactly are not lost to arithmetic") {
  // 6·(1-1/4) + 5·(1/8) = 8-1/8 across, 7·(5-3/8) + 6·(1/8) = 38-3/8 along, 3·(1-1/4) + 2·(1/8) = 4 thick.
  CuttingInput in = one_board(38.375 * inch + 2 * 0.7 * inch, 8.125 * inch);
  in.section = 1.25 * inch;
  in.length = 5.375 * inch;
  in.kerf = 0.125 * inch;
  in.end_trim = 0.7 * inch;
  in.boards.front().thickness = 4 * inch;
  CHECK(blanks_of(in) == 6 * 7 * 3);
}

TEST_CASE("strips are shifted across and blanks along to get past a defect") {
  // A crack from 30 to 34 across: the second strip begins at 34, the third at 67 and ends at 97 of 100.
  const CuttingPlan past = cutting_plan(one_board(1000 * mm, 100 * mm, {{400 * mm, 450 * mm, 30 * mm, 34 * mm}}));
  CHECK(past.blanks.size() == 12);
  CHECK(places(past).at(4) == "2.1 20-220 x 34-64");
  // The first rip's kerf ends at 33; another shaves the millimetre that is left.
  CHECK(cuts(past).at(2) == "rip 30-33 (20-829)");
  CHECK(cuts(past).at(3) == "rip 33-34 (20-829)");
  // A knot in the middle: the strip over it begins anew where it ends, and has three blanks for four.
  const CuttingPlan knot = cutting_plan(one_board(1000 * mm, 100 * mm, {{400 * mm, 450 * mm, 45 * mm, 55 * mm}}));
  CHECK(knot.blanks.size() == 11);
  const Texts around = places(knot);
  CHECK(Texts(around.begin() + 4, around.begin() + 7) ==
        Texts{"2.1 20-220 x 33-63", "2.2 450-650 x 33-63", "2.3 653-853 x 33-63"});
}

TEST_CASE("of two ways that give as many blanks the one with fewer rips is taken") {
  // Cracks to 35 and to 71 across cost a strip over them a blank. The second strip may begin at 35, or at 38 where a
  // scratch beside all blanks ends; a kerf behind 38 + 30 is 71, where the third begins: one rip serves both.
  const CuttingPlan plan = cutting_plan(one_board(1000 * mm, 101 * mm,
                                                  {{400 * mm, 450 * mm, 30 * mm, 35 * mm},
                                                   {400 * mm, 450 * mm, 68 * mm, 71 * mm},
                                                   {900 * mm, 950 * mm, 36 * mm, 38 * mm}}));
  CHECK(plan.blanks.size() == 12);
  Texts rips = cuts(plan);
  std::erase_if(rips, [](const std::string& cut) { return !cut.starts_with("rip"); });
  CHECK(rips == Texts{"rip 30-33 (20-829)", "rip 35-38 (20-829)", "rip 68-71 (20-829)"});
}

TEST_CASE("a board is parted when its halves want different rips") {
  // 63 wide holds two strips, 0-30 and 33-63. Up to 426 both edges are bad, 17 mm and 16 mm in: one strip, 17-47.
  // Ripped whole: 17-47 over four lengths, or two strips over the two good lengths: 4. Parted: 2 + 2·2 = 6.
  const CuttingPlan plan = cutting_plan(
      one_board(1000 * mm, 63 * mm, {{0 * mm, 426 * mm, 0 * mm, 17 * mm}, {0 * mm, 426 * mm, 47 * mm, 63 * mm}}));
  CHECK(places(plan) == Texts{"1.1 20-220 x 17-47", "1.2 223-423 x 17-47", "2.1 426-626 x 0-30", "2.2 629-829 x 0-30",
                              "3.1 426-626 x 33-63", "3.2 629-829 x 33-63"});
  CHECK(cuts(plan) == Texts{"across 17-20 (0-63)", "across 423-426 (0-63)", "across 829-832 (0-63)",
                            "rip 14-17 (20-423)", "rip 47-50 (20-423)", "rip 30-33 (426-829)",
                            "crosscut 220-223 (17-47)", "crosscut 626-629 (0-30)", "crosscut 626-629 (33-63)"});
}

TEST_CASE("a thick board is resawn into layers, a board that is too thin gives nothing") {
  CuttingInput in = one_board(300 * mm, 30 * mm);
  struct Row {
    double thickness;
    std::size_t blanks;
    Texts resaws;
  };
  for (const Row& row :
       {Row{29.9, 0, {}}, Row{30, 1, {}}, Row{62.9, 1, {"resaw 30-33 (20-220)"}},
        Row{63, 2, {"resaw 30-33 (20-220)"}}, Row{65, 2, {"resaw 30-33 (20-220)", "resaw 63-65 (20-220)"}}}) {
    CAPTURE(row.thickness);
    in.boards.front().thickness = row.thickness * mm;
    const CuttingPlan plan = cutting_plan(in);
    CHECK(plan.blanks.size() == row.blanks);
    Texts resaws = cuts(plan);
    std::erase_if(resaws, [](const std::string& cut) { return !cut.starts_with("resaw"); });
    CHECK(resaws == row.resaws);
  }
}

TEST_CASE("sawing stops when there are enough, and the rest of the board stays whole") {
  CuttingInput in = one_board(1000 * mm, 100 * mm);
  in.count = 5;
  const CuttingPlan plan = cutting_plan(in);
  CHECK(plan.missing() == 0);
  CHECK(places(plan).back() == "2.1 20-220 x 33-63");
  CHECK(cuts(plan) == Texts{"across 17-20 (0-100)", "across 829-832 (0-100)", "rip 30-33 (20-829)",
                            "rip 63-66 (20-829)", "crosscut 220-223 (0-30)", "crosscut 423-426 (0-30)",
                            "crosscut 626-629 (0-30)", "crosscut 220-223 (33-63)"});
  in.count = 0;
  CHECK(cutting_plan(in).cuts.empty());
  // The near strips are short ones here; one further in has all three.
  CuttingInput short_ones = one_board(1000 * mm, 100 * mm, {{260 * mm, 1000 * mm, 0 * mm, 60 * mm}});
  short_ones.count = 3;
  CHECK(places(cutting_plan(short_ones)) ==
        Texts{"1.1 20-220 x 66-96", "1.2 223-423 x 66-96", "1.3 426-626 x 66-96"});
}

TEST_CASE("boards are used in their order, or the fullest first when the pieces are to match") {
  CuttingInput in = one_board(300 * mm, 100 * mm);  // three blanks
  in.boards.push_back({"B2", 1000 * mm, 100 * mm, 30 * mm, {}});
  in.count = 10;
  const CuttingPlan plan = cutting_plan(in);
  CHECK(plan.blanks.front().board == 0);
  CHECK(std::ranges::count(plan.blanks, std::size_t{1}, &CutBlank::board) == 7);
  in.matched = true;
  const CuttingPlan matched = cutting_plan(in);
  CHECK(std::ranges::count(matched.blanks, std::size_t{1}, &CutBlank::board) == 10);
  in.count = 16;  // 12 + 3 there are
  const CuttingPlan all = cutting_plan(in);
  CHECK(all.blanks.front().board == 1);
  CHECK(all.blanks.back().board == 0);
  CHECK(all.missing() == 1);
}

TEST_CASE("the witness is one blank more, from the middle of a strip") {
  CuttingInput in = one_board(1000 * mm, 100 * mm);
  in.witness = true;
  in.count = 11;
  const CuttingPlan plan = cutting_plan(in);
  CHECK(plan.blanks.size() == 12);
  REQUIRE(plan.witness);
  CHECK(places(plan).at(*plan.witness) == "1.2 223-423 x 0-30");  // as near to 424.5 as its neighbour
  // Strips of two have no middle: of 2·2 blanks the third.
  in.boards = {{"B1", 450 * mm, 63 * mm, 30 * mm, {}}};
  in.count = 3;
  CHECK(cutting_plan(in).witness == std::size_t{2});
  // A strip of three, interrupted: 20-220, 600-800, 803-1003; its middle is 511.5, and 700 is nearer than 120.
  in = one_board(1100 * mm, 30 * mm, {{300 * mm, 600 * mm, 0 * mm, 30 * mm}});
  in.witness = true;
  CHECK(cutting_plan(in).witness == std::size_t{1});
  in.witness = false;
  CHECK_FALSE(cutting_plan(in).witness);
  in.boards.clear();
  in.witness = true;
  in.count = 2;
  CHECK(cutting_plan(in).missing() == 3);
  CHECK_FALSE(cutting_plan(in).witness);
}

TEST_CASE("blanks are where saw, board and defects let them be, and the cuts in their order free them") {
  RandomNumbers random{41};
  std::size_t blanks = 0;
  for (int n = 0; n < 600; ++n) {
    CAPTURE(n);
    CuttingInput in = random_case(random, workshop);
    if (random.yes()) in.count = random.whole(0, 30);
    in.witness = random.yes();
    in.matched = random.yes();
    const CuttingPlan plan = cutting_plan(in);
    CHECK(plan.missing() >= 0);
    check_places(plan, in);
    check_sawing(plan, in);
    check_order(plan, in);
    blanks += plan.blanks.size();
  }
  CHECK(blanks > 8000);
}

TEST_CASE("a plan never gives less than rows and columns") {
  RandomNumbers random{42};
  int more = 0;
  for (int n = 0; n < 2000; ++n) {
    CAPTURE(n);
    const CuttingInput in = random_case(random, workshop);
    const int plain = rows_and_columns(in);
    const auto found = static_cast<int>(blanks_of(in));
    CHECK(found >= plain);
    more += found > plain ? 1 : 0;
  }
  CHECK(more > 500);
}

TEST_CASE("a board turned round or over gives as many blanks") {
  RandomNumbers random{43};
  for (int n = 0; n < 1000; ++n) {
    CAPTURE(n);
    const CuttingInput in = random_case(random, workshop);
    const std::size_t blanks = blanks_of(in);
    CHECK(blanks_of(mirrored(in, true)) == blanks);
    CHECK(blanks_of(mirrored(in, false)) == blanks);
  }
}

TEST_CASE("more kerf, more trim, a larger blank or a further defect never give more blanks") {
  RandomNumbers random{44};
  for (int n = 0; n < 1000; ++n) {
    CAPTURE(n);
    const CuttingInput in = random_case(random, workshop);
    const std::size_t blanks = blanks_of(in);
    const Length step = random.whole(1, 8) * 0.5 * mm;
    for (Length CuttingInput::*measure :
         {&CuttingInput::kerf, &CuttingInput::end_trim, &CuttingInput::section, &CuttingInput::length}) {
      CuttingInput worse = in;
      worse.*measure += step;
      CHECK(blanks_of(worse) <= blanks);
    }
    CuttingInput worse = in;
    worse.boards.front().defects.push_back(
        {10 * mm, 10 * mm + random.whole(1, 90) * mm, 5 * mm, 5 * mm + random.whole(1, 10) * mm});
    CHECK(blanks_of(worse) <= blanks);
  }
}

TEST_CASE("as many as are wanted are found whenever the boards hold them") {
  RandomNumbers random{45};
  for (int n = 0; n < 1000; ++n) {
    CAPTURE(n);
    CuttingInput in = random_case(random, workshop);
    const auto all = static_cast<int>(blanks_of(in));
    in.count = random.whole(0, all + 3);
    in.matched = random.yes();
    CHECK(static_cast<int>(blanks_of(in)) == std::min(all, in.count));
  }
}

#include "sheet/sheet/sheets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <regex>
#include <set>

#include "cutting_fixture.h"
#include "plan/wood/blank_place.h"
#include "sheet/mark/canvas.h"
#include "sheet/sheet/cutting_parts.h"

using namespace blankwright;
using table_pages::count_of;
using table_pages::ink;
using table_pages::shared_fonts;
using table_pages::texts_of;

namespace {

/// A drawing as it is found on paper.
struct Drawn {
  std::size_t page = 0;
  std::string caption;        ///< "Board T4: …"
  int along = 0, across = 0;  ///< reductions
  Box outline{};
};

std::vector<Drawn> drawings_on(const std::vector<Page>& pages) {
  std::vector<Drawn> out;
  for (std::size_t n = 0; n < pages.size(); ++n) {
    std::vector<Drawn> here;
    for (const Text& text : texts_of(pages.at(n))) {
      if (text.words.starts_with("Board ")) here.push_back({n, text.words});
      std::smatch scale;
      if (std::regex_match(text.words, scale, std::regex{"Scale 1:(\\d+)(, across 1:(\\d+))?"})) {
        here.back().along = std::stoi(scale[1]);
        here.back().across = std::stoi(scale[3].matched ? scale[3] : scale[1]);
      }
    }
    const auto outlines = rectangles_of(pages.at(n), wide_line);
    REQUIRE(outlines.size() == here.size());
    for (std::size_t i = 0; i < here.size(); ++i) here.at(i).outline = outlines.at(i);
    out.insert(out.end(), here.begin(), here.end());
  }
  return out;
}

const Drawn& drawing_of(const std::vector<Drawn>& all, const Board& board) {
  const auto found = std::find_if(all.begin(), all.end(),
                                  [&](const Drawn& d) { return d.caption.starts_with("Board " + board.name + ":"); });
  REQUIRE(found != all.end());
  return *found;
}

bool alike(Length a, Length b) { return abs(a - b) < 0.001 * mm; }

/// Where a stretch of the board lies on paper: along the grain to the right, the near edge below.
Box on_paper(const Drawn& d, const BoardArea& a) {
  return {d.outline.x + a.from / d.along, d.outline.bottom() - a.far / d.across, (a.to - a.from) / d.along,
          (a.far - a.near) / d.across};
}

bool has_rectangle(const Page& page, const Box& wanted) {
  const auto all = rectangles_of(page, narrow_line);
  return std::any_of(all.begin(), all.end(), [&](const Box& b) {
    return alike(b.x, wanted.x) && alike(b.y, wanted.y) && alike(b.width, wanted.width) &&
           alike(b.height, wanted.height);
  });
}

bool is_number(const Text& text) {
  return text.face == Face::bold && !text.words.empty() &&
         text.words.find_first_not_of("0123456789") == std::string::npos;
}

/// "7–9, 12", or a line of it.
bool is_list(const std::string& words) {
  return std::regex_match(words, std::regex{"\\d+(–\\d+)?(, \\d+(–\\d+)?)*,?"});
}

/// Does it stand in a drawing of a board, or close round it?
bool is_in_a_drawing(const Text& text, std::size_t page, const std::vector<Drawn>& drawings) {
  return std::ranges::any_of(drawings, [&](const Drawn& d) {
    const Box o = d.outline, round{o.x - 10 * mm, o.y - 10 * mm, o.width + 20 * mm, o.height + 17 * mm};
    const Box letters = ink(text);
    return d.page == page && letters.x >= round.x && letters.right() <= round.right() && letters.y >= round.y &&
           letters.bottom() <= round.bottom();
  });
}

/// The cuts' numbers in the drawings, those listed as not numbered there, and those of the list of cuts.
struct Numbers {
  std::multiset<int> drawn, unnumbered, listed;
};

Numbers numbers_on(const std::vector<Page>& pages) {
  Numbers out;
  std::string notes;
  const std::regex listed{"(\\d+)(–(\\d+))?"};
  const auto drawings = drawings_on(pages);
  const auto take = [&](const Text& text, std::size_t page) {
    const double capitals = capitals_of(text);
    if (is_number(text) && is_in_a_drawing(text, page, drawings)) {
      out.drawn.insert(std::stoi(text.words));
    } else if (text.face == Face::bold && capitals > 2.75 && capitals < 3.75 && is_list(text.words)) {
      for (std::sregex_iterator it{text.words.begin(), text.words.end(), listed}, end; it != end; ++it) {
        const int first = std::stoi((*it)[1]), last = (*it)[3].matched ? std::stoi((*it)[3]) : first;
        for (int n = first; n <= last; ++n) out.listed.insert(n);
      }
    } else if (text.face == Face::regular && std::abs(capitals - 2.5) < 0.01) {
      notes += text.words + " ";
    }
  };
  for (std::size_t page = 0; page < pages.size(); ++page) {
    for (const Text& text : texts_of(pages.at(page))) take(text, page);
  }
  const std::regex range{"(Across the board|Rip|Resaw|Crosscut)(, strip \\d+)?: (\\d+)(–(\\d+))?"};
  for (std::sregex_iterator it{notes.begin(), notes.end(), range}, end; it != end; ++it) {
    const int first = std::stoi((*it)[3]), last = (*it)[5].matched ? std::stoi((*it)[5]) : first;
    for (int n = first; n <= last; ++n) out.unnumbered.insert(n);
  }
  return out;
}

std::multiset<int> numbers_of(const CuttingPlan& plan) {
  std::multiset<int> out;
  for (const Cut& cut : plan.cuts) out.insert(cut.number);
  return out;
}

void check_geometry(const std::vector<Page>& pages, const CuttingPlan& plan) {
  const auto drawings = drawings_on(pages);
  for (std::size_t i = 0; i < plan.boards.size(); ++i) {
    const Board& board = plan.boards.at(i);
    CAPTURE(board.name);
    const auto mine = [&](const CutBlank& b) { return b.board == i; };
    if (std::none_of(plan.blanks.begin(), plan.blanks.end(), mine)) continue;
    const Drawn& d = drawing_of(drawings, board);
    CAPTURE(d.along);
    CHECK(alike(d.outline.width, board.length / d.along));
    CHECK(alike(d.outline.height, board.width / d.across));
    for (const BoardArea& defect : board.defects) CHECK(has_rectangle(pages.at(d.page), on_paper(d, defect)));
    for (const CutBlank& b : plan.blanks) {
      if (b.board == i) CHECK(has_rectangle(pages.at(d.page), on_paper(d, b.area)));
    }
  }
}

/// Each cut's kerf is drawn where the plan has it, and its number stands on it or hangs on a line from it.
void check_cuts(const std::vector<Page>& pages, const CuttingPlan& plan) {
  const auto drawings = drawings_on(pages);
  for (const Cut& cut : plan.cuts) {
    if (cut.kind == Cut::Kind::resaw) continue;
    CAPTURE(cut.number);
    const Drawn& d = drawing_of(drawings, plan.boards.at(cut.board));
    const bool rip = cut.kind == Cut::Kind::rip;
    const BoardArea area =
        rip ? BoardArea{cut.from, cut.to, cut.at, cut.until} : BoardArea{cut.at, cut.until, cut.from, cut.to};
    const Box band = on_paper(d, area);
    const Spot middle{band.x + band.width / 2, band.y + band.height / 2};
    bool sawn = false, numbered = true;
    for (const Item& item : pages.at(d.page).items) {
      Box box{};
      if (const auto* fill = std::get_if<Fill>(&item.mark); fill != nullptr && fill->ink == Ink::black) {
        box = box_of(fill->paths.front());
      } else if (const auto* stroke = std::get_if<Stroke>(&item.mark); stroke != nullptr && !stroke->closed) {
        box = box_of(stroke->paths.front());
      } else {
        continue;
      }
      // Where the kerf would be finer than a line it is a line along its middle.
      sawn = sawn || (alike(box.x + box.width / 2, middle.x) && alike(box.y + box.height / 2, middle.y) &&
                      alike(rip ? box.width : box.height, rip ? band.width : band.height));
    }
    for (const Text& text : texts_of(pages.at(d.page))) {
      if (!is_number(text) || text.words != std::to_string(cut.number)) continue;
      if (!is_in_a_drawing(text, d.page, drawings)) continue;
      const Box box = ink(text);
      const bool on_it = box.x <= middle.x && middle.x <= box.right() && band.y <= box.y && box.y <= band.bottom();
      const bool on_rip = box.y <= middle.y && middle.y <= box.bottom() && band.x <= box.x && box.x <= band.right();
      bool led = false;
      for (const Item& item : pages.at(d.page).items) {
        const auto* stroke = std::get_if<Stroke>(&item.mark);
        if (stroke == nullptr || stroke->closed || stroke->paths.front().size() != 3) continue;
        const Spot from = stroke->paths.front().front(), to = stroke->paths.front().back();
        const bool leaves = rip ? alike(from.y, middle.y) : alike(from.x, middle.x);
        const Length beside = std::max({box.x - to.x, to.x - box.right(), 0 * mm});
        const Length over = std::max({box.y - to.y, to.y - box.bottom(), 0 * mm});
        led = led || (leaves && beside < 1 * mm && over < 1 * mm);
      }
      numbered = rip ? on_rip || led : on_it || led;
    }
    CHECK(sawn);
    CHECK(numbered);
  }
}

void check_all(const Sawing& sawing) {
  const SawnOrder order{sawing};
  const Dossier d = order.dossier();
  const CuttingPlan& plan = order.cutting();
  const auto pages = cutting_sheets(d, shared_fonts());
  for (const Page& page : pages) check_words(page, d.sheet_template.margin.value);
  check_geometry(pages, plan);
  check_cuts(pages, plan);

  const Numbers numbers = numbers_on(pages);
  std::multiset<int> drawn = numbers.drawn;
  drawn.insert(numbers.unnumbered.begin(), numbers.unnumbered.end());
  CHECK(drawn == numbers_of(plan));
  CHECK(numbers.listed == numbers_of(plan));

  std::string all;
  for (const Text& text : texts_of(pages)) all += text.words + "\n";
  for (std::size_t n = 0; n < d.blanks.size(); ++n) {
    const std::string id = d.blanks.at(n).shown();
    CAPTURE(id);
    const bool sawn = cut_of(plan, n, static_cast<std::size_t>(piece_count(d))) != nullptr;
    const auto first = all.find(id);
    CHECK((first != std::string::npos) == sawn);
    if (sawn) CHECK(all.find(id, first + 1) == std::string::npos);
  }
}

CuttingInput random_sawing(std::mt19937& random) {
  const auto whole = [&](int low, int high) {
    return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
  };
  CuttingInput in;
  in.section = whole(18, 60) * mm;
  in.length = whole(40, 220) * mm;
  in.count = whole(1, 90);
  in.witness = true;
  in.kerf = whole(0, 4) * mm;
  in.end_trim = whole(0, 30) * mm;
  const int boards = whole(1, 5);
  for (int n = 1; n <= boards; ++n) {
    const int length = whole(250, 3200), width = whole(60, 400);
    Board b = board("B" + std::to_string(n), length, width, whole(20, 110));
    for (int k = whole(0, 3); k > 0; --k) {
      const int from = whole(0, length - 60), near = whole(0, width - 20);
      b.defects.push_back(area(from, from + whole(5, 60), near, whole(near + 5, width)));
    }
    in.boards.push_back(std::move(b));
  }
  return in;
}

}  // namespace

TEST_CASE("an order without boards has no cutting sheet") {
  const SawnOrder order{{.input = two_boards(), .boards = false}};
  CHECK(cutting_sheets(order.dossier(), shared_fonts()).empty());
}

TEST_CASE(
    "boards, defects, blanks and cuts stand to scale where the plan has them, on either paper in either units") {
  for (const bool inches : {false, true}) {
    for (const bool letter : {false, true}) {
      CAPTURE(inches);
      CAPTURE(letter);
      check_all({.input = two_boards(), .inches = inches, .letter = letter});
    }
  }
}

TEST_CASE("whatever the boards, drawings are to scale, words clear of each other, nothing is lost or said twice") {
  std::mt19937 random{20270604};
  for (int round = 0; round < 40; ++round) {
    CAPTURE(round);
    Sawing sawing{.input = random_sawing(random)};
    sawing.inches = random() % 2 == 0;
    sawing.letter = random() % 2 == 0;
    sawing.margin = std::array{8, 12, 30}.at(random() % 3);
    check_all(sawing);
  }
}

TEST_CASE("a board stands at the largest whole reduction that its page holds") {
  // Between margins of 12 mm A4 has 186 mm, of which 2 × 10 mm are kept for numbers: 820/166 = 4.9, 3000/166 = 18.1.
  for (const auto& [length, reduction] : {std::pair{820.0, 5}, {3000.0, 19}, {166.0, 1}}) {
    CAPTURE(length);
    CuttingInput in = two_boards(3);
    in.boards = {board("T4", length, 60, 52)};
    in.end_trim = 0 * mm;
    const SawnOrder order{{.input = in}};
    const auto drawings = drawings_on(cutting_sheets(order.dossier(), shared_fonts()));
    REQUIRE(drawings.size() == 1);
    CHECK(drawings.front().along == reduction);
  }
}

TEST_CASE("a long board is drawn larger across, so that every blank of it has its position written in") {
  CuttingInput in = two_boards(50);
  in.boards = {board("long ash", 3000, 165, 52)};
  const SawnOrder order{{.input = in}};
  const auto pages = cutting_sheets(order.dossier(), shared_fonts());
  const auto drawings = drawings_on(pages);
  REQUIRE(drawings.size() == 1);
  CHECK(drawings.front().across < drawings.front().along);
  const Box outline = drawings.front().outline;
  for (const CutBlank& blank : order.cutting().blanks) {
    const std::string position = position_text(order.cutting(), blank);
    CAPTURE(position);
    const auto texts = texts_of(pages.front());
    const bool written = std::any_of(texts.begin(), texts.end(), [&](const Text& t) {
      return (t.words == position || t.words == "W " + position || t.words == "W") &&
             table_pages::overlap(ink(t), on_paper(drawings.front(), blank.area)) && t.at.y < outline.bottom();
    });
    CHECK(written);
  }
}

TEST_CASE("two boards share a page, many go on over pages under the head, each once") {
  const SawnOrder two{{.input = two_boards()}};
  const auto drawn = drawings_on(cutting_sheets(two.dossier(), shared_fonts()));
  REQUIRE(drawn.size() == 2);
  CHECK(drawn.at(0).page == drawn.at(1).page);

  CuttingInput in = two_boards(280);
  in.boards.clear();
  for (int n = 1; n <= 12; ++n) in.boards.push_back(board("B" + std::to_string(n), 900, 200, 52));
  const SawnOrder order{{.input = in}};
  const auto pages = cutting_sheets(order.dossier(), shared_fonts());
  CHECK(pages.size() > 4);
  CHECK(drawings_on(pages).size() == 12);
  for (const Page& page : pages) CHECK(count_of(texts_of(page), "TA-0147") == 1);
  for (std::size_t n = 1; n < pages.size(); ++n)
    CHECK(count_of(texts_of(pages.at(n)), "Cutting plan, continued") == 1);
  check_all({.input = in});
}

TEST_CASE("the witness stands in its rectangle with its mark and its word") {
  const SawnOrder order{{.input = two_boards()}};
  const CuttingPlan& plan = order.cutting();
  const auto pages = cutting_sheets(order.dossier(), shared_fonts());
  REQUIRE(plan.witness);
  const CutBlank& witness = plan.blanks.at(*plan.witness);
  const auto drawings = drawings_on(pages);
  const Drawn& d = drawing_of(drawings, plan.boards.at(witness.board));
  const Box place = on_paper(d, witness.area);
  std::string inside;
  for (const Text& text : texts_of(pages.at(d.page))) {
    const Box box = ink(text);
    if (box.x >= place.x && box.right() <= place.right() && box.y >= place.y && box.bottom() <= place.bottom())
      inside += text.words + " ";
  }
  CHECK(inside.find("W " + position_text(plan, witness)) != std::string::npos);
  CHECK(inside.find("Witness") != std::string::npos);
  CHECK(inside.find(order.dossier().blanks.back().shown()) != std::string::npos);
}

TEST_CASE("what the boards do not yield is said in bold, and a board that is not needed by its name") {
  const SawnOrder short_of{{.input = two_boards(40)}};
  const int missing = short_of.cutting().missing();
  REQUIRE(missing > 0);
  const auto texts = texts_of(cutting_sheets(short_of.dossier(), shared_fonts()));
  const std::string line = fmt::format("MISSING, more wood is needed for: {}", missing);
  CHECK(std::any_of(texts.begin(), texts.end(), [&](const Text& t) {
    return t.words == line && t.face == Face::bold && capitals_of(t) >= 3.5 - 0.001;
  }));

  const SawnOrder enough{{.input = two_boards(3)}};
  REQUIRE(enough.cutting().missing() == 0);
  const auto words = texts_of(cutting_sheets(enough.dossier(), shared_fonts()));
  CHECK(std::none_of(words.begin(), words.end(), [](const Text& t) { return t.words.starts_with("MISSING"); }));
  CHECK(count_of(words, "Not needed: T7") == 1);
}

TEST_CASE("a stop is given as the saw is set, and the cut's place from the edge that it is measured from") {
  // One strip along the near edge of a board 60 mm wide, ripped at 46 mm; by hand.
  CuttingInput in = two_boards(2);
  in.boards = {board("T4", 820, 60, 46)};
  for (const bool inches : {false, true}) {
    const SawnOrder order{{.input = in, .inches = inches}};
    const auto texts = texts_of(cutting_sheets(order.dossier(), shared_fonts()));
    // 46 mm = 1.811 in, which is no 64th of an inch (115.9 of them).
    const std::string stop = inches ? "1.811" : "46.0";
    CHECK(count_of(texts, stop) == 1);
    CHECK(count_of(texts, "Rip") == 1);
    CHECK(count_of(texts, stop + " from the near edge") == 1);
  }
  in.section = 44.45 * mm;  // 1-3/4 in
  in.boards = {board("T4", 820, 60, 46)};
  const SawnOrder order{{.input = in, .inches = true}};
  CHECK(count_of(texts_of(cutting_sheets(order.dossier(), shared_fonts())), "1-3/4 from the near edge") == 1);
}

TEST_CASE("cuts of one stop setting stand in one row, each cut in one row alone") {
  // Two strips of a board without an end trimmed away: every blank is 126 mm long, so all crosscuts have one stop.
  CuttingInput in = two_boards(6);
  in.boards = {board("T4", 820, 110, 46)};
  in.boards.front().defects.clear();
  const SawnOrder order{{.input = in}};
  const CuttingPlan& plan = order.cutting();
  const auto settings = stop_settings(plan);
  std::multiset<int> numbers;
  for (const StopSetting& setting : settings) {
    for (const Cut* cut : setting.cuts) {
      numbers.insert(cut->number);
      CHECK(cut->kind == setting.kind);
      CHECK(cut->board == setting.board);
    }
  }
  CHECK(numbers == numbers_of(plan));
  int crosscuts = 0;
  for (const StopSetting& setting : settings) {
    if (setting.kind != Cut::Kind::crosscut || setting.cuts.size() < 2) continue;
    ++crosscuts;
    CHECK(alike(setting.stop, plan.length));
  }
  CHECK(crosscuts == 1);
  CHECK(settings.size() < plan.cuts.size());
}

TEST_CASE("a draft shows where blanks are sawn, and no ID") {
  const SawnOrder order{{.input = two_boards(), .draft = true}};
  const auto pages = cutting_sheets(order.dossier(), shared_fonts());
  check_geometry(pages, order.cutting());
  const auto texts = texts_of(pages);
  CHECK(count_of(texts, "1-1") == 2);
  for (const Text& text : texts) CHECK(!BlankId::read(text.words));
}

TEST_CASE("layers of a thick board have an ID each, and resaws are named by strip") {
  CuttingInput in = two_boards(12);
  in.boards = {board("T9", 700, 110, 101)};  // two layers of 46 mm and a kerf of 3 mm are 95 mm
  const SawnOrder order{{.input = in}};
  const auto& cuts = order.cutting().cuts;
  REQUIRE(std::any_of(cuts.begin(), cuts.end(), [](const Cut& c) { return c.kind == Cut::Kind::resaw; }));
  check_all({.input = in});
  CHECK(!numbers_on(cutting_sheets(order.dossier(), shared_fonts())).unnumbered.empty());
}

TEST_CASE("a board's long name finds room at its drawing, in the list of cuts and in the list of blanks") {
  CuttingInput in = two_boards(30);
  in.boards.front().name = "the wide plank from behind the stove, second from the wall, with the bark still on it";
  const SawnOrder order{{.input = in, .inches = true, .margin = 30}};
  const Dossier d = order.dossier();
  using Sheets = std::vector<Page> (*)(const Dossier&, const FontMetrics&);
  for (const Sheets sheets : {Sheets{cutting_sheets}, Sheets{blank_lists}}) {
    for (const Page& page : sheets(d, shared_fonts())) check_words(page, d.sheet_template.margin.value);
  }
}

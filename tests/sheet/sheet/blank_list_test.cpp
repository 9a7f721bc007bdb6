#include "sheet/sheet/sheets.h"

#include <algorithm>

#include "cutting_fixture.h"
#include "plan/wood/blank_place.h"

using namespace blankwright;
using table_pages::count_of;
using table_pages::ink;
using table_pages::shared_fonts;
using table_pages::texts_of;
using table_pages::words_of;

namespace {

/// The words of the row that an ID stands in, from left to right.
std::string row_of(const Page& page, const Text& id) {
  std::string row;
  for (const Text& text : texts_of(page)) {
    if (abs(text.at.y - id.at.y) < 5 * mm) row += text.words + " ";  // a row is 12 mm high
  }
  return row;
}

/// The cells of a page that stand between two upright rules with no word in them.
std::vector<Box> boxes_to_tick(const Page& page) {
  std::vector<Box> out;
  for (const Item& item : page.items) {
    const auto* stroke = std::get_if<Stroke>(&item.mark);
    if (stroke == nullptr || stroke->closed) continue;
    if (stroke->paths.front().front().y < 36 * mm) continue;  // the sign in the head
    for (std::size_t i = 1; i < stroke->paths.size(); ++i) {
      const Path& left = stroke->paths.at(i - 1);
      const Box box{left.front().x, left.front().y, stroke->paths.at(i).front().x - left.front().x,
                    left.back().y - left.front().y};
      const auto texts = texts_of(page);
      if (std::none_of(texts.begin(), texts.end(), [&](const Text& t) { return table_pages::overlap(ink(t), box); }))
        out.push_back(box);
    }
  }
  return out;
}

}  // namespace

TEST_CASE("every blank stands once in the list of blanks, its ID 5 to 7 mm high, with its place on the boards") {
  // Height of IDs: common practice, no source.
  for (const bool letter : {false, true}) {
    for (const int margin : {8, 12, 30}) {
      CAPTURE(letter);
      CAPTURE(margin);
      const SawnOrder order{{.input = two_boards(), .letter = letter, .margin = margin}};
      const Dossier d = order.dossier();
      const auto pages = blank_lists(d, shared_fonts());
      for (const Page& page : pages) check_words(page, d.sheet_template.margin.value);
      const auto pieces = static_cast<std::size_t>(piece_count(d));
      for (std::size_t n = 0; n < d.blanks.size(); ++n) {
        const std::string id = d.blanks.at(n).shown();
        CAPTURE(id);
        int found = 0;
        for (const Page& page : pages) {
          for (const Text& text : texts_of(page)) {
            if (text.words != id) continue;
            ++found;
            CHECK(capitals_of(text) >= (margin <= 12 ? 5 : 3.5) - 0.001);
            CHECK(capitals_of(text) <= 7 + 0.001);
            const std::string row = row_of(page, text);
            CAPTURE(row);
            if (const CutBlank* cut = cut_of(order.cutting(), n, pieces)) {
              const std::string place =
                  order.cutting().boards.at(cut->board).name + " " + position_text(order.cutting(), *cut);
              CHECK(row.find(place) != std::string::npos);
            }
            CHECK((row.find("W ") != std::string::npos) == (n >= pieces));  // no ID has a W
          }
        }
        CHECK(found == 1);
      }
    }
  }
}

TEST_CASE("the list of blanks says how many tags of what, which end is stamped, and what must not go into the bath") {
  // 10 pieces and one witness. Carriers, wire, stamps and their depth: common practice, no source.
  const SawnOrder order{{.input = two_boards(10)}};
  const std::string words = words_of(blank_lists(order.dossier(), shared_fonts()));
  CHECK(words.find("Bath tags to make: 11;") != std::string::npos);
  for (const char* said : {"stainless or aluminium", "304 or 316", "wire 0.7 mm", "hole Ø2.0 mm", "letters 3.0 mm",
                           "0.5 mm deep", "pencil on the other end", "No copper, brass, zinc or bare steel"}) {
    CAPTURE(said);
    CHECK(words.find(said) != std::string::npos);
  }
  CHECK(words.find("Tail waste 10.0 mm") != std::string::npos);  // what the shop file of the test leaves as usual
}

TEST_CASE("a long list of blanks goes on under its head, with boxes to tick at least 6 mm wide") {
  CuttingInput in = two_boards(150);
  const SawnOrder order{{.input = in}};
  const auto pages = blank_lists(order.dossier(), shared_fonts());
  CHECK(pages.size() >= 6);
  for (const Page& page : pages) {
    const auto texts = texts_of(page);
    CHECK(count_of(texts, "TA-0147") == 1);
  }
  for (const Box& box : boxes_to_tick(pages.front())) {
    CHECK(box.width >= 6 * mm);
    CHECK(box.height >= 6 * mm);
  }
  CHECK(boxes_to_tick(pages.front()).size() >= 3 * 12);  // the rightmost ends at the table's own edge
  const auto all = texts_of(pages);
  for (const BlankId& id : order.dossier().blanks) CHECK(count_of(all, id.shown()) == 1);
}

TEST_CASE("without boards the list of blanks has no places, but still marks the witness") {
  const SawnOrder order{{.input = two_boards(4), .boards = false}};
  const auto texts = texts_of(blank_lists(order.dossier(), shared_fonts()));
  CHECK(count_of(texts, "W") == 1);
}

TEST_CASE("a draft has a row for every blank and no ID to stamp") {
  const SawnOrder order{{.input = two_boards(4), .draft = true}};
  const auto texts = texts_of(blank_lists(order.dossier(), shared_fonts()));
  for (int n = 1; n <= 5; ++n) CHECK(count_of(texts, std::to_string(n)) == 1);
  for (const Text& text : texts) CHECK(!BlankId::read(text.words));
}

#include "sheet/sheet/sheets.h"

#include <algorithm>
#include <string>

#include "bath_fixture.h"
#include "sheet/sheet/card_parts.h"
#include "sheet/tag/tags.h"

using namespace blankwright;
using table_pages::count_of;
using table_pages::reduction_of;
using table_pages::shared_fonts;
using table_pages::shows;
using table_pages::texts_of;

namespace {

/// The only drawing line with these corners: the vessel with its rim, from outside to outside.
Path vessel_of(const Page& page) {
  for (const Item& item : page.items) {
    const auto* stroke = std::get_if<Stroke>(&item.mark);
    if (stroke != nullptr && !stroke->closed && stroke->paths.front().size() == 6) return stroke->paths.front();
  }
  return {};
}

/// Level lines across the vessel, as heights over its bottom on paper.
std::vector<Length> levels_of(const Page& page, const Path& vessel, Dash dash) {
  std::vector<Length> heights;
  for (const Item& item : page.items) {
    const auto* stroke = std::get_if<Stroke>(&item.mark);
    if (stroke == nullptr || stroke->dash != dash || stroke->paths.front().size() != 2) continue;
    const Spot from = stroke->paths.front().front(), to = stroke->paths.front().back();
    if (from.x == vessel.at(1).x && to.x == vessel.at(3).x && from.y == to.y)
      heights.push_back(vessel.at(2).y - from.y);
  }
  return heights;
}

}  // namespace

TEST_CASE("levels, tops and rim are drawn at their heights times the scale that is stated") {
  for (const bool inches : {false, true}) {
    for (const bool trough : {false, true}) {
      if (inches && trough) continue;  // that shop has one pot
      for (const int margin : {8, 12, 30}) {
        const BathedOrder order{{.inches = inches, .letter = inches, .trough = trough, .margin = margin}};
        const Dossier d = order.dossier();
        const Page page = bath_cards(d, shared_fonts()).front();
        const Bath& bath = d.baths.front().planned->bath;
        const int n = reduction_of(page);
        CAPTURE(n);
        REQUIRE(n >= 1);
        const Path vessel = vessel_of(page);
        REQUIRE(vessel.size() == 6);
        const auto near = [&](Length drawn, Length real) { return abs(n * drawn - real) < 0.001 * mm; };
        CHECK(near(vessel.at(2).y - vessel.at(1).y, bath.vessel->height.value));
        CHECK(
            near(vessel.at(3).x - vessel.at(2).x, trough ? bath.vessel->width->value : bath.vessel->diameter->value));
        const auto start = levels_of(page, vessel, Dash::solid), end = levels_of(page, vessel, Dash::hidden);
        REQUIRE(start.size() == 1);
        REQUIRE(end.size() == 1);
        CHECK(near(start.front(), 190 * mm));
        CHECK(near(end.front(), 165 * mm));
        auto blanks = rectangles_of(page, wide_line);
        std::erase_if(blanks, [&](const Box& box) { return box.right() > vessel.at(3).x; });
        REQUIRE(blanks.size() == 10);  // a row of five in two layers
        Length highest = blanks.front().y;
        for (const Box& blank : blanks) {
          CHECK(near(blank.width, 30 * mm));
          CHECK(blank.x > vessel.at(2).x);
          CHECK(blank.right() < vessel.at(3).x);
          CHECK(blank.bottom() < vessel.at(2).y + 0.001 * mm);
          highest = std::min(highest, blank.y);
        }
        CHECK(near(vessel.at(2).y - highest, 140 * mm));
      }
    }
  }
}

TEST_CASE("a bath card's words keep to the margins and clear of each other, and every ID stands on it once") {
  for (const bool inches : {false, true}) {
    for (const int margin : {8, 12, 30}) {
      for (const int in_layer : {5, 12}) {
        for (const int others : {0, 7}) {
          CAPTURE(inches);
          CAPTURE(margin);
          const BathedOrder order{{.inches = inches,
                                   .letter = inches,
                                   .margin = margin,
                                   .in_layer = in_layer,
                                   .dye = others > 0 ? "soot" : "",
                                   .others = others}};
          const Dossier d = order.dossier();
          const auto pages = bath_cards(d, shared_fonts());
          for (const Page& page : pages) check_words(page, d.sheet_template.margin.value);
          const auto texts = texts_of(pages);
          for (const ShareOnPaper& share : d.baths.front().shares) {
            for (const BlankId& id : share.blanks) CHECK(count_of(texts, id.shown()) == 1);
          }
          CHECK(count_of(texts, "W " + d.baths.front().shares.front().witnesses.front().shown()) == 1);
        }
      }
    }
  }
}

TEST_CASE("a card's strips stand in the template's order, and what it leaves out is not there") {
  const BathedOrder order{{.own_template = "bath_card = [\"checks\", \"figures\"]\n"
                                           "oven_card = [\"checks\", \"figures\"]\n"}};
  const Dossier d = order.dossier();
  const auto found = [](const std::vector<Page>& pages, const std::string& words) {
    const auto texts = texts_of(pages);
    const auto at =
        std::ranges::find_if(texts, [&](const Text& t) { return t.words.find(words) != std::string::npos; });
    return at == texts.end() ? std::nullopt : std::optional{at->at.y};
  };
  const WordTable& w = d.sheet_template.words;
  const auto bath = bath_cards(d, shared_fonts());
  CHECK(*found(bath, "8 Out of the") < *found(bath, "41.6"));
  CHECK(!found(bath, w[Word::bath_never_top_up]));
  const auto oven = oven_cards(d, shared_fonts());
  CHECK(*found(oven, "1 Blanks in") < *found(oven, w[Word::oven_core]));
  CHECK(!found(oven, w[Word::oven_caution]));
}

TEST_CASE("IDs and what is set or weighed stand at least 3.5 mm high on a card, the units beside them smaller") {
  // Read at arm's length, 0.7 m: its height / 200. Common practice, no source.
  const BathedOrder order{{}};
  const auto pages = bath_cards(order.dossier(), shared_fonts());
  const auto texts = texts_of(pages);
  for (const char* figure : {"4.00", "41.6", "1210", "90.0", "210.0", "235.0", "6", "12"}) {
    CAPTURE(figure);
    CHECK(std::ranges::any_of(
        texts, [&](const Text& text) { return text.words == figure && capitals_of(text) >= 3.5 - 0.001; }));
  }
  // So does what is to be done, at bath and oven alike.
  const auto oven = texts_of(oven_cards(order.dossier(), shared_fonts()));
  for (const auto& [page, begins] : {std::pair{&texts, "1 IDs"},
                                     {&texts, "4 Bubbles"},
                                     {&texts, "6 Covered"},
                                     {&texts, "7 Soak"},
                                     {&oven, "1 Blanks in"},
                                     {&oven, "4 Hold until"}}) {
    CAPTURE(begins);
    CHECK(std::ranges::any_of(
        *page, [&](const Text& text) { return text.words.starts_with(begins) && capitals_of(text) >= 3.5 - 0.001; }));
  }
  for (int n = 0; n < piece_count(order.dossier()); ++n) {
    const auto at =
        std::ranges::find(texts, order.dossier().blanks.at(static_cast<std::size_t>(n)).shown(), &Text::words);
    REQUIRE(at != texts.end());
    CHECK(capitals_of(*at) >= 3.5 - 0.001);
  }
}

TEST_CASE("bath and oven cards are half sheets on one page, each with its code of at least 20 mm") {
  for (const bool letter : {false, true}) {
    const BathedOrder order{{.letter = letter}};
    const Dossier d = order.dossier();
    OrderFlow flow = flow_for(d, shared_fonts());
    bath_and_oven_cards(flow);
    REQUIRE(flow.sheets.size() == 1);
    CHECK(flow.sheets.front().blank_back);
    const Page& page = flow.sheets.front().page;
    check_words(page, 12 * mm);
    int codes = 0;
    for (const Item& item : page.items) {
      const auto* code = std::get_if<Matrix>(&item.mark);
      codes += code != nullptr && code->side * code->module >= 20 * mm ? 1 : 0;
    }
    CHECK(codes == 2);
    const auto texts = texts_of(page);
    for (const char* name : {"Bath card 1 · B-", "Oven card 1 · L-"}) {
      CHECK(std::ranges::any_of(texts, [&](const Text& t) { return t.words.starts_with(name); }));
    }
  }
}

TEST_CASE("levels are given from the bottom and as a dip from the rim, and the soak by the time really run") {
  const BathedOrder order{{}};  // a vessel 400 mm high; the shop asks for 3 bubbles and a soak of 200 %
  const auto pages = bath_cards(order.dossier(), shared_fonts());
  for (const char* said : {"↑ 190.0 ↓ 210.0 mm", "↑ 165.0 ↓ 235.0 mm", "↑ 140.0 mm", "Bubbles < 3 a minute",
                           "Soak: box 5 + 12 h", "Boxes 3–5 longer than 6 h, soak 2 × that time", "Never top up",
                           "Covered, ≤ 235.0 mm", "Left over at least 2.50 l", "keep below 21 °C", "HOLD",
                           "IDs re-read, vacuum on", "bubbling down:", "below atmosphere", "7.90 g/cm³ or denser"}) {
    CAPTURE(std::string{said});
    CHECK(shows(pages, said));
  }
}

TEST_CASE("the card of a dyed bath says light before dark, an undyed one does not") {
  CHECK(shows(bath_cards(BathedOrder{{.dye = "soot"}}.dossier(), shared_fonts()), "Light before dark"));
  CHECK(!shows(bath_cards(BathedOrder{{}}.dossier(), shared_fonts()), "Light before dark"));
}

TEST_CASE("figures that are not known stand as dashes") {
  const BathedOrder order{{.figures = false}};
  const auto pages = bath_cards(order.dossier(), shared_fonts());
  CHECK(count_of(texts_of(pages), "–") >= 7);
  CHECK(!shows(pages, "not known"));
}

TEST_CASE("a long list of blanks goes on under its head") {
  const BathedOrder order{{.pieces = 300, .in_layer = 15}};
  const Dossier d = order.dossier();
  const auto pages = bath_cards(d, shared_fonts());
  REQUIRE(pages.size() >= 2);
  const auto texts = texts_of(pages);
  for (int n = 0; n < piece_count(d); ++n) {
    CHECK(count_of(texts, d.blanks.at(static_cast<std::size_t>(n)).shown()) == 1);
  }
  for (const Page& page : pages) check_words(page, d.sheet_template.margin.value);
}

TEST_CASE("a draft's card counts blanks and names none") {
  const BathedOrder order{{.draft = true}};
  const auto texts = texts_of(bath_cards(order.dossier(), shared_fonts()));
  CHECK(count_of(texts, "10 + 1 W") == 1);
  for (const Text& text : texts) CHECK(!BlankId::read(text.words));
}

TEST_CASE("resin left over is good from the day of the bath, or from that of the oldest resin in it") {
  // 300 days from 10 May 2027, and from 9 March 2027: counted on a calendar.
  Diagnostics out;
  const BathedOrder first{{}}, second{{.reused = true}};
  const Dossier d = first.dossier();
  const auto fresh = tag_pages(d, shared_fonts(), {}, out);
  CHECK(shows(fresh, "5 Mar 2028"));
  CHECK(shows(bath_cards(BathedOrder{{}}.dossier(), shared_fonts()), "use by 5 Mar 2028"));
  const Dossier again = second.dossier();
  const auto reused = tag_pages(again, shared_fonts(), {}, out);
  CHECK(shows(reused, "3 Jan 2028"));
}

TEST_CASE(
    "labels of bottles take free places of the tags, else they are 62 by 38 mm on a page, clear of each other") {
  for (const bool inches : {false, true}) {
    for (const int margin : {8, 12, 30}) {
      // No label of that sheet is high enough for a bottle.
      const std::string small = inches ? "letter-3x10-66.7x25.4" : "a4-5x13-38.1x21.2";
      const BathedOrder order{{.inches = inches,
                               .letter = inches,
                               .margin = margin,
                               .others = 3,
                               .own_template = "tag_sheet = \"" + small + "\"\n"}};
      const Dossier d = order.dossier();
      const auto pages = bottle_labels(d, shared_fonts());
      REQUIRE(pages.size() == 1);
      check_words(pages.front(), d.sheet_template.margin.value);
      int outlines = 0;
      for (const Item& item : pages.front().items) {
        const auto* stroke = std::get_if<Stroke>(&item.mark);
        if (stroke == nullptr || stroke->dash != Dash::tear) continue;
        ++outlines;
        const Box box = box_of(stroke->paths.front());
        CHECK(box.width / mm == doctest::Approx(62));
        CHECK(box.height / mm == doctest::Approx(38));
      }
      CHECK(outlines == 1);
      CHECK(shows(pages, d.baths.front().planned->bath.resin->name.value));
      CHECK(shows(pages, "OTHER-9"));
      CHECK(shows(pages, "strain before use"));
      CHECK(shows(pages, "Safety data sheet first"));
    }
  }
  const BathedOrder on_tags{{}};  // 11 tags on 21 places
  const Dossier d = on_tags.dossier();
  CHECK(bottle_labels(d, shared_fonts()).empty());
  Diagnostics out;
  const auto tags = tag_pages(d, shared_fonts(), {}, out);
  CHECK(tags.size() == 1);
  CHECK(shows(tags, "strain before use"));
}

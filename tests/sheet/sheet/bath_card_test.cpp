#include "sheet/sheet/sheets.h"

#include <algorithm>
#include <string>

#include "bath_fixture.h"

using namespace blankwright;
using table_pages::count_of;
using table_pages::shared_fonts;
using table_pages::texts_of;
using table_pages::words_of;

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

/// "Section, 1 : 7" gives 7.
int reduction_of(const Page& page) {
  for (const Text& text : texts_of(page)) {
    if (text.words.starts_with("Section, 1 : ")) return std::stoi(text.words.substr(13));
  }
  return 0;
}

bool says(const std::vector<Page>& pages, const std::string& words) {
  return words_of(pages).find(words) != std::string::npos;
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
        const auto blanks = rectangles_of(page, 0.35 * mm);
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
            for (const BlankId& id : share.witnesses) CHECK(count_of(texts, id.shown()) == 1);
          }
          CHECK(count_of(texts, "Witness") == 1);
        }
      }
    }
  }
}

TEST_CASE("a card's strips stand in the template's order, and what it leaves out is not there") {
  const BathedOrder order{{.pieces = 60,
                           .own_template = "bath_card = [\"blanks\", \"figures\", \"checks\"]\n"
                                           "oven_card = [\"checks\", \"figures\"]\n"}};
  const Dossier d = order.dossier();
  const auto found = [](const std::vector<Page>& pages, const std::string& words) {
    for (std::size_t n = 0; n < pages.size(); ++n) {
      for (const Text& text : texts_of(pages.at(n))) {
        if (text.words == words) return std::pair{n, text.at.y / mm};
      }
    }
    return std::pair{pages.size(), 0.0};
  };
  const WordTable& w = d.sheet_template.words;
  const auto bath = bath_cards(d, shared_fonts());
  for (const Page& page : bath) check_words(page, d.sheet_template.margin.value);
  CHECK(bath.size() > 1);
  CHECK(found(bath, d.baths.front().shares.front().blanks.back().shown()) < found(bath, "41.6"));
  CHECK(found(bath, "41.6") < found(bath, w[Word::card_checks]));
  CHECK(found(bath, w[Word::bath_never_top_up]).first == bath.size());

  const auto oven = oven_cards(d, shared_fonts());
  for (const Page& page : oven) check_words(page, d.sheet_template.margin.value);
  CHECK(found(oven, w[Word::card_checks]) < found(oven, w[Word::oven_core]));
  CHECK(found(oven, w[Word::oven_core]).first < oven.size());
  CHECK(found(oven, d.loads.front().shares.front().blanks.front().shown()).first == oven.size());
}

TEST_CASE("IDs and what is set or weighed stand 5 to 7 mm high, the units beside them smaller") {
  // Readable with wet gloves at arm's length; height of IDs and critical figures: common practice, no source.
  const BathedOrder order{{}};
  const auto pages = bath_cards(order.dossier(), shared_fonts());
  const auto texts = texts_of(pages);
  for (const char* figure : {"4.00", "41.6", "1200.0", "90.0", "210.0", "235.0", "6", "12"}) {
    CAPTURE(figure);
    CHECK(std::ranges::any_of(texts, [&](const Text& text) {
      return text.words == figure && capitals_of(text) >= 5 - 0.001 && capitals_of(text) <= 7 + 0.001;
    }));
  }
  for (const BlankId& id : order.dossier().blanks) {
    const auto at = std::ranges::find(texts, id.shown(), &Text::words);
    REQUIRE(at != texts.end());
    CHECK(capitals_of(*at) >= 5 - 0.001);
  }
}

TEST_CASE("levels are given from the bottom and as a dip from the rim, and the soak by the time really run") {
  const BathedOrder order{{}};  // a vessel 400 mm high; the shop asks for 3 bubbles and a soak of 200 %
  const auto pages = bath_cards(order.dossier(), shared_fonts());
  for (const char* said :
       {"↑ 190.0 mm", "↓ 210.0 mm", "↑ 165.0 mm", "↓ 235.0 mm", "↑ 140.0 mm", "fewer than 3 bubbles a blank",
        "released + 12 h", "If lines 3 to 5 took over 6 h: 2 × that time", "Never top up under way",
        "rim to resin at most 235.0 mm", "Left over at least 2.50 l", "keep below 21 °C", "HOLD",
        "IDs re-read; vacuum on", "bubbling ended"}) {
    CAPTURE(said);
    CHECK(says(pages, said));
  }
}

TEST_CASE("the card of a dyed bath says light before dark, an undyed one does not") {
  CHECK(says(bath_cards(BathedOrder{{.dye = "soot"}}.dossier(), shared_fonts()), "Light before dark"));
  CHECK(!says(bath_cards(BathedOrder{{}}.dossier(), shared_fonts()), "Light before dark"));
}

TEST_CASE("figures that are not known stand as dashes") {
  const BathedOrder order{{.figures = false}};
  const auto pages = bath_cards(order.dossier(), shared_fonts());
  CHECK(count_of(texts_of(pages), "–") >= 10);
  CHECK(!says(pages, "not known"));
}

TEST_CASE("a long list of blanks goes on under its head") {
  const BathedOrder order{{.pieces = 150, .in_layer = 15}};
  const Dossier d = order.dossier();
  const auto pages = bath_cards(d, shared_fonts());
  REQUIRE(pages.size() >= 3);
  const auto texts = texts_of(pages);
  for (const BlankId& id : d.blanks) CHECK(count_of(texts, id.shown()) == 1);
  for (const Page& page : pages) {
    CHECK(count_of(texts_of(page), "Blanks in it") == 1);
    check_words(page, d.sheet_template.margin.value);
  }
}

TEST_CASE("a draft's card counts blanks and names none") {
  const BathedOrder order{{.draft = true}};
  const auto texts = texts_of(bath_cards(order.dossier(), shared_fonts()));
  CHECK(count_of(texts, "10 + 1 W") == 1);
  for (const Text& text : texts) CHECK(!BlankId::read(text.words));
}

TEST_CASE("resin left over is good from the day of the bath, or from that of the oldest resin in it") {
  // 300 days from 10 May 2027, and from 9 March 2027: counted on a calendar.
  const auto fresh = bottle_labels(BathedOrder{{}}.dossier(), shared_fonts());
  CHECK(says(fresh, "5 Mar 2028"));
  CHECK(says(bath_cards(BathedOrder{{}}.dossier(), shared_fonts()), "use by 5 Mar 2028"));
  const auto reused = bottle_labels(BathedOrder{{.reused = true}}.dossier(), shared_fonts());
  CHECK(says(reused, "3 Jan 2028"));
}

TEST_CASE("bottle labels say what is in the bottle, are 90 by 60 mm and clear of each other") {
  for (const bool inches : {false, true}) {
    for (const int margin : {8, 12, 30}) {
      const BathedOrder order{{.inches = inches, .letter = inches, .margin = margin, .others = 3}};
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
        CHECK(box.width / mm == doctest::Approx(90));
        CHECK(box.height / mm == doctest::Approx(60));
      }
      CHECK(outlines == 2);
      CHECK(says(pages, d.baths.front().planned->bath.resin->name.value));
      CHECK(says(pages, "OTHER-9"));
      CHECK(says(pages, "strain before use"));
      CHECK(says(pages, "safety data sheet comes first"));
    }
  }
}

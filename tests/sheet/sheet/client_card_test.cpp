#include "sheet/sheet/client_card.h"

#include <doctest/doctest.h>

#include "paper.h"
#include "template_for_test.h"
#include "write/pdf.h"

using namespace blankwright;

namespace {

PieceRecorded bare() {
  PieceRecorded piece;
  piece.blank = BlankId::nth(0);
  piece.maker = "Two Brooks Handles";
  piece.order = "T-1";
  piece.client = "Ada";
  piece.item = "awl handle";
  piece.wood = "European beech, spalted";
  return piece;
}

std::string cards(const std::vector<PieceRecorded>& pieces, UnitSystem units) {
  return pdf_of(client_cards(pieces, template_for_test("A4"), units, fonts_for_test()), {}, font_files_for_test());
}

}  // namespace

TEST_CASE("a card bears its maker, leaves out what nobody recorded, and warrants nothing") {
  const std::string card = cards({bare()}, UnitSystem::metric);
  const std::string text = copied_text(card);
  for (const std::string word : {"Two Brooks Handles", "T-1", "Ada", "awl handle", "European beech, spalted",
                                 "Signature", "not warranted", "not stated"}) {  // how hard it may be tightened
    CAPTURE(word);
    CHECK(text.find(word) != std::string::npos);
  }
  for (const std::string caption :
       {"Seat out of square", "Stud projects", "Thread gauge", "Drawing", "Board", "Resin lot", "Dry mass",
        "Cured mass", "Mass gained", "Vacuum", "Soak", "Cure", "Core reached", "Finish", "Bore", "Axis off",
        "Inspected", "Deviations", "Sent"}) {
    CAPTURE(caption);
    CHECK(text.find(caption) == std::string::npos);
  }
  CHECK(read_by_zxing(printed(card)) == std::vector<std::string>{BlankId::nth(0).encoded()});
  CHECK(read_by_zbar(printed(card)) == std::vector<std::string>{BlankId::nth(0).encoded()});
}

TEST_CASE("what was recorded stands on the card in the shop's units, however long the names are") {
  PieceRecorded piece = bare();
  piece.client = std::string(40, 'W') + " " + std::string(39, 'W');
  piece.item = "burnisher handle with a rather long name that has to shrink";
  piece.drawing = "TA-B-031 C";
  piece.remarks = "filled twice; a knot at 40 mm was left in agreement with the client, who likes it";
  piece.squareness = 0.05 * mm;
  piece.projection = 25 * mm;
  piece.thread = Outcome::fail;
  piece.dry = 100 * gram;
  piece.cured = 195 * gram;
  piece.vacuum = 6 * hour + 30 * minute;
  piece.core = celsius(88);
  piece.tightening = 1.0999 * newton_metre;  // 9.735 lbf in
  const std::string metric = copied_text(cards({piece, bare()}, UnitSystem::metric));
  for (const std::string word : {"0.05 mm", "25.00 mm", "FAILS", "100.0 g", "195.0 g", "95 %", "6 h 30 min", "88 °C",
                                 "TA-B-031 C", "1.09 N m", "Thread gauge", "Deviations"}) {
    CAPTURE(word);
    CHECK(metric.find(word) != std::string::npos);
  }
  // 1 oz = 28.349523125 g (NIST SP 811 B.8): 100 g are 3.53 oz.
  const std::string inches = copied_text(cards({piece}, UnitSystem::inches));
  for (const std::string word : {"0.002 in", "0.984 in", "3.53 oz", "190 °F", "9.7 lbf in"}) {
    CAPTURE(word);
    CHECK(inches.find(word) != std::string::npos);
  }
}

#include "sheet/sheet/sheets.h"

#include <algorithm>
#include <string>

#include "bath_fixture.h"
#include "test_dossier.h"
#include "treated_fixture.h"

using namespace blankwright;
using table_pages::texts_of;
using table_pages::words_of;

namespace {

/// Every caution as its own key, so that a test finds it again.
std::string keyed_template(bool letter, int margin, int more) {
  std::string own =
      fmt::format("format = 1\npaper = \"{}\"\nmargin = \"{} mm\"\n[cautions]\n", letter ? "Letter" : "A4", margin);
  for (const CautionKey& key : caution_keys) own += fmt::format("{0} = \"key-{0}\"\n", key.name);
  own += "more = [";
  for (int n = 0; n < more; ++n) own += fmt::format("\"own-{} {}\",", n, std::string(180, 'W'));
  return own + "]\n";
}

}  // namespace

TEST_CASE("cautions stand once each in the order of the work, after what comes before them all") {
  const TestOrder order{treated_job(), treated_shop(), keyed_template(false, 12, 2)};
  const std::string words = words_of(caution_sheets(order.dossier(), fonts_for_test()));
  std::size_t before = words.find("Safety data sheets");
  REQUIRE(before != std::string::npos);
  // Saw, dry, impregnate, cure, bore, turn, hand over.
  for (const char* key : {"sawing", "drying_oven", "dry_before_resin", "resin", "activator", "vacuum_vessel",
                          "vacuum_pump", "curing_oven", "exotherm", "drilling", "glue", "check_blank", "speed",
                          "threaded_mount", "dust", "decayed_wood", "uncured", "finish", "untested_stud"}) {
    CAPTURE(key);
    const std::string marked = fmt::format("key-{} ", key);
    const std::size_t at = words.find(marked);
    REQUIRE(at != std::string::npos);
    CHECK(at > before);
    CHECK(words.find(marked, at + 1) == std::string::npos);
    before = at;
  }
  CHECK(words.find("own-0") > before);
  CHECK(words.find("own-1") > words.find("own-0"));
}

TEST_CASE("cautions keep inside the margins, on as many pages as they take, and none is lost") {
  for (const bool letter : {false, true}) {
    for (const int margin : {8, 30}) {
      CAPTURE(margin);
      const TestOrder order{treated_job(), treated_shop(), keyed_template(letter, margin, 20)};
      const auto pages = caution_sheets(order.dossier(), fonts_for_test());
      const std::string words = words_of(pages);
      for (int n = 0; n < 20; ++n) CHECK(words.find(fmt::format("own-{} ", n)) != std::string::npos);
      for (const Page& page : pages) {
        for (const Text& text : texts_of(page)) {
          const Box box = table_pages::ink(text);
          CAPTURE(text.words);
          CHECK(box.x >= margin * mm - 0.02 * mm);
          CHECK(box.right() <= page.paper.width - margin * mm + 0.02 * mm);
          CHECK(box.bottom() <= page.paper.height - margin * mm + 0.02 * mm);
        }
      }
    }
  }
}

TEST_CASE("without treatment the sheet says nothing of resin in any of its words") {
  const Treated bare{.treated = false};
  const TestOrder order{treated_job(bare), treated_shop(bare)};
  const std::string words = words_of(caution_sheets(order.dossier(), fonts_for_test()));
  for (const char* word : {"Vacuum", "vacuum", "Activator", "activator", "exhaust", "implode"}) {
    CAPTURE(word);
    CHECK(words.find(word) == std::string::npos);
  }
  CHECK(words.find("spindle") != std::string::npos);
}

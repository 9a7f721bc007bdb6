// Pages as they are to look, as text under expected/. Where one is changed on purpose, RENEW_EXPECTED=1 writes what
// it is now; the difference of the file is then what the reviewer reads.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cstdlib>
#include <sstream>

#include "../temporary_folder.h"
#include "bath_fixture.h"
#include "page_dump.h"
#include "sheet/sheet/sheets.h"
#include "sheet/sheet/turner_sheet.h"
#include "sheet/tag/tags.h"

using namespace blankwright;
using table_pages::shared_fonts;

namespace {

void check_as_expected(const std::string& name, const Page& page) {
  const std::string file = std::string{BLANKWRIGHT_SOURCE_DIR} + "/tests/sheet/expected/" + name + ".txt";
  const std::string now = page_dump({&page, 1});
  if (std::getenv("RENEW_EXPECTED") != nullptr) put_bytes(file, now);
  std::istringstream expected{bytes_of(file)}, seen{now};
  std::string a, b;
  for (int line = 1;; ++line) {
    const bool more_expected = static_cast<bool>(std::getline(expected, a));
    const bool more_seen = static_cast<bool>(std::getline(seen, b));
    if (!more_expected && !more_seen) return;
    if (more_expected != more_seen || a != b) {
      FAIL_CHECK(
          fmt::format("{}.txt, line {}: expected {}; the page has {}. Where that is meant, run this test with "
                      "RENEW_EXPECTED=1 and look at the difference.",
                      name, line, more_expected ? a : "nothing more", more_seen ? b : "nothing more"));
      return;
    }
  }
}

}  // namespace

TEST_CASE("pages look as they are expected to") {
  for (const bool inches : {false, true}) {
    const BathedOrder order{{.inches = inches, .letter = inches, .others = 1}};
    const Dossier d = order.dossier();
    const std::string kind = inches ? "-inch-letter" : "-metric-a4";
    check_as_expected("turner-sheet" + kind, turner_sheet(d, shared_fonts()));
    check_as_expected("list-of-blanks" + kind, blank_lists(d, shared_fonts()).front());
    check_as_expected("bath-card" + kind, bath_cards(d, shared_fonts()).front());
    check_as_expected("oven-card" + kind, oven_cards(d, shared_fonts()).front());
    Diagnostics said;
    check_as_expected("tags" + kind, tag_pages(d, shared_fonts(), {}, said).front());
  }
}

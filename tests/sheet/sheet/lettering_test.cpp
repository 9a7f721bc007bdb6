// What all sheets of an order have in common: the sizes of their lettering, and their lines.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "sheet/sheet/traveller.h"
#include "test_dossier.h"
#include "treated_fixture.h"

using namespace blankwright;

namespace {

std::string own_template(int lettering, bool letter) {
  return fmt::format("format = 1\nlettering = \"{} %\"\npaper = \"{}\"\n", lettering, letter ? "Letter" : "A4");
}

struct Variation {
  bool inches, draft;
  int lettering;
};

std::vector<Variation> variations() {
  return {{false, false, 100}, {true, false, 100}, {false, true, 100}, {false, false, 130}, {true, false, 90}};
}

std::vector<Page> pages_of(const Variation& how) {
  const Treated order_as{
      .inches = how.inches,
      .more = "[ferrule]\noutside_diameter = \"31 mm\"\ninside_diameter = \"24 mm\"\nlength = \"14 mm\"\n"};
  const TestOrder order{treated_job(order_as), treated_shop(order_as), own_template(how.lettering, how.inches),
                        how.draft};
  const Dossier& d = order.dossier();
  std::vector<Page> pages = traveller(d, fonts_for_test(), traveller_sheets(d, fonts_for_test()));
  for (Page& page : worksheet_document(d, fonts_for_test())) pages.push_back(std::move(page));
  return pages;
}

}  // namespace

TEST_CASE("a whole document has five sizes of lettering, those in drawings among them") {
  // ISO 3098-1: 2.5, 3.5, 5, 7 mm; 2 mm for notes alone, below which nothing is read at arm's length (common
  // practice, no source).
  for (const Variation& how : variations()) {
    CAPTURE(how.lettering);
    for (const Page& page : pages_of(how)) {
      CAPTURE(page.label);
      for (const Item& item : page.items) {
        const auto* text = std::get_if<Text>(&item.mark);
        if (text == nullptr) continue;
        CAPTURE(text->words);
        // What finds no room enlarged has its nominal size.
        const double capitals = fonts_for_test().cap_height(text->face, text->size) / mm;
        bool nominal = false;
        for (const double size : {2.0, 2.5, 3.5, 5.0, 7.0}) {
          for (const double lettering : {1.0, how.lettering / 100.0})
            nominal = nominal || std::abs(capitals - size * lettering) < 1e-6;
        }
        if (!nominal) FAIL_CHECK("is " << capitals << " mm high");
      }
    }
  }
}

TEST_CASE("lines have three widths, and the widest are round holds alone") {
  for (const Variation& how : variations()) {
    std::map<double, int> widths;
    for (const Page& page : pages_of(how)) {
      for (const Item& item : page.items) {
        if (const auto* stroke = std::get_if<Stroke>(&item.mark)) ++widths[stroke->width / mm];
        if (const auto* ellipse = std::get_if<Ellipse>(&item.mark); ellipse != nullptr && ellipse->width > 0 * mm)
          ++widths[ellipse->width / mm];
      }
    }
    for (const auto& [width, count] : widths) {
      CAPTURE(width);
      CHECK((std::abs(width - 0.18) < 1e-9 || std::abs(width - 0.35) < 1e-9 || std::abs(width - 0.7) < 1e-9));
    }
  }
}

TEST_CASE("on paper that is printed on both sides nothing stands behind what is cut out, nor behind a card") {
  for (const Variation& how : variations()) {
    CAPTURE(how.inches);
    const TestOrder order{treated_job({.inches = how.inches}), treated_shop({.inches = how.inches}),
                          own_template(how.lettering, how.inches), how.draft};
    const std::vector<TravellerPage> pages = traveller_sheets(order.dossier(), fonts_for_test());
    int of_their_own = 0;
    for (std::size_t n = 0; n < pages.size(); ++n) {
      const bool alone = std::ranges::any_of(pages.at(n).parts, [](const PartOnPage& part) {
        return part.kind == SheetKind::targets || part.kind == SheetKind::profile || part.kind == SheetKind::bath;
      });
      if (!alone) continue;
      ++of_their_own;
      const std::size_t back = n % 2 == 0 ? n + 1 : n - 1;
      CHECK((back == pages.size() || pages.at(back).page.items.empty()));
    }
    CHECK(of_their_own >= 2);
  }
}

#include "sheet/paper/limits.h"
#include "plan/figure/figure.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "sheet/sheet/sheets.h"
#include "sheet/sheet/turner_sheet.h"
#include "sheet/tag/tags.h"
#include "table_pages_fixture.h"
#include "test_dossier.h"
#include "treated_fixture.h"

using namespace blankwright;
using table_pages::texts_of;

// Limits as they stand on laid-out pages, held against the plan's figure before it was rounded: what something is at
// most is never printed larger, what it is at least never smaller, and neither is off by more than a step.

namespace {

enum class Side { at_most, at_least };

/// SI values of one printed step, metric and inch: how finely the sheets print, NIST SP 811 for the units.
struct Steps {
  double metric, inches;
};
constexpr Steps rule{0.1e-3, 0.001 * 0.0254}, caliper{0.01e-3, 0.001 * 0.0254};
constexpr Steps rod{0.01 / 100, 0.001 / 4}, liquid{0.01e-3, 0.01 * 0.946352946e-3};
constexpr Steps ballast_scale{0.01, 0.5 * 0.45359237 / 16}, gauge{100, 0.01 * 3386.389};
constexpr Steps degrees{1, 1 / 1.8}, minutes{60, 60}, five_minutes{300, 300}, tens{10.0 / 60, 10.0 / 60};

/// An order whose figures fall between the steps of both systems.
TestOrder odd_order(bool inches, bool lathe, int n) {
  std::string shop = treated_shop({.inches = inches});
  shop = replaced(shop, "[hours]", fmt::format("altitude = \"{} m\"\n[hours]", 137 + 211 * n));
  shop = replaced(shop, "[[vessels]]",
                  fmt::format("[boring]\nmethod = \"{}\"\nreservoir = \"{} mm\"\n[vacuum]\nhold = \"{} min\"\n"
                              "[bath]\ncover = \"{} mm\"\n[[vessels]]",
                              lathe ? "lathe" : "press", 5.13 + 0.37 * n, 301 + 7 * n, 21.3 + 1.7 * n));
  shop = replaced(shop, "cure_core = \"85 °C\"", fmt::format("cure_core = \"{} °C\"", 84.2 + 0.3 * n));
  shop = replaced(shop, "cure_hold = \"1 h\"",
                  fmt::format("cure_hold = \"{} s\"\nstorage_most = \"21.7 °C\"", 3601 + 67 * n));
  std::string job = treated_job({.inches = inches});
  job = replaced(job, "enters = \"14 mm\"",
                 fmt::format("enters = \"{} mm\"\nembedded = \"{} mm\"", 14.03 + 0.29 * n, 31.37 + 0.23 * n));
  return {job, shop};
}

/// The texts of a page in the order in which they were drawn, without spaces round them.
std::vector<std::string> words_in_order(const std::vector<Page>& pages) {
  std::vector<std::string> out;
  for (const Text& text : texts_of(pages)) {
    const auto from = text.words.find_first_not_of(' ');
    if (from != std::string::npos)
      out.push_back(text.words.substr(from, text.words.find_last_not_of(' ') - from + 1));
  }
  return out;
}

/// The longest run of texts from there on that reads as a quantity.
std::optional<double> quantity_from(const std::vector<std::string>& words, std::size_t at, Kind kind) {
  std::optional<double> found;
  std::string joined;
  for (std::size_t i = at; i < std::min(at + 6, words.size()); ++i) {
    joined += (joined.empty() ? "" : " ") + words.at(i);
    if (const auto si = read_si(joined, kind)) found = *si;
  }
  return found;
}

/// What stands behind a caption.
double after(const std::vector<std::string>& words, const std::string& caption, Kind kind) {
  // A caption may go on in a second line.
  const auto stands_at = [&](const std::string& w) {
    const std::string& next = &w == &words.back() ? w : *(&w + 1);
    return w == caption || w + " " + next == caption;
  };
  const auto found = std::ranges::find_if(words, stands_at);
  REQUIRE_MESSAGE(found != words.end(), caption);
  const auto begins = [](const std::string& w) { return w.find_first_of("0123456789-") == 0; };
  const auto figure = std::find_if(found + 1, words.end(), begins);
  const auto si = quantity_from(words, static_cast<std::size_t>(figure - words.begin()), kind);
  REQUIRE_MESSAGE(si.has_value(), caption);
  return *si;
}

struct OnPages {
  const Dossier& d;
  bool inches;

  void check(const std::string& what, double printed, double exact, Side side, Steps steps) const {
    CAPTURE(what);
    CAPTURE(inches);
    CAPTURE(printed);
    CAPTURE(exact);
    const double step = inches ? steps.inches : steps.metric;
    const double over = (printed - exact) / step;  // in steps
    if (side == Side::at_most) CHECK((over <= 1e-4 && over > -1.0001));
    if (side == Side::at_least) CHECK((over >= -1e-4 && over < 1.0001));
  }
  double exact(const Figures& figures, Figure figure) const { return std::get<double>(figures.get(figure)); }
};

void check_bath_card(const OnPages& p) {
  const auto words = words_in_order(bath_cards(p.d, fonts_for_test()));
  const Figures& bath = p.d.baths.front().planned->figures;
  struct Row {
    const char* caption;
    Kind kind;
    const Figures& figures;
    Figure figure;
    Side side;
    Steps steps;
  };
  const Row rows[] = {
      {"Pour in total", Kind::volume, bath, Figure::bath_pour, Side::at_least, liquid},
      {"Vacuum gauge, at least", Kind::gauge_pressure, p.d.plan.figures, Figure::vacuum_gauge, Side::at_least, gauge},
      {"Then soak, at least", Kind::duration, p.d.plan.figures, Figure::vacuum_least_soak, Side::at_least,
       five_minutes},
      {"Rim to resin at the start", Kind::length, bath, Figure::bath_start_dip, Side::at_most, rule},
      {"Rim to resin at the end", Kind::length, bath, Figure::bath_end_dip, Side::at_most, rule},
      {"Ballast to weigh out", Kind::mass, bath, Figure::bath_ballast, Side::at_least, ballast_scale},
  };
  for (const Row& row : rows) {
    double printed = after(words, row.caption, row.kind);
    Steps steps = row.steps;
    if (row.kind == Kind::mass && p.inches && printed >= 2 * 0.45359237) steps.inches = 0.05 * 0.45359237;  // pounds
    p.check(row.caption, printed, p.exact(row.figures, row.figure), row.side, steps);
  }
  // A vacuum that is given is printed as it is: the soak is counted from it.
  CHECK(after(words, "Hold the vacuum", Kind::duration) ==
        doctest::Approx(p.exact(p.d.plan.figures, Figure::vacuum_hold)));
  std::string all;
  for (const std::string& w : words) all += w + " ";
  CHECK(all.find("Covered, ≤") != std::string::npos);
}

void check_oven_card(const OnPages& p) {
  const auto words = words_in_order(oven_cards(p.d, fonts_for_test()));
  const auto row = [&](const char* caption, Kind kind, Figure figure, Steps steps) {
    p.check(caption, after(words, caption, kind), p.exact(p.d.plan.figures, figure), Side::at_least, steps);
  };
  row("True air temperature", Kind::temperature, Figure::cure_true, degrees);
  row("Core temperature", Kind::temperature, Figure::cure_core, degrees);
  row("Dial", Kind::temperature, Figure::cure_dial, degrees);
  row("Hold", Kind::duration, Figure::cure_hold, minutes);
  row("In the oven at least", Kind::duration, Figure::cure_total, minutes);
  const auto list = words_in_order(blank_lists(p.d, fonts_for_test()));
  const auto of_list = [&](const char* caption, Figure figure) {
    p.check(caption, after(list, caption, Kind::duration), p.exact(p.d.plan.figures, figure), Side::at_least,
            five_minutes);
  };
  of_list("Dry for at least", Figure::drying_least_time);
  of_list("Cool for", Figure::drying_cool);
  Diagnostics out;
  const auto bottle = words_in_order(tag_pages(p.d, fonts_for_test(), {}, out));
  p.check("keep below", after(bottle, "keep below", Kind::temperature),
          (p.d.baths.front().planned->bath.resin->storage_most.value - Temperature{}) / kelvin, Side::at_most,
          degrees);
}

void check_turner_sheet(const OnPages& p) {
  const auto words = words_in_order({turner_sheet(p.d, fonts_for_test())});
  const Figures& plan = p.d.plan.figures;
  p.check("depth stop", after(words, "Depth stop", Kind::length), p.exact(plan, Figure::bore_depth_from_drilled_face),
          Side::at_least, rule);
  p.check("metal zone", after(words, "Metal zone", Kind::length), p.exact(plan, Figure::stud_embedded),
          Side::at_least, rule);
  p.check("spindle", after(words, "Spindle no faster than", Kind::rotational_speed),
          p.exact(plan, Figure::turning_speed_ceiling), Side::at_most, tens);
  p.check("section", after(words, "Section, squared", Kind::length), p.exact(plan, Figure::blank_squared_section),
          Side::at_least, rule);
  if (p.d.plan.rounded) {
    p.check("round to", after(words, "Round first to Ø", Kind::length), p.exact(plan, Figure::rounded_diameter),
            Side::at_least, caliper);
  }
  p.check("tip", after(words, "Drill's point from seat", Kind::length), p.exact(plan, Figure::bore_tip_depth),
          Side::at_least, rule);

  // The rows of the checks: what reads as a length there is their limits, from the first to the fifth.
  std::vector<double> limits;
  for (auto w = std::ranges::find(words, "Before turning"); w != words.end() && limits.size() < 5; ++w) {
    if (*w == "100 mm" || *w == "4 in") continue;  // the end of "per 100 mm", on a line of its own
    if (const auto si = read_si(*w, Kind::length)) limits.push_back(*si);
  }
  REQUIRE(limits.size() == 5);
  const double position =
      p.d.plan.rounded ? p.exact(plan, Figure::rounded_runout) : p.exact(plan, Figure::centring_seat_position) / 2;
  p.check("offset", limits[0], position, Side::at_most, caliper);
  p.check("rod", limits[1] / (p.inches ? 4 * 0.0254 : 0.1), p.exact(plan, Figure::centring_tilt), Side::at_most, rod);
  p.check("squareness", limits[2], p.d.order.seat.squareness.value / metre, Side::at_most, caliper);
  p.check("projection", limits[3], p.exact(plan, Figure::stud_projection), Side::at_most, rule);
  p.check("embedded", limits[4], p.exact(plan, Figure::stud_embedded), Side::at_least, rule);
}

}  // namespace

TEST_CASE("every limit on bath card, oven card and turner's sheet errs to its safe side, in both unit systems") {
  for (const bool inches : {false, true}) {
    for (const bool lathe : {false, true}) {
      for (int n = 0; n < 6; ++n) {
        CAPTURE(lathe);
        CAPTURE(n);
        const TestOrder order = odd_order(inches, lathe, n);
        const OnPages printed{order.dossier(), inches};
        check_bath_card(printed);
        check_oven_card(printed);
        check_turner_sheet(printed);
      }
    }
  }
}

TEST_CASE("a fraction of an inch stands only beside a decimal that is the same number") {
  // The sample's sizes are in sixteenths, the blank's that results from shrinkage is not.
  const TestOrder order{project_file("sample-jobs/inch/file-handle.toml"), project_file("sample-jobs/inch/shop.toml"),
                        "format = 1\npaper = \"Letter\"\n"};
  const Dossier& d = order.dossier();
  std::vector<Page> pages = bath_cards(d, fonts_for_test());
  for (Page& page : oven_cards(d, fonts_for_test())) pages.push_back(std::move(page));
  pages.push_back(turner_sheet(d, fonts_for_test()));
  const auto words = words_in_order(pages);
  int seen = 0;
  for (std::size_t i = 2; i < words.size(); ++i) {
    const auto close = words[i].find(')');
    const bool decimal = words[i].starts_with("(") && words[i].find_first_not_of("(.0123456789") == close;
    if (!decimal || close == std::string::npos) continue;
    // "1-1/2", "in", "(1.500)" or "1-1/2 in", "(1.500)".
    const std::string before = words[i - 1] == "in" ? words[i - 2] + " in" : words[i - 1];
    const auto fraction = read_si(before, Kind::length);
    CAPTURE(before);
    CAPTURE(words[i]);
    REQUIRE(fraction.has_value());
    CHECK(std::abs(*fraction / 0.0254 - std::stod(words[i].substr(1))) < 0.001);
    ++seen;
  }
  CHECK(seen >= 3);
}

TEST_CASE("runout is counted from the rounded blank: what the centres may be off is not in it") {
  // By hand: the bore may be off by e*, of which marking the centres may take 0.02 in, on the runout twice that.
  // Position Ø 0.130 in and 0.1137 in at the seat of the samples: 0.090 and 0.0737 in of runout.
  struct Row {
    const char *file, *runout;
  };
  for (const Row& row : {Row{"file-handle", "0.090 in"}, Row{"knob", "0.073 in"}}) {
    CAPTURE(row.file);
    const TestOrder order{project_file(std::string{"sample-jobs/inch/"} + row.file + ".toml"),
                          project_file("sample-jobs/inch/shop.toml")};
    const auto words = words_in_order({turner_sheet(order.dossier(), fonts_for_test())});
    CHECK(std::ranges::find(words, row.runout) != words.end());
    CHECK(std::ranges::find(words, "Round first to Ø") != words.end());
  }
}

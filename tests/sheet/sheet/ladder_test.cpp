#include "sheet/sheet/sheets.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string>
#include <vector>

#include "bath_fixture.h"
#include "plan/gate/gate_resin.h"
#include "test_dossier.h"
#include "treated_fixture.h"

using namespace blankwright;
using table_pages::count_of;
using table_pages::texts_of;

namespace {

TestOrder sample_order(bool inches, const std::string& own = "") {
  const Treated how{.inches = inches};
  return TestOrder{treated_job(how), treated_shop(how), own};
}

/// The same as a thick maul's handle, the wet masses of which pass two pounds.
TestOrder heavy_order(bool inches, const std::string& own = "", const std::string& thick = "84 mm") {
  const Treated how{.inches = inches};
  std::string job = treated_job(how);
  for (const char* thin : {"\"26 mm\"", "\"34 mm\"", "\"24 mm\""}) {
    job.replace(job.find(thin), std::string{thin}.size(), "\"" + thick + "\"");
  }
  return TestOrder{job, treated_shop(how), own};
}

struct Rung {
  double dry, wet, cured, most;
  bool planned;
};

/// The ladder as it stands on paper: numbers that share a baseline, four by four from the left.
std::vector<Rung> ladder_on(const Page& page) {
  std::vector<Text> numbers;
  for (const Text& text : texts_of(page)) {
    const bool is_number = text.words.find_first_not_of("0123456789.") == std::string::npos;
    const bool small = capitals_of(text) < 3.3;  // those of the drying are larger
    if (is_number && small && text.words.find('.') != std::string::npos) numbers.push_back(text);
  }
  std::ranges::stable_sort(numbers, [](const Text& a, const Text& b) {
    return std::abs((a.at.y - b.at.y) / mm) > 1 ? a.at.y < b.at.y : a.at.x < b.at.x;
  });
  std::vector<Rung> rungs;
  REQUIRE(numbers.size() % 4 == 0);
  for (std::size_t i = 0; i < numbers.size(); i += 4) {
    const auto value = [&](std::size_t n) { return std::stod(numbers.at(i + n).words); };
    rungs.push_back({value(0), value(1), value(2), value(3), numbers.at(i).face == Face::bold});
  }
  return rungs;
}

}  // namespace

TEST_CASE("the ladder's masses are those of the mixture, at least rounded up and at most rounded down") {
  // By hand: dry wood of mass m in a volume V leaves V − m/ρ_cw of voids; resin of density ρ_r fills a share f of
  // them: m + f ρ_r (V − m/ρ_cw) = m (1 − f ρ_r/ρ_cw) + f ρ_r V. ρ_cw 1.53 g/cm³, Siau 1984.
  for (const auto& [inches, heavy] : {std::pair{false, false}, {true, false}, {false, true}, {true, true}}) {
    CAPTURE(inches);
    CAPTURE(heavy);
    const TestOrder order = heavy ? heavy_order(inches) : sample_order(inches);
    const Dossier& d = order.dossier();
    if (heavy) REQUIRE(d.plan.process.uptake->least_wet > 2 * pound);
    const double unit = inches ? 28.349523125 : 1;  // grams; avoirdupois ounce, NIST SP 811
    const double last = inches ? 0.01 : 0.1;        // digit that is printed
    const double volume = d.plan.process.uptake->dry_volume / cm3;
    const double f = d.plan.process.uptake->fill / whole;
    const double resin = d.plan.process.resin->density.value / (gram / cm3);
    const double bleed = d.plan.process.resin->bleed_out.value / whole;
    const auto rungs = ladder_on(blank_lists(d, fonts_for_test()).front());
    CHECK(rungs.size() >= 8);
    for (const Rung& rung : rungs) {
      CAPTURE(rung.dry);
      // The planned blank's dry mass is printed rounded, so that its row is off by as much.
      const double dry = rung.planned ? d.plan.process.uptake->dry_mass / gram : rung.dry * unit;
      const double voids = volume - dry / 1.53;
      const double wet = (dry + f * resin * voids) / unit;
      const double cured = wet - bleed * (wet - dry / unit);
      const double most = (dry + resin * voids) / unit;
      CHECK(rung.wet >= wet - 1e-6);
      CHECK(rung.wet < wet + last + 1e-6);
      CHECK(rung.cured >= cured - 1e-6);
      CHECK(rung.cured < cured + last + 1e-6);
      CHECK(rung.most <= most + 1e-6);
      CHECK(rung.most > most - last - 1e-6);
    }
  }
}

TEST_CASE("a blank is more than full by the ladder where it is so by the gate") {
  for (const bool inches : {false, true}) {
    CAPTURE(inches);
    const TestOrder order = sample_order(inches);
    const Dossier& d = order.dossier();
    const Mass unit = inches ? ounce : gram;
    const double last = inches ? 0.01 : 0.1;
    const auto answer = [&](double dry, double wet) {
      BlankState blank;
      blank.stage = Stage::wet;
      blank.dry.push_back({{}, dry * unit});
      blank.wet.push_back({{}, wet * unit});
      return resin_gate({blank, d.plan, {}, d.shop.vacuum})->answer;
    };
    for (const Rung& rung : ladder_on(blank_lists(d, fonts_for_test()).front())) {
      if (rung.planned) continue;  // its dry mass is printed rounded
      CAPTURE(rung.dry);
      CHECK(answer(rung.dry, rung.most) == ResinAnswer::cure);
      CHECK(answer(rung.dry, rung.most + last) == ResinAnswer::impossible);
    }
  }
}

TEST_CASE("the planned blank is one of the ladder's rows, and both sides of it are there") {
  for (const bool inches : {false, true}) {
    const TestOrder order = sample_order(inches);
    const auto rungs = ladder_on(blank_lists(order.dossier(), fonts_for_test()).front());
    const auto planned = std::ranges::count_if(rungs, [](const Rung& r) { return r.planned; });
    CHECK(planned == 1);
    const auto found = std::ranges::find_if(rungs, [](const Rung& r) { return r.planned; });
    CHECK(std::ranges::any_of(rungs, [&](const Rung& r) { return r.dry < found->dry; }));
    CHECK(std::ranges::any_of(rungs, [&](const Rung& r) { return r.dry > found->dry; }));
  }
}

TEST_CASE("the planned blank's masses are whole beside their word, however heavy and however large the lettering") {
  for (const char* lettering : {"100 %", "115 %", "130 %"}) {
    CAPTURE(lettering);
    const TestOrder order = heavy_order(
        false, std::string{"format = 1\npaper = \"Letter\"\nlettering = \""} + lettering + "\"\n", "125 mm");
    REQUIRE(order.dossier().plan.process.uptake->dry_mass > 1000 * gram);
    const auto texts = texts_of(blank_lists(order.dossier(), fonts_for_test()).front());
    const std::string dry = text(decimal(order.dossier().plan.process.uptake->dry_mass / gram, 1));
    CHECK(count_of(texts, dry) == 1);
  }
}

TEST_CASE("where nothing is drawn in there is no ladder") {
  const Treated bare{.treated = false};
  const TestOrder order{treated_job(bare), treated_shop(bare)};
  const auto texts = texts_of(blank_lists(order.dossier(), fonts_for_test()));
  CHECK(std::ranges::none_of(texts, [](const Text& t) { return t.words.find("at least") != std::string::npos; }));
  CHECK(count_of(texts, "planned") == 0);
}

TEST_CASE("the list of blanks is written in grams and millimetres, or in ounces and inches") {
  for (const bool inches : {false, true}) {
    const TestOrder order = sample_order(inches);
    const auto texts = texts_of(blank_lists(order.dossier(), fonts_for_test()));
    const auto has = [&](const std::string& what) {
      return std::ranges::any_of(texts, [&](const Text& t) { return t.words.find(what) != std::string::npos; });
    };
    for (const char* unit : {"(g)", "(mm)"}) CHECK(has(unit) == !inches);
    for (const char* unit : {"(oz)", "(in)"}) CHECK(has(unit) == inches);
  }
}

TEST_CASE("what masses are written into is at least 17.5 mm wide on A4 and Letter with the usual margin") {
  // Asked for by who writes in them; common practice, no source.
  for (const bool inches : {false, true}) {
    const TestOrder order = sample_order(inches, inches ? letter_template : "");
    const Page page = blank_lists(order.dossier(), fonts_for_test()).front();
    std::vector<Box> columns;
    for (const Text& text : texts_of(page)) {
      for (const std::string head : {"Dry mass 1", "Dry mass 2", "Wet mass", "Cured mass"}) {
        if (!text.words.starts_with(head) && text.words + " mass" != head) continue;  // in one line, or begun
        // The next upright rule on either side of the head's middle.
        const Length middle = text.at.x + fonts_for_test().width(text.words, text.face, text.size) / 2;
        Length left{}, right = page.paper.width;
        for (const Item& item : page.items) {
          const auto* stroke = std::get_if<Stroke>(&item.mark);
          if (stroke == nullptr) continue;
          for (Path path : stroke->paths) {
            if (stroke->closed) path.push_back(path.front());
            for (std::size_t i = 1; i < path.size(); ++i) {
              const Spot a = path.at(i - 1), b = path.at(i);
              const bool upright = abs(a.x - b.x) < 0.01 * mm;
              if (!upright || std::min(a.y, b.y) > text.at.y || std::max(a.y, b.y) < text.at.y) continue;
              if (a.x < middle) left = std::max(left, a.x);
              if (a.x > middle) right = std::min(right, a.x);
            }
          }
        }
        columns.push_back({left, {}, right - left, {}});
      }
    }
    REQUIRE(columns.size() == 4);
    for (const Box& column : columns) CHECK(column.width / mm >= 17.5 - 0.01);
  }
}

#include "plan/process/judge_cure.h"
#include "diagnose/problem.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "judging.h"
#include "planning.h"

using namespace blankwright;

namespace {

template <class T>
Given<T> at_line(T value, const Source& source, int line) {
  return {value, Origin::shop, {source, line, 1, 1}, {}};
}

/// A shop with one oven and one resin that cures at 200 °F; its figures are invented.
struct Bench {
  Source source = source_of("shop.toml", std::string(100, '\n'));
  Shop shop;
  Order order;
  ResinFacts resin;

  Bench() {
    shop.ovens.push_back(oven("Kiln", 20));
    resin.name = given(std::string{"Resin"});
    resin.cure_air = at_line(fahrenheit(200), source, 10);
    resin.cure_core = at_line(fahrenheit(190), source, 11);
    resin.cure_hold = at_line(30 * minute, source, 12);
  }

  OvenFacts oven(const std::string& name, int line) const {
    OvenFacts o;
    o.name = at_line(name, source, line);
    o.width = at_line(400 * mm, source, line + 1);
    o.depth = at_line(350 * mm, source, line + 2);
    o.height = at_line(300 * mm, source, line + 3);
    o.calibration = {pair_of(80, 76, line + 5), pair_of(110, 105, line + 6)};
    return o;
  }
  CalibrationPair pair_of(double dial, double shown, int line) const {
    return {at_line(celsius(dial), source, line), at_line(celsius(shown), source, line)};
  }

  const OvenFacts* chosen(Diagnostics& said, Length section = 38 * mm,
                          std::optional<Length> sawn_section = {}) const {
    BlankSize blank;
    blank.dry_section = section;
    blank.dry_length = 150 * mm;
    blank.sawn_section = sawn_section;
    blank.sawn_length = 150 * mm;
    const auto ovens = judge_ovens(order, shop, resin, blank, said);
    return ovens.empty() ? nullptr : ovens.front();
  }
  /// What keeps the shop from curing it.
  Diagnostics refused(Length section = 38 * mm) const {
    Diagnostics said;
    CHECK(chosen(said, section) == nullptr);
    CHECK(said.has_errors());
    return said;
  }
};

}  // namespace

TEST_CASE("a calibration that does not rise in both is refused at the pair that falls") {
  Bench b;
  Diagnostics said;
  CHECK(ovens_make_sense(b.shop, said));
  b.shop.ovens.front().calibration = {b.pair_of(80, 76, 25), b.pair_of(90, 88, 26), b.pair_of(100, 88, 27),
                                      b.pair_of(95, 99, 28)};
  CHECK_FALSE(ovens_make_sense(b.shop, said));
  CHECK(said.errors() == 2);
  for (const Diagnostic& d : said.all()) CHECK(d.problem == Problem::calibration_falls);
  CHECK(said.all().front().at.line == 27);
  CHECK(said.all().front().message_text().starts_with("shown temperature of 88.0 °C"));
  CHECK(said.all().back().at.line == 28);
  CHECK(said.all().back().message_text().starts_with("dial of 95.0 °C"));
}

TEST_CASE("without an oven no cure is planned, with a warning") {
  Bench b;
  b.shop.ovens.clear();
  Diagnostics said;
  CHECK(b.chosen(said) == nullptr);
  CHECK(about(said, Problem::oven_missing).severity == Severity::warning);
  CHECK_FALSE(said.has_errors());
}

TEST_CASE("an oven that was as hot as its dial goes and still colder than the cure is refused") {
  // The resin cures at 93.33 °C.
  Bench b;
  b.shop.ovens.front().calibration = {b.pair_of(80, 76, 25), b.pair_of(110, 93.4, 26)};
  Diagnostics said;
  CHECK(b.chosen(said) == &b.shop.ovens.front());
  CHECK(said.all().empty());
  b.shop.ovens.front().calibration = {b.pair_of(80, 76, 25), b.pair_of(110, 93.3, 26)};
  const Diagnostics refused = b.refused();
  const Diagnostic& d = about(refused, Problem::oven_colder_than_cure);
  CHECK(d.at.line == 26);
  REQUIRE_FALSE(d.labels.empty());
  CHECK(d.labels.front().at.line == 10);
}

TEST_CASE("a dial is not guessed beyond what was measured") {
  Bench b;
  b.shop.ovens.front().calibration = {b.pair_of(70, 66, 25), b.pair_of(90, 87, 26)};
  CHECK(about(b.refused(), Problem::calibration_too_short).at.line == 26);
  b.shop.ovens.front().calibration = {b.pair_of(100, 93.4, 25), b.pair_of(120, 112, 26)};
  CHECK(about(b.refused(), Problem::calibration_too_short).at.line == 25);
  b.shop.ovens.front().calibration = {b.pair_of(100, 93.3, 25), b.pair_of(120, 112, 26)};
  Diagnostics said;
  CHECK(b.chosen(said) != nullptr);
  CHECK(said.all().empty());
}

TEST_CASE("an oven that was never measured is used without a dial, with a warning how to measure it") {
  Bench b;
  b.shop.ovens.front().calibration.clear();
  Diagnostics said;
  CHECK(b.chosen(said) == &b.shop.ovens.front());
  const Diagnostic& d = about(said, Problem::calibration_too_short);
  CHECK(d.severity == Severity::warning);
  CHECK(d.at.line == 20);
  CHECK(d.hint_text().find("calibration = [{dial = ") != std::string::npos);
}

TEST_CASE("an oven in which not one blank lies is refused") {
  // 300 mm high less twice 40 mm: 220 mm.
  Bench b;
  Diagnostics said;
  CHECK(b.chosen(said, 220 * mm) != nullptr);
  CHECK(about(b.refused(221 * mm), Problem::oven_too_small).at.line == 21);
}

TEST_CASE("an oven in which the blank lies dry, but not as it is sawn, is refused, with what else would do") {
  // 300 mm high less twice 40 mm: 220 mm.
  Bench b;
  Diagnostics taken, refused;
  CHECK(b.chosen(taken, 215 * mm, 220 * mm) != nullptr);
  CHECK(taken.all().empty());
  CHECK(b.chosen(refused, 215 * mm, 221 * mm) == nullptr);
  const Diagnostic& d = about(refused, Problem::oven_too_small);
  CHECK(refused.errors() == 1);
  CHECK(d.message_text().find("221.0 mm × 150.0 mm, sawn and not yet dry,") != std::string::npos);
  CHECK(d.hint_text().find("301.0 mm × 230.0 mm × 301.0 mm") != std::string::npos);
  CHECK(d.hint_text().find("blank = {section = \"215.0 mm\", length = \"150.0 mm\", state = \"dry\"}") !=
        std::string::npos);
  // A larger one behind it does.
  b.shop.ovens.push_back(b.oven("Large", 40));
  b.shop.ovens.back().height = given(301 * mm);
  Diagnostics said;
  CHECK(b.chosen(said, 215 * mm, 221 * mm) == &b.shop.ovens.back());
  CHECK(said.all().empty());
}

TEST_CASE("the first oven that can is taken, and where none can each says why") {
  Bench b;
  b.shop.ovens.push_back(b.oven("Large", 40));
  b.shop.ovens.front().height = given(100 * mm);
  Diagnostics said;
  CHECK(b.chosen(said) == &b.shop.ovens.back());
  CHECK(said.all().empty());
  b.shop.ovens.back().calibration = {b.pair_of(60, 55, 45), b.pair_of(80, 76, 46)};
  const Diagnostics refused = b.refused();
  CHECK(refused.errors() == 2);
  about(refused, Problem::oven_too_small);
  about(refused, Problem::calibration_too_short);
}

TEST_CASE("all ovens that can are told, one without a calibration only where it is the first") {
  Bench b;
  b.shop.ovens.push_back(b.oven("Low", 40));
  b.shop.ovens.push_back(b.oven("Uncalibrated", 60));
  b.shop.ovens.push_back(b.oven("Third", 80));
  b.shop.ovens.at(1).height = given(100 * mm);
  b.shop.ovens.at(2).calibration.clear();
  BlankSize blank;
  blank.dry_section = 38 * mm;
  blank.dry_length = 150 * mm;
  Diagnostics said;
  const auto told = [&] { return judge_ovens(b.order, b.shop, b.resin, blank, said); };
  CHECK(told() == std::vector<const OvenFacts*>{&b.shop.ovens.at(0), &b.shop.ovens.at(3)});
  CHECK(said.all().empty());
  std::swap(b.shop.ovens.at(0), b.shop.ovens.at(2));
  CHECK(told() == std::vector<const OvenFacts*>{&b.shop.ovens.at(0), &b.shop.ovens.at(2), &b.shop.ovens.at(3)});
  about(said, Problem::calibration_too_short);
}

TEST_CASE("a core that is to be as warm as the air is refused") {
  Bench b;
  const auto judged = [&](Temperature core) {
    b.resin.cure_core = at_line(core, b.source, 11);
    Diagnostics said;
    Cure cure;
    cure.air = b.resin.cure_air.value;
    cure.core = core;
    judge_cure(cure, b.order, b.shop, b.resin, said);
    return said;
  };
  CHECK(judged(fahrenheit(199)).all().empty());
  const Diagnostics said = judged(fahrenheit(200));
  const Diagnostic& d = about(said, Problem::core_not_reached);
  CHECK(d.severity == Severity::error);
  CHECK(d.at.line == 11);
}

TEST_CASE("a cure longer than the data sheet allows is refused, one that might be is told of") {
  Bench b;
  b.resin.cure_most = at_line(2 * hour, b.source, 13);
  const auto judged = [&](Duration likely, Duration cautious) {
    Diagnostics said;
    Cure cure;
    cure.air = b.resin.cure_air.value;
    cure.core = b.resin.cure_core->value;
    cure.total_likely = likely;
    cure.total = cautious;
    judge_cure(cure, b.order, b.shop, b.resin, said);
    return said;
  };
  CHECK(judged(90 * minute, 2 * hour).all().empty());
  const Diagnostics perhaps = judged(90 * minute, 121 * minute);
  CHECK(about(perhaps, Problem::cure_too_long).severity == Severity::warning);
  const Diagnostics surely = judged(121 * minute, 150 * minute);
  CHECK(about(surely, Problem::cure_too_long).severity == Severity::error);
  CHECK(about(surely, Problem::cure_too_long).at.line == 13);
  b.resin.cure_most.reset();
  CHECK(judged(121 * minute, 150 * minute).all().empty());
}

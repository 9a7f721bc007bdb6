#include <doctest/doctest.h>

#include "block_in_air.h"
#include "gated_blank.h"
#include "plan/gate/gate_cure.h"

using namespace blankwright;

namespace {

constexpr Instant after(int minutes) { return monday + std::chrono::minutes{minutes}; }

/// Its core time is worked out elsewhere; the hold is an hour.
Cure block(bool from_core) {
  Cure cure;
  cure.air = fahrenheit(200);
  cure.core = celsius(85);
  cure.hold = 1 * hour;
  cure.hold_from_core = from_core;
  cure.cautiously = block_of_two_answers();
  return cure;
}

struct Load {
  LoadState load;
  Cure cure;
  explicit Load(bool from_core = true) : cure{block(from_core)} {
    load.name = "O2";
    load.first_in = after(0);
  }
  Load& core(int minute, double degrees) {
    load.core.push_back({after(minute), celsius(degrees)});
    return *this;
  }
  Load& air(int minute, double degrees) {
    load.air.emplace_back(after(minute), celsius(degrees));
    return *this;
  }
  /// Of a blank that went in at minute 0 and came out then, or is still in.
  CureGate out(int minute, int into = 0) const {
    return cure_gate({load, cure, after(into), after(minute), after(minute)});
  }
  CureGate in(int minute) const { return cure_gate({load, cure, after(0), std::nullopt, after(minute)}); }
};

}  // namespace

TEST_CASE("the time by the air alone is the core's at that air, and the hold") {
  CHECK(*cure_time(block(true), fahrenheit(200)) / second == doctest::Approx(4532.8 + 3600).epsilon(1e-4));
  CHECK(*cure_time(block(true), celsius(90)) > *cure_time(block(true), celsius(93)));
  CHECK_FALSE(cure_time(block(true), celsius(85)).has_value());  // the core never gets there
  // From the air: the longer of the two, in air that is the data sheet's; thermometers are read to a degree.
  CHECK(*cure_time(block(false), celsius(93)) / second > 4532.8);
  CHECK(*cure_time(block(false), fahrenheit(200)) / second == doctest::Approx(4532.8).epsilon(1e-4));
  CHECK_FALSE(cure_time(block(false), celsius(92)).has_value());
  Cure no_core = block(false);
  no_core.core.reset();
  no_core.cautiously.reset();
  CHECK(*cure_time(no_core, celsius(95)) / hour == doctest::Approx(1));
}

TEST_CASE("a core tells of those blanks of its load that warm no later") {
  // That a thin block's middle is warm first follows from heating_time(), which its own tests hold against a
  // handbook.
  const BlankId thin = BlankId::nth(1), thick = BlankId::nth(2), unknown = BlankId::nth(3);
  const std::vector<CoreTime> both{{thin, 40 * minute}, {thick, 70 * minute}};
  Cure of_thin = block(true), of_thick = block(true);
  of_thin.core_time_cautious = 40 * minute;
  of_thick.core_time_cautious = 70 * minute;
  struct Row {
    std::optional<BlankId> in;
    bool thin, thick;
  };
  for (const Row& row : {Row{thin, true, false}, Row{thick, true, true}, Row{std::nullopt, true, false}}) {
    const CoreReading reading{after(80), celsius(86), row.in};
    CHECK(tells_of(reading, of_thin, both) == row.thin);
    CHECK(tells_of(reading, of_thick, both) == row.thick);
  }
  CHECK(tells_of({after(80), celsius(86)}, of_thick, std::span{both}.subspan(1)));  // all alike
  CHECK_FALSE(tells_of({after(80), celsius(86), unknown}, of_thick, both));         // it has no plan

  LoadState load = Load{}.load;
  load.core.push_back({after(80), celsius(86), thin});
  const auto gate = [&](const Cure& cure) { return cure_gate({load, cure, after(0), after(140), after(140), both}); };
  CHECK(gate(of_thin).answer == CureAnswer::by_core);
  CHECK(gate(of_thick).answer == CureAnswer::open);
  CHECK(gate(of_thick).core_of_others);
  load.core.push_back({after(80), celsius(86), thick});
  CHECK(gate(of_thick).answer == CureAnswer::by_core);
}

TEST_CASE("a core that was warm and held answers, from the first reading after the last that was not") {
  CHECK(Load{}.core(80, 85).out(140).answer == CureAnswer::by_core);
  CHECK(Load{}.core(80, 85).out(138).answer == CureAnswer::open);
  CHECK(Load{}.core(80, 85).out(138).out_from == after(140));
  CHECK(Load{}.core(80, 84.6).out(140).answer == CureAnswer::by_core);  // read to a degree
  CHECK(Load{}.core(80, 84.4).out(300).answer == CureAnswer::open);
  CHECK(Load{}.core(80, 86).core(100, 80).out(150).answer == CureAnswer::open);  // the oven went out
  CHECK(Load{}.core(80, 86).core(100, 80).core(130, 86).out(190).answer == CureAnswer::by_core);
  CHECK(Load{}.core(80, 86).in(100).answer == CureAnswer::in_oven);
  CHECK(Load{}.core(80, 86).in(100).out_from == after(140));
  CHECK(Load{}.core(80, 86).in(141).answer == CureAnswer::by_core);
  // A blank that was put in half an hour after the load's first is half an hour behind what was read.
  CHECK(Load{}.core(80, 86).out(160, 30).answer == CureAnswer::open);
  CHECK(Load{}.core(80, 86).out(170, 30).answer == CureAnswer::by_core);
  CHECK(Load{}.core(150, 86).out(140).answer == CureAnswer::open);  // read when it was out already
}

TEST_CASE("where the data sheet counts from the air, the hold begins when the air was at its temperature") {
  CHECK(Load{false}.air(5, 93).core(62, 86).out(65).answer == CureAnswer::by_core);
  CHECK(Load{false}.air(5, 93).core(62, 86).out(63).answer == CureAnswer::open);
  CHECK(Load{false}.core(62, 86).out(65).answer == CureAnswer::open);  // nothing says when the air was
}

TEST_CASE("the air's temperature, first and last, answers by time at the lowest") {
  // 8132.8 s are 135.5 min.
  CHECK(Load{}.air(5, 93.4).air(141, 93.4).out(141).answer == CureAnswer::by_time);
  CHECK(Load{}.air(5, 93.4).air(137, 93.4).out(138).answer == CureAnswer::open);
  CHECK(Load{}.air(5, 93.4).out(300).answer == CureAnswer::open);  // what it was at the end nobody knows
  CHECK(Load{}.air(5, 93.4).air(70, 89).air(141, 93.4).out(141).answer == CureAnswer::open);
  CHECK(*Load{}.air(5, 93.4).air(70, 89).air(141, 93.4).out(141).lowest == celsius(89));
  CHECK(Load{}.air(-10, 93.4).air(141, 93.4).out(141).answer == CureAnswer::open);  // read before it was in
  CHECK(Load{}.air(5, 84).in(30).air_too_cold);
}

TEST_CASE("a blank that was cut open answers before all else") {
  const BlankId hard = BlankId::nth(1), soft = BlankId::nth(2);
  Load load;
  load.load.cut = {{hard, true}};
  CHECK(load.out(30).answer == CureAnswer::cut_open);
  load.load.cut.push_back({soft, false});
  CHECK(load.out(30).answer == CureAnswer::soft);
  CHECK(load.core(80, 90).out(500).answer == CureAnswer::soft);
  CHECK(load.out(30).cut == soft);
  CHECK(verdict_of(load.out(30).answer) == Verdict::held);
}

TEST_CASE("what was cut open and is hard tells of those blanks of its load that warm no later, and soft of all") {
  // As with what is read of cores: a thin block's middle is warm first, see above.
  const BlankId thin = BlankId::nth(1), thick = BlankId::nth(2);
  const std::vector<CoreTime> both{{thin, 40 * minute}, {thick, 70 * minute}};
  Load load;
  const auto gate = [&](Duration core_time) {
    load.cure.core_time_cautious = core_time;
    return cure_gate({load.load, load.cure, after(0), after(140), after(140), both});
  };
  load.load.cut = {{thin, true}};
  CHECK(gate(40 * minute).answer == CureAnswer::cut_open);
  CHECK(gate(70 * minute).answer == CureAnswer::open);
  CHECK(gate(70 * minute).cut_of_others);
  // Why the cut does not answer is said before when the load's readings would have.
  load.air(5, 93.4).air(137, 93.4);
  const CureGate open = gate(70 * minute);
  REQUIRE(open.out_from.has_value());
  CHECK(text(says_of(open, load.load, *find_zone("Europe/Berlin"), UnitSystem::metric)).find("but warms sooner") !=
        std::string::npos);
  load.load.air.clear();
  load.core(80, 86);  // nobody said in which
  CHECK(gate(70 * minute).answer == CureAnswer::open);
  load.load.core.back().in = thick;
  CHECK(gate(70 * minute).answer == CureAnswer::by_core);
  load.load.core.clear();
  load.load.cut.push_back({thick, true});
  CHECK(gate(70 * minute).cut == thick);
  load.load.cut = {{thin, false}};
  for (const Duration core_time : {40 * minute, 70 * minute}) CHECK(gate(core_time).answer == CureAnswer::soft);
}

TEST_CASE("what is open names what to cut: the blank of the load that warms last, a witness before a piece") {
  // Which warms last is in the core times, see above; that a witness is there to be cut is what the word means.
  const BlankId thin = BlankId::nth(1), own = BlankId::nth(2), piece = BlankId::nth(3), witness = BlankId::nth(4);
  std::vector<CoreTime> load_of{{thin, 40 * minute, 140 * minute, true},
                                {own, 70 * minute, 140 * minute, true},
                                {piece, 80 * minute, 140 * minute, true},
                                {witness, 80 * minute, 140 * minute, true, true}};
  Load load;
  load.cure.core_time_cautious = 70 * minute;
  const auto gate = [&] { return cure_gate({load.load, load.cure, after(0), after(140), after(140), load_of}); };
  const auto words = [&] {
    return text(says_of(gate(), load.load, *find_zone("Europe/Berlin"), UnitSystem::metric));
  };
  CHECK(gate().to_cut == witness);
  load_of.back().can_be_cut = false;
  CHECK(gate().to_cut == piece);
  CHECK(words().find("cut " + piece.shown() + " open") != std::string::npos);
  load_of.at(2).time = 70 * minute;  // as slow as the one that is judged: the first of them is named for both
  CHECK(gate().to_cut == own);
  load_of.at(2).stay = 200 * minute;  // it was in longer: what it shows frees nothing
  CHECK(gate().to_cut == own);
  load_of.at(1).can_be_cut = false;  // turned against its gate
  CHECK(gate().none_to_cut);
  CHECK(words().find("cannot be cut open any more") != std::string::npos);
  load_of.clear();
  CHECK(words().find("cut a blank of it open") != std::string::npos);
}

TEST_CASE("what was cut open and is hard frees no blank that came out of the oven sooner") {
  // Of two like blocks in one air the one that was in for a shorter time was heated less. Common practice, no source.
  const BlankId cut = BlankId::nth(1), other = BlankId::nth(2);
  std::vector<CoreTime> both{{cut, 40 * minute, 140 * minute}, {other, 40 * minute}};
  Load load;
  load.cure.core_time_cautious = 40 * minute;
  load.load.cut = {{cut, true}};
  const auto out = [&](int into, int minute) {
    return cure_gate({load.load, load.cure, after(into), after(minute), after(300), both});
  };
  CHECK(out(0, 140).answer == CureAnswer::cut_open);
  CHECK(out(0, 139).answer == CureAnswer::cut_open);  // entered to a minute
  CHECK(out(0, 100).answer == CureAnswer::open);
  CHECK(out(0, 100).cut_of_longer);
  CHECK(out(60, 140).answer == CureAnswer::open);
  both.back().stay = 90 * minute;
  load.load.cut.push_back({other, true});
  CHECK(out(0, 100).cut == other);
  CHECK(out(0, 100).answer == CureAnswer::cut_open);
  load.load.cut = {{cut, false}};
  CHECK(out(0, 200).answer == CureAnswer::soft);
}

#include <doctest/doctest.h>
#include <fstream>
#include <iterator>

#include "bench_of_work.h"
#include "found_words.h"

using namespace blankwright;

namespace {

/// Two pieces and the witness.
struct ThreeBlanks : BenchOfWork {
  std::string a = blanks.at(0), b = blanks.at(1), witness = blanks.back();
};

/// All that comes after the cure, entered as it should be; what was said.
std::string finish(const BenchOfWork& w, double hours, const std::string& id) {
  std::string said;
  const auto enter = [&](std::vector<std::string> words) { said += w.enter(hours += 0.1, std::move(words)); };
  enter({"graded", id, "verdict=go-on"});
  enter({"squared", id, "width=41 mm", "depth=41 mm", "length=120 mm"});
  const std::vector<std::string> axis{"face_1=20.5 mm", "face_2=20.5 mm", "face_3=20.5 mm", "face_4=20.5 mm",
                                      "lean_1=0 mm",    "lean_2=0 mm",    "over=100 mm"};
  for (const char* kind : {"bored", "stud-measured"}) {
    std::vector<std::string> words{kind, id};
    words.insert(words.end(), axis.begin(), axis.end());
    enter(words);
  }
  enter({"turned", id});
  enter({"inspected", id, "result=pass"});
  enter({"sent", id});
  return said;
}

}  // namespace

TEST_CASE("dried, soaked and cured as its cards say, a blank meets no HOLD") {
  const ThreeBlanks w;
  std::string said;
  const auto enter = [&](double hours, std::vector<std::string> words) { said += w.enter(hours, std::move(words)); };
  const std::vector<std::string> ids{w.a, w.witness};
  const auto each = [&](double hours, const std::string& kind, const std::string& word = "remark=as planned") {
    for (const std::string& id : ids) enter(hours, {kind, id, word});
  };
  each(-23, "sawn", "board=T4");
  each(-22, "into-drying", "load=D1");
  each(0, "weighed", w.grams(w.dry_g));
  each(2.2, "out-of-drying");
  each(2.6, "weighed", w.grams(w.dry_g));
  each(2.7, "sealed");  // over the night
  each(19, "opened");
  each(19.1, "into-bath", "bath=K2");
  enter(19.3, {"vacuum-on", "bath=K2"});
  enter(19.4, {"target-reached", "bath=K2", "gauge=90 kPa"});
  enter(25.4, {"bubbling-ended", "bath=K2"});
  enter(25.5, {"released", "bath=K2"});
  each(38, "drained");
  each(38.1, "weighed", w.grams(w.wet_g));
  each(38.2, "into-oven", "load=O2");
  SUBCASE("by a core reading: 1 h of hold from it on") {
    enter(39.6, {"core-temperature", "load=O2", "temperature=86 °C"});
  }
  SUBCASE("by time: air of 93 °C asks for 147 min, and it was in for 150") {
    enter(38.3, {"oven-temperature", "load=O2", "temperature=93 °C"});
    enter(40.8, {"oven-temperature", "load=O2", "temperature=94 °C"});
  }
  each(40.8, "out-of-oven");
  each(42.8, "weighed", w.grams(w.wet_g - 0.03 * (w.wet_g - w.dry_g)));
  enter(43, {"witness-cut", w.witness, "filled=yes", "hard=yes"});
  said += finish(w, 44, w.a);
  CHECK_MESSAGE(!has(said, "HOLD"), said);
  CHECK_MESSAGE(!has(said, "against its check"), said);
  CHECK_FALSE(has(w.ask(60, w.a), "HOLD"));
}

TEST_CASE("a load is answered by its own witness or readings, never by another load's") {
  const ThreeBlanks w;
  w.bathe({w.a, w.b, w.witness});
  w.enter(24, {"into-oven", w.a, "load=O2"});
  CHECK(has(w.enter(24.4, {"core-temperature", "load=O2", "temperature=60 °C"}),
            "load O2: enter the true temperature of its air now and when it comes out, or that of a core"));
  const std::string early = w.enter(24.5, {"out-of-oven", w.a});
  CHECK(has(early, "went on against its check (cure)"));
  CHECK(has(early, "HOLD: nothing shows that load O2 is cured"));
  w.enter(25, {"into-oven", w.b, w.witness, "load=O3"});
  // The resin asks for 85 °C in the core and 1 h from there.
  CHECK(has(w.enter(26.4, {"core-temperature", "load=O3", "temperature=86 °C"}),
            "load O3 may come out from 2027-05-04 17:24 on"));
  w.enter(27.5, {"out-of-oven", w.b, w.witness});
  w.enter(29, {"witness-cut", w.witness, "filled=yes", "hard=yes"});

  CHECK(has(w.ask(30, w.a), "HOLD: nothing shows that load O2 is cured"));
  CHECK(has(w.ask(30, w.a), "the resin reached the middle"));  // that is the bath's
  CHECK_FALSE(has(w.ask(30, w.b), "HOLD"));
  const std::string said = finish(w, 31, w.a);
  for (const char* kind : {"squared", "bored", "stud-measured", "turned", "inspected", "sent"})
    CHECK(has(said, kind));
  std::size_t told = 0;
  for (std::size_t at = 0; (at = said.find("against its check (cure)", at)) != std::string::npos; ++at) ++told;
  CHECK(told == 6);
  CHECK(
      has(w.ask(60, w.a), "went on against its check (cure): HOLD: nothing shows"));  // the history, once it is sent
}

TEST_CASE("the bench tells when a load may come out, and says NO where it came out before") {
  const ThreeBlanks w;
  w.bathe({w.a});
  w.enter(24, {"into-oven", w.a, "load=O2"});
  const ProgramRun read = w.run(25.4, {"bench"}, "core-temperature O2 86 °C\n");
  CHECK_MESSAGE(has(read.out, "OK core-temperature: load O2, temperature 86.0 °C | load O2 may come out from"),
                read.out);
  const ProgramRun out = w.run(25.6, {"bench"}, "out-of-oven " + w.a + "\n");
  CHECK_MESSAGE(has(out.out, "NO went on against its check (cure): load O2 may come out from"), out.out);
  CHECK_MESSAGE(has(out.out, "HOLD: nothing shows that load O2 is cured"), out.out);
  CHECK(has(out.out, "\a"));
}

TEST_CASE("the list of blanks says HOLD where the terminal does") {
  const ThreeBlanks w;
  w.bathe({w.a, w.b, w.witness});
  w.enter(24, {"into-oven", w.a, w.b, w.witness, "load=O2"});
  w.enter(24.5, {"out-of-oven", w.a, w.b, w.witness});
  const auto listed = [&](double hours) {
    const ProgramRun run =
        run_program({"compile", "--pages", "List of blanks", "--out", w.jobs.out(), w.jobs / "metric/burnisher.toml"},
                    BenchOfWork::moment(hours));
    REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
    std::string text;
    for (const FoundWord& word : found_words(w.jobs.out() + "/TA-0147/traveller-list-of-blanks.pdf"))
      text += word.text + " ";
    return text;
  };
  for (const std::string& id : {w.a, w.b}) CHECK(has(w.ask(25, id), "cut " + w.witness + " open"));
  CHECK(has(listed(25), "HOLD"));
  w.enter(26, {"witness-cut", w.witness, "filled=yes", "hard=yes"});
  for (const std::string& id : {w.a, w.b}) CHECK_FALSE(has(w.ask(27, id), "HOLD"));
  CHECK_FALSE(has(listed(27), "HOLD"));
  // By the job that is compiled, not by the one before it.
  w.enter(28, {"squared", w.a, "width=41 mm", "depth=41 mm", "length=120 mm"});
  w.enter(28.1, BenchOfWork::axis("bored", w.a));
  const std::string job = w.jobs / "metric/burnisher.toml";
  std::string larger = bytes_of(job);
  larger.replace(larger.find("34 mm"), 5, "42 mm");
  put_bytes(job, larger);
  const std::string by_new_job = listed(29);
  CHECK(has(w.ask(29, w.a), "HOLD"));
  CHECK(has(by_new_job, "HOLD"));
}

TEST_CASE("a witness that is soft holds its load, one that is not filled holds its bath") {
  const ThreeBlanks w;
  w.bathe({w.a, w.b, w.witness});
  w.enter(24, {"into-oven", w.a, "load=O2"});
  w.enter(24, {"into-oven", w.b, w.witness, "load=O3"});
  for (const char* load : {"load=O2", "load=O3"}) w.enter(25.5, {"core-temperature", load, "temperature=86 °C"});
  w.enter(27, {"out-of-oven", w.a, w.b, w.witness});
  SUBCASE("soft") {
    w.enter(28, {"witness-cut", w.witness, "filled=yes", "hard=no"});
    CHECK(has(w.ask(29, w.b), "HOLD: " + w.witness + " of load O3 was cut open and is not hard to the middle"));
    CHECK_FALSE(has(w.ask(29, w.a), "HOLD"));
  }
  SUBCASE("not filled") {
    w.enter(28, {"witness-cut", w.witness, "filled=no", "hard=yes", "reason=dry core"});
    for (const std::string& id : {w.a, w.b}) {
      CHECK(has(w.ask(29, id), "the witness of bath K2, the resin did not reach the middle: dry core"));
    }
  }
}

TEST_CASE("a vacuum that ran through the night asks for a longer soak, which the wet mass answers") {
  const ThreeBlanks w;
  // From target to release 17.9 h, so the soak is 35.8 h at the shop's 200 %; it was 12.8 h.
  w.bathe({w.a}, {4, 4.1, 10.1, 22, 34.8});
  CHECK_FALSE(has(w.ask(35, w.a), "HOLD"));
  CHECK(has(w.ask(35, w.a), "cure it"));

  const ThreeBlanks unweighed;
  for (const double hours : {0.0, 2.5}) unweighed.enter(hours, {"weighed", unweighed.a, w.grams(w.dry_g)});
  unweighed.enter(3, {"into-bath", unweighed.a, "bath=K2"});
  unweighed.enter(4, {"vacuum-on", "bath=K2"});
  unweighed.enter(4.1, {"target-reached", "bath=K2"});
  unweighed.enter(10.1, {"bubbling-ended", "bath=K2"});
  unweighed.enter(22, {"released", "bath=K2"});
  const std::string out = unweighed.enter(34.8, {"drained", unweighed.a});
  CHECK_FALSE(has(out, "HOLD"));
  CHECK(has(out, "it soaked 12 h 48 min, and should have 35 h 48 min"));
}

TEST_CASE("hot wood does not go into the bath") {
  const ThreeBlanks w;
  w.enter(-22, {"into-drying", w.a, "load=D1"});
  w.enter(0, {"weighed", w.a, w.grams(w.dry_g)});
  w.enter(2.5, {"out-of-drying", w.a});
  w.enter(2.6, {"weighed", w.a, w.grams(w.dry_g)});
  const std::string cool = "dry; let it cool sealed until 2027-05-03 18:30: hot wood starts the cure in the bath";
  CHECK(has(w.ask(4.4, w.a), cool));          // the shop's 2 h are over at 16:30 UTC, 18:30 there
  CHECK_FALSE(has(w.ask(4.4, w.a), "HOLD"));  // it is only not due yet
  CHECK_FALSE(has(w.ask(4.6, w.a), cool));
  CHECK(has(w.enter(3, {"into-bath", w.a, "bath=K2"}), "went on against its check (dry): " + cool));
}

TEST_CASE("a dry blank takes up moisture while it lies open, and far slower while it lies sealed") {
  const ThreeBlanks w;
  for (const double hours : {0.0, 2.5}) {
    for (const std::string& id : {w.a, w.b}) w.enter(hours, {"weighed", id, w.grams(w.dry_g)});
  }
  w.enter(2.6, {"sealed", w.b});
  CHECK(has(w.ask(100, w.a), "HOLD: it lay open"));
  CHECK_FALSE(has(w.ask(100, w.b), "HOLD"));
  CHECK(has(w.ask(203, w.b), "check: dry       it lay sealed so long"));  // 200 h, and before that open
  w.enter(100, {"opened", w.b});
  CHECK_FALSE(has(w.ask(100.5, w.b), "HOLD"));
  CHECK(has(w.ask(200, w.b), "HOLD: it lay open"));
}

TEST_CASE("a dry blank that lay sealed for long is weighed, and goes into the bath or back into the oven by that") {
  const ThreeBlanks w;
  const auto both = [&](double hours, std::vector<std::string> words) {
    words.insert(words.begin() + 1, {w.a, w.b});
    w.enter(hours, std::move(words));
  };
  both(-24, {"into-drying", "load=D1"});
  for (const double hours : {0.0, 2.5})
    for (const std::string& id : {w.a, w.b}) w.enter(hours, {"weighed", id, w.grams(w.dry_g)});
  both(2.6, {"out-of-drying"});
  both(2.6, {"sealed"});
  const std::string asked = w.ask(220, w.a);
  CHECK(has(asked, "it lay sealed so long that it may have taken up 1.04 % of moisture; weigh it again"));
  CHECK_FALSE(has(asked, "HOLD"));
  CHECK(has(w.enter(220, {"weighed", w.a, w.grams(w.dry_g * 1.005)}), "heavier since by moisture: into the bath"));
  // Twice the same, at rest with the room's air.
  for (const double hours : {220.0, 223.0})
    CHECK(has(w.enter(hours, {"weighed", w.b, w.grams(w.dry_g * 1.05)}), "HOLD: it has taken up"));
}

TEST_CASE("turning against an axis that fails is told, at the terminal, in the history and on the page") {
  const ThreeBlanks w;
  w.bathe({w.a});
  w.enter(24, {"into-oven", w.a, "load=O2"});
  w.enter(25.5, {"core-temperature", "load=O2", "temperature=86 °C"});
  w.enter(27, {"out-of-oven", w.a});
  w.enter(28, {"squared", w.a, "width=41 mm", "depth=41 mm", "length=120 mm"});
  const std::string bored = w.enter(29, {"bored", w.a, "face_1=12 mm", "face_2=20.5 mm", "face_3=29 mm",
                                         "face_4=20.5 mm", "lean_1=0 mm", "lean_2=0 mm", "over=100 mm"});
  REQUIRE(has(bored, "HOLD: the form lies"));
  CHECK(has(w.enter(30, {"turned", w.a}), "went on against its check (axis): HOLD: the form lies"));
  CHECK(has(w.ask(31, w.a), "went on against its check (axis): HOLD: the form lies"));
}

TEST_CASE("what a blank's last step went against says the same at the bench, in answers and on the page") {
  const ThreeBlanks w;
  const auto held_on_page = [&](double hours, const std::string& id) {
    const std::string file = w.jobs.out() + "/register.html";
    REQUIRE(w.run(hours, {"page", "--out", file}).exit == Exit::done);
    std::ifstream in{file};
    const std::string page{std::istreambuf_iterator<char>{in}, {}};
    const std::size_t row = page.find("<a class=\"row\" data-id=\"" + id.substr(0, 3) + id.substr(4));
    REQUIRE(row != std::string::npos);
    return has(page.substr(row, page.find("</a>", row) - row), "HOLD</strong>");
  };
  SUBCASE("something was missing: no HOLD") {
    w.enter(0, {"weighed", w.a, w.grams(w.dry_g)});
    CHECK(has(w.run(1, {"bench"}, "into-bath K2 " + w.a + "\n").out, "NO went on against its check (dry): weigh it"));
    const std::string asked = w.ask(2, w.a);
    CHECK(has(asked, "last step        into-bath: went on against its check (dry): weigh it again"));
    CHECK_FALSE(has(asked, "HOLD"));
    CHECK_FALSE(held_on_page(2, w.a));
  }
  SUBCASE("something was wrong: HOLD, until its gate says otherwise") {
    w.enter(0, {"weighed", w.a, w.grams(w.dry_g)});
    w.enter(2.5, {"weighed", w.a, w.grams(w.dry_g)});
    w.enter(100, {"into-bath", w.a, "bath=K2"});
    CHECK(has(w.ask(101, w.a), "last step        into-bath: went on against its check (dry): HOLD: it lay open"));
    CHECK(held_on_page(101, w.a));
  }
  SUBCASE("a witness of its load that is hard answers it") {
    w.bathe({w.a, w.witness});
    w.enter(24, {"into-oven", w.a, w.witness, "load=O2"});
    w.enter(27, {"out-of-oven", w.a, w.witness});
    w.enter(27.5, {"weighed", w.a, w.grams(w.wet_g - 1)});
    w.enter(28, {"squared", w.a, "width=41 mm", "depth=41 mm"});
    CHECK(held_on_page(29, w.a));
    CHECK_FALSE(has(w.ask(29, w.a), "last step"));  // the gate itself tells it
    w.enter(30, {"witness-cut", w.witness, "filled=yes", "hard=yes"});
    CHECK_FALSE(held_on_page(31, w.a));
    CHECK_FALSE(has(w.ask(31, w.a), "last step"));
  }
}

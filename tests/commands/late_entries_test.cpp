// What was forgotten is entered later with its time, and counts where it belongs.

#include <doctest/doctest.h>

#include "bench_of_work.h"

using namespace blankwright;

namespace {

struct Late : BenchOfWork {
  std::string a = blanks.at(0), witness = blanks.back();

  /// By the shop's clock, two hours ahead of UTC, hours after noon of 3 May 2027 UTC.
  static std::string at(double hours) {
    const auto minutes = static_cast<int>(60 * hours + 0.5) + 14 * 60;
    return fmt::format("2027-05-{:02} {:02}:{:02}", 3 + minutes / 1440, minutes / 60 % 24, minutes % 60);
  }
  std::string late(double now, std::vector<std::string> words, double hours) const {
    words.insert(words.end(), {"--at", at(hours)});
    return enter(now, std::move(words));
  }
  void cure() const {
    for (const std::string& id : {a, witness}) enter(23.2, {"into-oven", id, "load=O2"});
    enter(24.7, {"core-temperature", "load=O2", "temperature=86 °C"});
    for (const std::string& id : {a, witness}) enter(26, {"out-of-oven", id});
    enter(27, {"witness-cut", witness, "filled=yes", "hard=yes"});
  }
};

}  // namespace

TEST_CASE("a mass that is entered later is that of its moment") {
  const Late w;
  w.bathe({w.a, w.witness});
  w.cure();
  w.enter(28, {"squared", w.a, "width=41 mm", "depth=41 mm", "length=120 mm"});
  w.enter(29, w.axis("bored", w.a));
  w.enter(30, {"glued", w.a});
  w.late(31, {"weighed", w.a, w.grams(w.wet_g - 3)}, 26.5);
  CHECK(has(w.run(32, {"ask", "order", "TA-0147"}).out, fmt::format("{:.1f} g", w.wet_g - 3)));
  CHECK_FALSE(has(w.ask(32, w.a), "not weighed"));
}

TEST_CASE("a step that is entered later takes no blank back") {
  const Late w;
  w.bathe({w.a, w.witness});
  w.cure();
  w.enter(28, {"squared", w.a, "width=41 mm", "depth=41 mm", "length=120 mm"});
  w.enter(29, w.axis("bored", w.a));
  SUBCASE("a set stud, once it was turned") {
    w.enter(56, {"turned", w.a});
    w.late(57, w.axis("stud-measured", w.a), 55);
    CHECK(has(w.ask(58, w.a), "stage            turned"));
    CHECK(has(w.enter(58, {"inspected", w.a, "result=pass"}), "inspected"));
  }
  SUBCASE("a squaring, once it was bored") {
    w.late(30, {"squared", w.a, "width=41 mm", "depth=41 mm", "length=120 mm"}, 28.5);
    CHECK(has(w.ask(31, w.a), "stage            bored"));
    CHECK(has(w.enter(31, {"glued", w.a}), "glued"));
  }
}

TEST_CASE("a dry weighing that is entered later opens no wood that was sealed since") {
  const Late w;
  w.enter(0, {"weighed", w.a, w.grams(w.dry_g)});
  w.enter(2.6, {"sealed", w.a});
  w.late(20, {"weighed", w.a, w.grams(w.dry_g)}, 2.5);
  CHECK(has(w.ask(100, w.a), "into the bath once it is cold"));  // sealed for 200 h, it would have to dry again
}

TEST_CASE("a blank that was drained and weighed was out of its bath, and that is entered later") {
  const Late w;
  w.bathe({w.a, w.witness});
  SUBCASE("with its minute") { w.late(24, {"out-of-bath", w.a}, 22.9); }
  SUBCASE("with that of the draining") { w.late(24, {"out-of-bath", w.a}, 23); }
  CHECK(has(w.ask(25, w.a), "cure it"));
}

TEST_CASE(
    "a time at which it could not be, or that makes what is known impossible, is refused, and the way out named") {
  const Late w;
  w.enter(0, {"weighed", w.a, w.grams(w.dry_g)});
  w.enter(3, {"into-bath", w.a, "bath=K2"});
  const auto refused = [&](std::vector<std::string> words, double hours) {
    words.insert(words.begin(), "enter");
    words.insert(words.end(), {"--at", Late::at(hours)});
    const ProgramRun ran = w.run(30, std::move(words));
    CHECK(ran.exit == Exit::mistakes);
    return ran.errors;
  };
  CHECK(has(refused({"drained", w.a}, 2), "has not been in a bath"));
  const std::string why = refused({"into-bath", w.a, "bath=K1"}, 2);
  CHECK(has(why, "then entry 12 (into-bath, 2027-05-03 17:00) could not have been"));
  CHECK(has(why, "enter it again with --replaces 12"));
}

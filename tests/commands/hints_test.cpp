// A hint mends what it names: each is held against the file that it is pasted into.

#include <doctest/doctest.h>

#include <sstream>
#include <string>
#include <vector>

#include "bench_of_work.h"
#include "commands/run.h"

using namespace blankwright;

namespace {

struct Mistake {
  std::string wrong;   ///< what stands in the shop file instead of "# here"
  std::string hint;    ///< of the one error that is told
  std::string mended;  ///< with the hint pasted
};

/// A shop of one lathe, without a mistake; what is to be wrong stands at its end, behind the routing's one operation.
std::string shop_with(const std::string& end) {
  return bytes_of(BLANKWRIGHT_SOURCE_DIR "/tests/errors/base/shop.toml") + end + "\n";
}

ProgramRun check(const std::string& shop) {
  MemoryFiles disk{
      {{"shop.toml", shop}, {"job.toml", bytes_of(BLANKWRIGHT_SOURCE_DIR "/tests/errors/base/job.toml")}}};
  const FixedClock monday{1800860400};  // 2027-01-25 08:00 in Vienna
  FixedChance chance{0};
  std::istringstream in;
  std::ostringstream out, errors;
  Surroundings around{disk, monday, chance, in, out, errors, Terminal{}};
  const Exit exit = run({"blankwright", "check", "job.toml"}, around);
  return {exit, out.str(), errors.str()};
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

void check_mended(const Mistake& mistake) {
  CAPTURE(mistake.wrong);
  const ProgramRun wrong = check(shop_with(mistake.wrong));
  CHECK(wrong.exit == Exit::mistakes);
  CHECK_MESSAGE(count_of(wrong.errors, ": error: ") == 1, wrong.errors);
  CHECK_MESSAGE(has(wrong.errors, "hint: " + mistake.hint + "\n"), wrong.errors);
  const ProgramRun mended = check(shop_with(mistake.mended));
  CHECK_MESSAGE(mended.exit == Exit::done, mended.errors);
}

std::string turner(const std::string& keys) { return "[[people]]\nname = \"turner\"\n" + keys; }
std::string away(const std::string& span) { return turner("away = [{" + span + "}]"); }
std::string machine(const std::string& keys) {
  return "machine = \"lathe\"\n[[machines]]\nname = \"lathe\"\n" + keys;
}

/// An operation behind the others, done by the turner.
std::string operation(const std::string& keys) { return "[[routing]]\nname = \"Oil\"\nwho = \"turner\"\n" + keys; }

}  // namespace

TEST_CASE("a hint about days pasted is right: the end lies behind the beginning") {
  const Mistake mistakes[] = {
      {away("from = 2027-05-10"), "to = 2027-05-11", away("from = 2027-05-10, to = 2027-05-11")},
      {away("from = 2027-05-10, to = 9999-12-31"), "to = 2027-05-11", away("from = 2027-05-10, to = 2027-05-11")},
      {away("from = 2027-05-10, to = \"soon\""), "to = 2027-05-11  or  to = \"2027-05-11 13:00\"",
       away("from = 2027-05-10, to = \"2027-05-11 13:00\"")},
      {away("from = 2027-05-10, to = 2027-05-04"), "from = 2027-05-04, to = 2027-05-10",
       away("from = 2027-05-04, to = 2027-05-10")},
      {away("from = \"2027-05-10 13:00\", to = \"2027-05-10 13:00\""), "to = 2027-05-10",
       away("from = \"2027-05-10 13:00\", to = 2027-05-10")},
      {away("from = 2027-02-30, to = 2027-03-02"), "the month ends on 2027-02-28",
       away("from = 2027-02-28, to = 2027-03-02")},
      {away("from = 2027-06-31, to = 2027-07-02"), "the month ends on 2027-06-30",
       away("from = 2027-06-30, to = 2027-07-02")},
      // European summer time (directive 2000/84/EC): the hour from 2:00 is left out on the last Sunday of March, and
      // given twice on that of October.
      {away("from = \"2027-03-28 02:30\", to = 2027-03-30"), "\"2027-03-28 01:59\"  or  \"2027-03-28 03:00\"",
       away("from = \"2027-03-28 03:00\", to = 2027-03-30")},
      {away("from = \"2027-10-31 02:30\", to = 2027-11-02"), "\"2027-10-31 01:59\"  or  \"2027-10-31 03:00\"",
       away("from = \"2027-10-31 01:59\", to = 2027-11-02")},
  };
  for (const Mistake& mistake : mistakes) check_mended(mistake);
  CHECK(has(check(shop_with(away("from = \"2040-05-03 13:00\", to = 2040-05-04"))).errors, "1970 to 2037"));
}

TEST_CASE("a hint about one table where several belong is written as the file has it") {
  const std::string span = "{from = 2027-05-10, to = 2027-05-11}";
  check_mended({machine("outages = " + span), "outages = [" + span + "]", machine("outages = [" + span + "]")});
  check_mended({machine("[machines.outages]\nfrom = 2027-05-10\nto = 2027-05-11"),
                "[[machines.outages]], with two brackets at either end",
                machine("[[machines.outages]]\nfrom = 2027-05-10\nto = 2027-05-11")});
}

TEST_CASE("a hint about a time sent out names days") {
  check_mended({operation("turnaround = 5"), "turnaround = \"5 d\"", operation("turnaround = \"5 d\"")});
  check_mended(
      {operation("turnaround = \"2 fortnights\""), "turnaround = \"5 d\"", operation("turnaround = \"2 weeks\"")});
  check_mended({operation("turnaround = \"5 d\"\nhands_on = \"throughout\""), "leave `hands_on` out",
                operation("turnaround = \"5 d\"")});
}

TEST_CASE("a hint about people and hours pasted is right") {
  const Mistake mistakes[] = {
      {turner("hours = {}"),
       "monday = [\"08:00-12:00\", \"13:00-17:00\"]  in the `hours` of \"turner\"; without any they work the shop's",
       turner("hours = {monday = [\"08:00-12:00\", \"13:00-17:00\"]}")},
      {turner("hours = {monday = [\"08:00-12:00\", \"11:00-17:00\"]}"), "\"12:00-17:00\"",
       turner("hours = {monday = [\"08:00-12:00\", \"12:00-17:00\"]}")},
      {turner("hours = {monday = [\"13:00-17:00\", \"08:00-12:00\"]}"), "write the earlier one first",
       turner("hours = {monday = [\"08:00-12:00\", \"13:00-17:00\"]}")},
      {turner("hours = {monday = [\"08:00-16:00\", \"10:00-12:00\"]}"),
       "leave this one out: the one before it covers it", turner("hours = {monday = [\"08:00-16:00\"]}")},
      {turner("[[people]]\nname = \"turner\""), "name = \"turner 2\", or leave one of the two out",
       turner("[[people]]\nname = \"turner 2\"")},
      {"[lathe]\nfastest = \"99999 rpm\"", "fastest = \"10000 rpm\"", "[lathe]\nfastest = \"10000 rpm\""},
      {"most_a_day = 0", "most_a_day = 1", "most_a_day = 1"},
      {operation("fixed = \"1 h\"\n[[people]]\nname = \"\"\n" + turner("")), "write it between the quotes",
       operation("fixed = \"1 h\"\n[[people]]\nname = \"keeper\"\n" + turner(""))},
  };
  for (const Mistake& mistake : mistakes) check_mended(mistake);
}

TEST_CASE("somebody whom several operations name and the shop has not is told once, with all places") {
  const ProgramRun told = check(shop_with(operation("fixed = \"1 h\"") + "\n" + operation("fixed = \"2 h\"") +
                                          "\n[[people]]\nname = \"keeper\""));
  CHECK_MESSAGE(count_of(told.errors, ": error: ") == 1, told.errors);
  CHECK(count_of(told.errors, " here too\n") == 2);
}

TEST_CASE("a zone whose area alone is known is not turned into another place") {
  const auto with_zone = [](const std::string& zone) {
    std::string shop = shop_with("");
    return check(shop.replace(shop.find("Europe/Vienna"), 13, zone)).errors;
  };
  CHECK(has(with_zone("Europe/Wien"), "hint: write area and city: "));
  CHECK(has(with_zone("Europe/Viena"), "hint: zone = \"Europe/Vienna\"\n"));
  CHECK(has(with_zone("Europa/Vienna"), "hint: zone = \"Europe/Vienna\"\n"));
}

TEST_CASE("where work cannot be planned the hint names what is in the way") {
  const std::string keeper = "\n[[people]]\nname = \"keeper\"";
  const std::string years = "away = [{from = 2027-01-01, to = 2031-12-31}]";
  const Mistake mistakes[] = {
      {turner(years) + keeper + "\n" + operation("fixed = \"1 h\"\nalso = [\"keeper\"]"),
       "fewer or shorter absences (`away`) of turner",
       turner("away = [{from = 2027-01-01, to = 2027-01-03}]") + keeper + "\n" +
           operation("fixed = \"1 h\"\nalso = [\"keeper\"]")},
      {turner("hours = {monday = [\"08:00-08:10\"]}") + keeper + "\n" +
           operation("fixed = \"1 h\"\nalso = [\"keeper\"]"),
       "least_part = \"10 min\"  or less, or longer hours without a break",
       "least_part = \"10 min\"\n" + turner("hours = {monday = [\"08:00-08:10\"]}") + keeper + "\n" +
           operation("fixed = \"1 h\"\nalso = [\"keeper\"]")},
      {operation("per_piece = \"95 min\"\nmost_a_day = 9"), "most_a_day = 5",
       operation("per_piece = \"95 min\"\nmost_a_day = 5")},
      {operation("per_piece = \"20 h\"\nmost_a_day = 1"),
       "leave `most_a_day` out for \"Oil\": one piece takes longer than a day has",
       operation("per_piece = \"20 h\"")},
  };
  for (const Mistake& mistake : mistakes) check_mended(mistake);
}

// Calendar files that are imported again: RFC 5545 (UID, SEQUENCE, STATUS), as libical reads them.

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "calendar_reader.h"
#include "register/register.h"
#include "workshop.h"

using namespace blankwright;

namespace {

using Events = std::map<std::string, EventRead>;  // by uid

/// A shop whose calendars are imported: the metric sample's, with a second order of the same wood and resin.
struct Calendars {
  SampleJobs jobs;
  std::int64_t now = noon;
  std::string job = jobs / "metric/burnisher.toml", second = jobs / "metric/second.toml";

  Calendars() {
    std::string text = bytes_of(job);
    text.replace(text.find("TA-0147"), 7, "TA-0148");
    put_bytes(second, text);
  }

  void change(const std::string& file, const std::string& from, const std::string& to) const {
    std::string text = bytes_of(file);
    REQUIRE(text.find(from) != std::string::npos);
    put_bytes(file, text.replace(text.find(from), from.size(), to));
  }

  ProgramRun run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.end(), {"--shop", jobs / "metric/shop.toml"});
    ProgramRun ran = run_program(std::move(arguments), now);
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
    return ran;
  }

  void compile(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), {"compile", "--quiet", "--only", "calendar", "--out", jobs.out()});
    static_cast<void>(run(std::move(arguments)));
  }

  Events in(const std::string& file) const {
    Events events;
    for (const EventRead& event : events_read(bytes_of(jobs.out() + "/" + file))) {
      CHECK(events.emplace(event.uid, event).second);
    }
    return events;
  }
  Events first() const { return in("TA-0147/schedule.ics"); }

  /// Enters something of all blanks of the first order, an hour after what was entered last.
  void enter(const std::string& kind, std::vector<std::string> words = {}) {
    now += 3600;
    Register known{jobs / "metric/shop.register"};
    std::vector<std::string> arguments{"enter", "--quiet", kind};
    for (const BlankId& id : known.issued_to("TA-0147")) arguments.push_back(id.shown());
    arguments.insert(arguments.end(), words.begin(), words.end());
    static_cast<void>(run(std::move(arguments)));
  }
};

Instant moment(std::int64_t unix) { return Instant{std::chrono::seconds{unix}}; }

/// The one event whose uid has that in it.
const EventRead& one(const Events& events, std::string_view part) {
  const auto is_it = [&](const auto& event) { return event.first.find(part) != std::string::npos; };
  REQUIRE_MESSAGE(std::ranges::count_if(events, is_it) == 1, part);
  return std::ranges::find_if(events, is_it)->second;
}

/// Of work over several days there may be more parts or fewer, planned anew.
bool is_later_part(const std::string& uid) {
  return uid.find("w2@") != std::string::npos || uid.find("w3@") != std::string::npos;
}

bool tells_the_same(const EventRead& a, const EventRead& b) {
  return a.from == b.from && a.to == b.to && a.summary == b.summary && a.description == b.description &&
         a.status == b.status && a.place == b.place && a.category == b.category && a.alarm == b.alarm;
}

}  // namespace

TEST_CASE("an event stands in the orders' files and in the shop's, the same word for word") {
  const Calendars shop;
  shop.compile({"--week", shop.job, shop.second});
  const Events of_shop = shop.in("shop.ics");
  Events of_orders = shop.first();
  for (const auto& [uid, event] : shop.in("TA-0148/schedule.ics")) {
    const auto [place, is_new] = of_orders.emplace(uid, event);
    CHECK((is_new || place->second == event));
  }
  CHECK(of_orders == of_shop);
  CHECK(std::ranges::any_of(of_shop, [](const auto& event) {
    return event.second.summary.starts_with("TA-0147 (") &&
           event.second.summary.find("TA-0148 (") != std::string::npos;
  }));
}

TEST_CASE("what cools sealed keeps its name when it has begun, and stands in no calendar once it is cold") {
  Calendars shop;
  shop.compile({shop.job});
  const std::string planned = one(shop.first(), ".cool-sealed.1r").uid;
  shop.enter("sawn", {"board=A1"});
  shop.enter("moisture", {"moisture=9 %"});
  shop.enter("into-drying", {"load=D1"});
  shop.now += 44 * 3600;
  shop.enter("out-of-drying");
  shop.enter("sealed");
  shop.compile({shop.job});
  CHECK(one(shop.first(), ".cool-sealed.1r").uid == planned);
  shop.now += 24 * 3600;
  shop.compile({"--week", shop.job});
  for (const auto& [uid, event] : shop.in("shop.ics")) CHECK(uid.find(".cool-sealed.") == std::string::npos);
}

TEST_CASE("compiled again at the same moment a calendar has the same bytes, and what was handed out is known later") {
  Calendars shop;
  shop.compile({shop.job});
  const std::string bytes = bytes_of(shop.jobs.out() + "/TA-0147/schedule.ics");
  shop.compile({shop.job});
  CHECK(bytes_of(shop.jobs.out() + "/TA-0147/schedule.ics") == bytes);

  shop.now += 7 * 86400;
  shop.compile({shop.job});
  const std::string later = bytes_of(shop.jobs.out() + "/TA-0147/schedule.ics");
  CHECK(later != bytes);
  shop.compile({"--again", "1", shop.job});
  CHECK(bytes_of(shop.jobs.out() + "/TA-0147/schedule.ics") == bytes);
  shop.compile({"--again", "2", shop.job});
  CHECK(bytes_of(shop.jobs.out() + "/TA-0147/schedule.ics") == later);
}

TEST_CASE("planned anew an event keeps its name; its sequence rises where it moved, and there alone") {
  Calendars shop;
  shop.compile({shop.job});
  const Events before = shop.first();
  shop.now += 7 * 86400;
  shop.change(shop.jobs / "metric/shop.toml", "name = \"Saw the blanks\"\n",
              "name = \"Look at the boards\"\nwho = \"turner\"\nfixed = \"10 min\"\n\n[[routing]]\nname = \"Saw the "
              "blanks\"\n");
  shop.compile({shop.job});
  const Events after = shop.first();
  int moved = 0;
  for (const auto& [uid, event] : after) {
    CAPTURE(uid);
    CHECK(event.stamp == moment(shop.now));
    CHECK((event.status == "confirmed" || is_later_part(uid)));
    const auto known = before.find(uid);
    if (known == before.end()) continue;
    CHECK(known->second.sequence == 0);
    CHECK((event.sequence > 0) == !tells_the_same(event, known->second));
    moved += event.sequence > 0 ? 1 : 0;
  }
  CHECK(one(after, ".due@").sequence == 0);
  CHECK(moved > 20);
  for (const auto& [uid, event] : before) CHECK(after.contains(uid));
}

TEST_CASE("a bath that was planned keeps its events when it is there, under its own name") {
  Calendars shop;
  shop.compile({shop.job});
  const Events before = shop.first();
  shop.enter("sawn", {"board=T4"});
  shop.enter("moisture", {"moisture=9 %"});
  shop.enter("into-drying", {"load=D1"});
  shop.now += 20 * 3600;  // a day earlier than planned
  shop.enter("out-of-drying");
  shop.enter("measured", {"width=41 mm", "depth=41 mm", "length=153 mm"});
  shop.enter("weighed", {"mass=110 g"});
  shop.enter("into-bath", {"bath=B1", "vessel=trough"});
  static_cast<void>(shop.run({"enter", "--quiet", "vacuum-on", "bath=B1"}));
  shop.now += 3600;
  shop.compile({shop.job});
  const Events after = shop.first();
  for (const char* part :
       {"bath-vacuum.1r1@", "bath-vacuum.1e1@", "soak-through-the-night.1r1@", "cure.1b1@", ".turn.1w1@"}) {
    CAPTURE(part);
    CHECK(one(after, part).uid == one(before, part).uid);
    CHECK(one(after, part).sequence > 0);
  }
  CHECK(one(after, "bath-vacuum.1r1@").place.ends_with("trough, B1"));
  // What is past is done, and neither planned nor cancelled.
  for (const auto& [uid, event] : after) {
    CHECK(uid.find("saw-the-blanks") == std::string::npos);
    if (event.status == "cancelled") CHECK(event.to > moment(shop.now));
  }
}

TEST_CASE("what is planned no more stands cancelled until its time is over, in the order's file and in the shop's") {
  Calendars shop;
  shop.compile({"--week", shop.job});
  const Events before = shop.in("shop.ics");
  const EventRead sanding = one(before, "sand-and-finish.1w1@");
  shop.change(
      shop.jobs / "metric/shop.toml",
      "[[routing]]\nname = \"Sand and finish\"\nwho = \"turner\"\nfixed = \"20 min\"\nper_piece = \"12 min\"\n", "");
  shop.change(shop.job, "due = 2027-06-18\n", "");
  shop.now += 60;
  shop.compile({"--week", shop.job});
  const Events after = shop.in("shop.ics");
  CHECK(after == shop.first());
  for (const char* part : {"sand-and-finish.1w1@", ".due@"}) {
    const EventRead& gone = one(after, part);
    CHECK(gone.status == "cancelled");
    CHECK(gone.sequence > one(before, part).sequence);
    CHECK(gone.from == one(before, part).from);
    CHECK(gone.all_day == one(before, part).all_day);
    CHECK_FALSE(gone.busy);
    CHECK(gone.alarm.empty());
  }
  shop.now += 60;
  shop.compile({shop.job});
  CHECK(one(shop.first(), "sand-and-finish.1w1@").sequence == one(after, "sand-and-finish.1w1@").sequence);
  shop.now = sanding.to.time_since_epoch().count();
  shop.compile({shop.job});
  for (const auto& [uid, event] : shop.first()) CHECK(uid != sanding.uid);
}

TEST_CASE("a bath that an order leaves goes on for the other one, and is cancelled in neither's file") {
  Calendars shop;
  shop.compile({shop.job, shop.second});
  shop.now += 60;
  shop.change(shop.second, "\n[treatment]\nresin = \"Clear K\"\nwitness = true\n", "\n");
  shop.compile({shop.second});
  const Events of_second = shop.in("TA-0148/schedule.ics");
  const auto is_others = [](const auto& event) {
    return event.second.status == "confirmed" && !event.second.summary.starts_with("TA-0148");
  };
  CHECK(std::ranges::count_if(of_second, is_others) >= 9);  // of the one load in which its blanks were to dry, and on
  shop.compile({shop.job});
  const Events after = shop.first();
  for (const auto& [uid, event] : of_second) {
    const auto same = after.find(uid);
    if (same == after.end()) continue;
    CAPTURE(uid);
    CHECK((event.status == "confirmed" || same->second.status == "cancelled"));
    CHECK((event.sequence < same->second.sequence || tells_the_same(event, same->second)));
  }
}

TEST_CASE("of an order that is through the shop's calendar cancels what was planned and is not needed") {
  Calendars shop;
  shop.compile({shop.job, shop.second});
  const Events before = shop.first();
  {
    Register known{shop.jobs / "metric/shop.register"};
    std::vector<std::string> arguments{"enter", "--quiet", "sent", "--override", "made elsewhere"};
    const auto blanks = known.issued_to("TA-0147");
    for (std::size_t i = 0; i < 6; ++i) arguments.push_back(blanks.at(i).shown());
    shop.now += 60;
    static_cast<void>(shop.run(arguments));
  }
  shop.compile({"--week", shop.second});
  const Events of_shop = shop.in("shop.ics");
  const EventRead& turning = one(before, ".turn.1w1@");
  REQUIRE(of_shop.contains(turning.uid));
  CHECK(of_shop.at(turning.uid).status == "cancelled");
  CHECK(of_shop.at(turning.uid).sequence > turning.sequence);
  shop.compile({"--week", shop.second});
  CHECK(shop.in("shop.ics") == of_shop);
}

TEST_CASE("who is needed when the shop is usually not at work is reminded, and nobody else") {
  Calendars shop;
  shop.now += 7 * 86400;
  shop.compile({shop.job});
  for (const auto& [uid, event] : shop.first()) CHECK(event.alarm.empty());
  shop.change(shop.jobs / "metric/shop.toml", "friday = [\"07:30-13:30\"]\n",
              "friday = [\"07:30-13:30\"]\nsaturday = [\"08:00-11:00\"]\n");
  shop.now += 60;
  shop.compile({shop.job});
  int reminded = 0;
  for (const auto& [uid, event] : shop.first()) {
    const bool is_saturday = local_time(find_zone("Europe/Vienna").value(), event.from).weekday == 5;
    CHECK(event.alarm == (is_saturday && event.busy ? event.summary : ""));
    reminded += event.alarm.empty() ? 0 : 1;
  }
  CHECK(reminded > 0);
}

TEST_CASE("a draft's events are no successors of those that were handed out") {
  Calendars shop;
  shop.compile({shop.job});
  const Events handed_out = shop.first();
  shop.now += 86400;
  shop.compile({"--draft", shop.job});
  for (const auto& [uid, event] : shop.first()) {
    CHECK(event.sequence == 0);
    CHECK_FALSE(handed_out.contains(uid));
  }
}

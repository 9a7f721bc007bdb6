#include "shop.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace promises_kept {
namespace {

constexpr const char* shop_file = R"(format = 1
name = "Crooked Fence Turnery"
zone = "Europe/Berlin"
template = "a4"

[hours]
monday = ["08:00-17:00"]
tuesday = ["08:00-17:00"]
wednesday = ["08:00-17:00"]
thursday = ["08:00-17:00"]
friday = ["08:00-17:00"]

[boring]
drills = ["6.8 mm", "8 mm", "8.5 mm", "9 mm"]

[yield]
expected = "17 of 20"

[[routing]]
name = "Saw"
who = "keeper"
fixed = "20 min"
per_piece = "10 min"
ended_by = "sawn"

[[routing]]
name = "Set the stud"
who = "keeper"
fixed = "30 min"
per_piece = "20 min"
ended_by = "stud-measured"

[[routing]]
name = "Turn"
who = "turner"
fixed = "30 min"
per_piece = "60 min"
ended_by = "turned"
)";

constexpr const char* job_file = R"(format = 1
id = "{}"
client = "Nobody in Particular"
item = "awl handle"
quantity = {}

[handle]
stations = [
  {{at = "0 mm", diameter = "26 mm"}},
  {{at = "60 mm", diameter = "30 mm"}},
  {{at = "100 mm", diameter = "24 mm"}},
]

[stud]
thread = "M8"
enters = "14 mm"

[wood]
species = "European beech"
moisture = "9 %"
)";

constexpr const char* columns =
    "at,kind,blank,board,reason,face_1,face_2,face_3,face_4,lean_1,lean_2,over,override\n";

// The truth, which nobody knows: work takes a tenth longer than planned in the middle, with a spread of three tenths.
constexpr double longer = 0.1, spread = 0.3, share_good = 0.84;

const Moment begins = simulated::moment_of(2027, 1, 4, 8, 0);  // a Monday

/// Work of so many hours, from 8:00 to 17:00 on weekdays.
Moment worked(Moment from, double hours) {
  Moment now = simulated::when_somebody_is_there(from);
  while (true) {
    const double today = simulated::hours_between(now, simulated::at_hour(now, 17));
    if (hours <= today) return simulated::after(now, hours);
    hours -= today;
    now = simulated::next_workday(now, 8);
  }
}

}  // namespace

Shop::Shop(const std::filesystem::path& program, const std::filesystem::path& folder, unsigned seed)
    : program_{program, folder}, chance_{seed}, keeper_{begins}, turner_{begins} {
  program_.write("shop.toml", shop_file);
}

std::vector<Given> Shop::live(int orders) {
  int taken = 0;
  const auto all_through = [&] { return std::ranges::all_of(orders_, &Order::is_through); };
  for (Moment now = begins; taken < orders || !all_through(); now = simulated::next_workday(now, 8)) {
    enter(now);
    for (Order& order : orders_) {
      if (!order.is_through() && order.known <= now) compile(order, now);
    }
    if (taken < orders && chance_.yes(0.35)) take_in(taken++, now);
  }
  std::vector<Given> given;
  for (const Order& order : orders_) {
    const bool is_date = order.promised.starts_with("20");
    given.push_back({order.id, order.promised, order.by_record,
                     is_date && simulated::date_text(order.through) <= order.promised});
  }
  return given;
}

void Shop::take_in(int number, Moment now) {
  Order order;
  order.id = fmt::format("P-{:03}", number + 1);
  order.quantity = chance_.whole(8, 24);
  program_.write(job_of(order), fmt::format(job_file, order.id, order.quantity));
  ask_for_date(order, now);
  compile(order, now);
  orders_.push_back(std::move(order));
}

void Shop::ask_for_date(Order& order, Moment now) {
  const auto answer = program_.run(now, {"promise", "--as", "json", job_of(order)});
  const std::size_t begin = answer.text.find('{');
  const std::size_t end = answer.text.rfind('}');
  if (!answer.well() || begin == std::string::npos) throw std::runtime_error{"no promise: " + answer.text};
  const auto facts = nlohmann::json::parse(answer.text.substr(begin, end - begin + 1)).at("facts");
  order.promised = facts.at("to promise");
  order.by_record = facts.at("rests on").get<std::string>().find("how long the last") != std::string::npos;
}

void Shop::compile(Order& order, Moment now) {
  const auto answer = program_.run(now, {"compile", "--only", "plan,blanks", "--out", "sheets", job_of(order)});
  if (!answer.well()) throw std::runtime_error{"not compiled: " + answer.text};
  std::vector<std::string> blanks;
  std::ifstream table{program_.folder() / "sheets" / order.id / "blanks.csv"};
  std::string line;
  std::getline(table, line);
  while (std::getline(table, line)) blanks.push_back(line.substr(0, line.find(',')));
  if (blanks.size() <= order.blanks) throw std::runtime_error{"no further blanks for " + order.id};
  const std::vector<std::string> further{blanks.begin() + static_cast<std::ptrdiff_t>(order.blanks), blanks.end()};
  order.blanks = blanks.size();
  begin(order, further, now);
}

void Shop::begin(Order& order, const std::vector<std::string>& blanks, Moment now) {
  const auto takes = [&](double fixed, double per_piece, std::size_t pieces) {
    return (fixed + per_piece * static_cast<double>(pieces)) / 60 * std::exp(longer + chance_.error(spread));
  };
  const auto rows = [&](Moment at, const std::vector<std::string>& of, const std::string& kind, const char* rest) {
    for (const std::string& id : of) to_enter_.push_back({at, fmt::format("{},{},{}", kind, id, rest)});
  };
  std::vector<std::string> good, lost;
  for (const std::string& id : blanks) (chance_.yes(share_good) ? good : lost).push_back(id);
  const Moment sawn = worked(std::max(now, keeper_), takes(20, 10, blanks.size()));
  const Moment set = worked(sawn, takes(30, 20, blanks.size()));
  keeper_ = set;
  rows(sawn, blanks, "sawn", "B1,,,,,,,,,");
  rows(set, lost, "scrapped", ",crack,,,,,,,,");
  rows(set, good, "stud-measured", ",,20 mm,20 mm,20 mm,20 mm,0 mm,0 mm,100 mm,no bore is entered here");
  order.known = set;
  if (good.empty()) return;
  const Moment turned = worked(std::max(set, turner_), takes(30, 60, good.size()));
  turner_ = turned;
  rows(turned, good, "turned", ",,,,,,,,,no glue is entered here");
  const auto wanted = static_cast<std::size_t>(order.quantity - order.good);
  order.good += static_cast<int>(good.size());
  if (!order.is_through()) {
    good.clear();
  } else {
    good.resize(std::min(good.size(), wanted));
    order.through = turned;
  }
  rows(turned, good, "sent", ",,,,,,,,,no inspection is entered here");
}

void Shop::enter(Moment now) {
  std::ranges::stable_sort(to_enter_, {}, &Row::at);
  const auto later = std::ranges::find_if(to_enter_, [&](const Row& row) { return row.at > now; });
  if (later == to_enter_.begin()) return;
  std::string table = columns;
  for (auto row = to_enter_.begin(); row != later; ++row)
    table += fmt::format("{},{}\n", simulated::text(row->at), row->cells);
  to_enter_.erase(to_enter_.begin(), later);
  program_.write("entries.csv", table);
  const auto answer = program_.run(now, {"enter", "--quiet", "--csv", "entries.csv"});
  if (!answer.well()) throw std::runtime_error{"not entered: " + answer.text};
}

}  // namespace promises_kept

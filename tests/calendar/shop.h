#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "../year/chance.h"
#include "clock.h"

namespace calendar_rules {

using simulated::Chance;

struct Stretch {
  Minutes from, to;  ///< since midnight
};

struct Hours {
  std::array<std::vector<Stretch>, 7> week;  ///< Monday first
  std::vector<Date> days_off;
};

/// When something or somebody is not to be had.
struct Outage {
  Span at;
  bool whole_days = false;
};

struct Person {
  std::string name;
  std::optional<Hours> hours;  ///< the shop's without
  std::vector<Outage> away;
};

struct Machine {
  std::string name;
  std::vector<Outage> outages;
};

struct Vessel {
  std::string name;
  int diameter_mm = 0;             ///< 0: rectangular
  int width_mm = 0, depth_mm = 0;  ///< of a rectangular one
  int height_mm = 0, usable_mm = 0;
  std::vector<Outage> outages{};
};

struct Oven {
  std::string name;
  int width_mm = 0, depth_mm = 0, height_mm = 0, shelves = 1;
  int hottest_C = 110;  ///< that the dial reaches; the air is a degree below it
  bool dries_alone = false, cures_alone = false;
  std::vector<Outage> outages{};
};

/// What the shop file leaves to the program: manual, page `shop`, "All keys".
constexpr int oven_clearance_mm = 40, oven_gap_mm = 15;
constexpr int drying_air_C = 103;

struct Resin {
  std::string name;
  int cure_air_C = 93, cure_core_C = 85;
  Minutes cure_hold{};
};

enum class Work { no, drying, cooling, vacuum, soak, cure, glue_setting };
enum class Hands { throughout, start, ends };

struct Operation {
  std::string name, who;
  Work planned = Work::no;
  std::optional<Minutes> fixed{}, per_piece{};
  Hands hands = Hands::throughout;
  std::optional<Minutes> hands_time{};
  std::optional<bool> unattended{};
  bool may_run_long = false;
  std::optional<Minutes> most{}, longest_wait{};
  bool only_witnesses = false, only_treated = false;
  std::string ended_by{};
  std::vector<std::string> also{};
  std::string machine{};
  std::optional<int> turnaround_days{}, most_a_day{};
  std::optional<Minutes> least_part{};
};

struct Shop {
  std::string zone_name;
  Instant at;  ///< of the first plan
  Hours hours;
  std::vector<Person> people;
  std::vector<Machine> machines;
  std::vector<Vessel> vessels;
  std::vector<Oven> ovens;
  std::vector<Resin> resins;
  std::vector<std::string> dyes{"amber", "soot"};
  bool pump_alone = false;
  Minutes hold{};
  int soak_percent = 200;
  Minutes dries_30_mm{}, dries_60_mm{}, between_weighings{}, cool{}, glue_sets{};
  std::string yield;
  std::vector<Operation> routing;
};

Shop shop_by_chance(Chance& chance);

std::string shop_text(const Shop& shop);

}  // namespace calendar_rules

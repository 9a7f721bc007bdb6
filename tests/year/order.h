#pragma once

#include <optional>
#include <string>
#include <vector>

#include "chance.h"
#include "form.h"
#include "moment.h"
#include "shop.h"
#include "wood.h"

namespace simulated {

struct Thread {
  std::string name;
  double major_mm = 8, pitch_mm = 1.25;
};

struct Ferrule {
  double outside_mm = 0, inside_mm = 0, length_mm = 0;
};

/// A blank that somebody has already.
struct Given {
  double section_mm = 0, length_mm = 0;
};

/// What a client wants.
struct Order {
  std::string id;
  std::string client, item;
  int quantity = 4;
  Moment due;
  std::vector<Station> stations;
  bool smooth = false;  ///< otherwise straight from station to station
  double tolerance_mm = 0.5;
  double spigot_mm = 0;  ///< height; 0: a flat seat
  std::optional<Ferrule> ferrule;
  Thread thread;
  std::string grade = "8.8";
  double enters_mm = 14;
  double embedded_mm = 40;
  double tightening_Nm = 0;  ///< 0: not named
  Species species;
  bool punky = false;  ///< spalted and partly soft
  double moisture_share = 0.09;
  bool witness = false;
  std::string dye;  ///< empty: undyed
  std::optional<Given> given;
};

Order order_by_chance(Chance& chance, const Shop& shop, const std::string& id, Moment due);
/// The form that the wood has to have.
std::vector<Station> outline(const Order& order);
std::string job_file(const Order& order, const Shop& shop);

/// Stress area of a thread. Source: ISO 898-1 and ASME B1.1, π/4 (d − 0.9382 P)², d − 0.9743/n alike.
double tensile_area_mm2(const Thread& thread);

}  // namespace simulated

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnose/diagnostics.h"
#include "measure/drill.h"
#include "measure/instant.h"
#include "measure/quantity.h"
#include "measure/thread.h"

namespace blankwright {

/// A length from the seat and the diameter there.
struct Station {
  Given<Length> along;
  Given<Length> diameter;
  Place place;
};

enum class FormLine { straight, smooth };
enum class BoreFit { glued, tapped };
enum class WoodCondition { sound, spalted, punky, burl };
enum class BlankState { sawn, dry, squared };

struct HandleFacts {
  std::vector<Station> stations;
  Given<FormLine> form = standard_value(FormLine::straight, "straight lines from station to station");
  Given<Length> tolerance = standard_value(0.5 * mm, "ISO 2768-1 coarse, 6 to 30 mm");
  Place place;
};

struct SeatFacts {
  Given<Length> squareness = standard_value(0.1 * mm, "common practice, no source");
};

struct StudFacts {
  Given<Thread> thread;
  Given<Length> enters;
  std::optional<Given<std::string>> grade;
  std::optional<Given<Length>> hole_depth;
  std::optional<Given<Length>> embedded;
  std::optional<Given<Force>> pull;
  Place place;
};

struct BoreFacts {
  Given<BoreFit> fit = standard_value(BoreFit::glued, "the usual way with a stud");
  std::optional<Given<Drill>> drill;
};

struct WoodFacts {
  Given<std::string> species;
  Given<WoodCondition> condition = standard_value(WoodCondition::sound, "nothing said of it");
  Given<Share> moisture = standard_value(12 * percent, "air-dried under cover; common practice, no source");
  std::optional<Given<Share>> tangential;  ///< shrinkage, green to oven-dry, instead of the species table's
};

/// A blank that is there already, instead of one that is worked out.
struct BlankFacts {
  Given<Length> section;
  Given<Length> length;
  Given<BlankState> state = standard_value(BlankState::sawn, "as cut");
  Place place;
};

/// One order, as its job file tells it.
struct Order {
  Source source;
  Given<std::string> id;
  Given<std::string> client;
  Given<std::string> item;
  Given<int> quantity;
  std::optional<Given<Date>> due;
  std::optional<Given<std::string>> drawing;
  std::optional<Given<std::string>> revision;
  std::optional<Given<std::string>> notes;
  HandleFacts handle;
  SeatFacts seat;
  StudFacts stud;
  BoreFacts bore;
  WoodFacts wood;
  std::optional<BlankFacts> blank;
  Place place;
};

/// Reads a job file. What is wrong goes to `out`, all of it; then there is no order.
std::optional<Order> read_order(const Source& source, Diagnostics& out);

}  // namespace blankwright

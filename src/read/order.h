#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnose/diagnostics.h"
#include "measure/drill.h"
#include "measure/instant.h"
#include "measure/money.h"
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
enum class WitnessFor { bath, load };
enum class WoodCondition { sound, spalted, punky, burl };
/// As the job file writes it.
std::string_view name_of(WoodCondition condition);
enum class SectionState { sawn, dry, squared };
enum class SeatForm { flat, spigot, recess };
enum class FerruleFit { pressed, glued };
enum class VoidsAllowed { none, small, any };

struct HandleFacts {
  std::vector<Station> stations;
  Given<FormLine> form = standard_value(FormLine::straight, "straight lines from station to station");
  Given<Length> tolerance = standard_value(0.5 * mm, "ISO 2768-1 coarse, 6 to 30 mm");
  Place place;
};

struct SeatFacts {
  Given<Length> squareness = standard_value(0.1 * mm, "common practice, no source");
  Given<SeatForm> form = standard_value(SeatForm::flat, "nothing said of it");
  std::optional<Given<Length>> diameter;       ///< of spigot or recess
  std::optional<Given<Length>> height;         ///< of the spigot, or depth of the recess
  std::optional<Given<Length>> part_diameter;  ///< outside, of the client's face on the seat
  Place place;
};

struct FerruleFacts {
  Given<Length> outside_diameter;
  std::optional<Given<Length>> inside_diameter;  ///< of the wood under it; none: the turner fits it
  Given<Length> length;
  Given<FerruleFit> fit = standard_value(FerruleFit::glued, "the usual way");
  Place place;
};

struct StudFacts {
  Given<Thread> thread;
  Given<Length> enters;
  std::optional<Given<std::string>> grade;
  std::optional<Given<Length>> hole_depth;
  std::optional<Given<Length>> embedded;
  std::optional<Given<Force>> pull;
  std::optional<Given<Force>> side_load;
  std::optional<Given<Length>> lever;   ///< of the side load, from the seat
  std::optional<Given<Torque>> torque;  ///< about the stud, in use
  std::optional<Given<Torque>> tightening;
  std::optional<Given<Stress>> yield_strength;       ///< of the stud, instead of its grade's
  std::optional<Given<Stress>> part_shear_strength;  ///< of the client's metal
  Place place;
};

struct BoreFacts {
  Given<BoreFit> fit = standard_value(BoreFit::glued, "the usual way with a stud");
  std::optional<Given<Drill>> drill;
};

/// A stretch of a board that is not to be used: its whole width, or a rectangle of it.
struct DefectFacts {
  Given<Length> from, to;                  ///< along the grain, from the board's left end
  std::optional<Given<Length>> near, far;  ///< across, from the board's near edge
  Place place;
};

/// A board on hand. Its length runs along the grain.
struct BoardFacts {
  Given<std::string> name;
  Given<Length> length, width, thickness;
  std::vector<DefectFacts> defects;
  Place place;
};

struct WoodFacts {
  Given<std::string> species;
  Given<WoodCondition> condition = standard_value(WoodCondition::sound, "nothing said of it");
  Given<Share> moisture = standard_value(12 * percent, "air-dried under cover; common practice, no source");
  std::optional<Given<Share>> tangential;     ///< shrinkage, green to oven-dry, instead of the species table's
  std::optional<Given<Density>> dry_density;  ///< oven-dry mass on oven-dry volume, instead of the species table's
  std::vector<BoardFacts> boards;
  Given<VoidsAllowed> voids = standard_value(VoidsAllowed::small, "as long as nothing is soft");
  Given<bool> matched = standard_value(false, "each piece for itself");
};

/// What is drawn into the wood.
struct TreatmentFacts {
  Given<std::string> resin;
  std::optional<Given<std::string>> dye;
  Given<bool> witness = standard_value(false, "none wanted");
  Given<WitnessFor> witness_for = standard_value(WitnessFor::bath, "its load may be judged by core or by time");
  Place place;
};

/// Moisture that the wood will have where it is used.
struct UseFacts {
  Given<Share> driest = standard_value(6 * percent, "a heated room in winter; common practice, no source");
  Given<Share> dampest = standard_value(12 * percent, "under cover outdoors; common practice, no source");
};

/// A blank that is there already, instead of one that is worked out.
struct BlankFacts {
  Given<Length> section;
  Given<Length> length;
  Given<SectionState> state = standard_value(SectionState::sawn, "as cut");
  Place place;
};

/// One order, as its job file tells it.
struct Order {
  // Written once, in read_order.cpp: whoever holds one would compile them otherwise, and they take long.
  Order();
  Order(const Order&);
  Order(Order&&) noexcept;
  Order& operator=(const Order&);
  Order& operator=(Order&&) noexcept;
  ~Order();

  Source source;
  Given<std::string> id;
  Given<std::string> client;
  Given<std::string> item;
  Given<int> quantity;
  std::optional<Given<Date>> due;
  std::optional<Given<std::string>> drawing;
  std::optional<Given<std::string>> revision;
  std::optional<Given<std::string>> notes;
  std::optional<Given<std::string>> finish;
  std::optional<Given<std::string>> sheet_template;
  Given<bool> promised = standard_value(true, "ordered is promised");
  std::optional<Given<Money>> price;  ///< of a piece
  HandleFacts handle;
  SeatFacts seat;
  std::optional<FerruleFacts> ferrule;
  StudFacts stud;
  BoreFacts bore;
  WoodFacts wood;
  std::optional<BlankFacts> blank;
  std::optional<TreatmentFacts> treatment;  ///< without it nothing is planned of bath, vacuum and cure
  UseFacts use;
  Place place;
};

/// Reads a job file. What is wrong goes to `out`, all of it; then there is no order.
std::optional<Order> read_order(const Source& source, Diagnostics& out);

/// The id that a job file names, whatever else is in it; none where it is no job.
std::optional<std::string> order_id_in(const Source& source);

}  // namespace blankwright

#include <cctype>

#include "diagnose/problem.h"
#include "diagnose/says_facts.h"
#include "entries/order_id.h"
#include "read/order.h"
#include "read/read_file.h"
#include "read/text_forms.h"

namespace blankwright {

template <>
struct Words<FormLine> {
  static constexpr std::array<std::string_view, 2> list{"straight", "smooth"};
};
template <>
struct Words<BoreFit> {
  static constexpr std::array<std::string_view, 2> list{"glued", "tapped"};
};
template <>
struct Words<WitnessFor> {
  static constexpr std::array<std::string_view, 2> list{"bath", "load"};
};
template <>
struct Words<WoodCondition> {
  static constexpr std::array<std::string_view, 4> list{"sound", "spalted", "punky", "burl"};
};
template <>
struct Words<SectionState> {
  static constexpr std::array<std::string_view, 3> list{"sawn", "dry", "squared"};
};
template <>
struct Words<SeatForm> {
  static constexpr std::array<std::string_view, 3> list{"flat", "spigot", "recess"};
};
template <>
struct Words<FerruleFit> {
  static constexpr std::array<std::string_view, 2> list{"pressed", "glued"};
};
template <>
struct Words<VoidsAllowed> {
  static constexpr std::array<std::string_view, 3> list{"none", "small", "any"};
};

std::string_view name_of(WoodCondition condition) {
  return Words<WoodCondition>::list.at(static_cast<std::size_t>(condition));
}

namespace {
const Limits handle_length = within(0 * mm, 1 * metre);
const Limits section = within(5 * mm, 300 * mm);
}  // namespace

template <>
struct Keys<Station> {
  static inline const KeyList list{
      key("at", &Station::along, "distance from the seat", handle_length),
      key("diameter", &Station::diameter, "finished diameter there", within(1 * mm, 300 * mm)),
  };
};
template <>
struct Keys<HandleFacts> {
  static inline const KeyList list{
      key("stations", &HandleFacts::stations, "lengths from the seat with their diameters, seat first, tail last",
          within(2, 200), "[{at = \"0 mm\", diameter = \"25 mm\"}, {at = \"100 mm\", diameter = \"22 mm\"}]"),
      key("form", &HandleFacts::form, "how the form runs from station to station"),
      key("tolerance", &HandleFacts::tolerance, "of the diameters, to either side", within(0 * mm, 10 * mm)),
  };
};
template <>
struct Keys<SeatFacts> {
  static inline const KeyList list{
      key("squareness", &SeatFacts::squareness, "how far the seat may be out of square, over its diameter",
          within(0 * mm, 5 * mm)),
      key("form", &SeatFacts::form, "flat, with a spigot that stands out of it, or with a recess"),
      key("diameter", &SeatFacts::diameter, "of spigot or recess", within(1 * mm, 300 * mm)),
      key("height", &SeatFacts::height, "of the spigot, or depth of the recess", within(0.1 * mm, 100 * mm)),
      key("part_diameter", &SeatFacts::part_diameter,
          "outside diameter of the client's face that the seat is tightened against", within(2 * mm, 300 * mm)),
  };
};
template <>
struct Keys<FerruleFacts> {
  static inline const KeyList list{
      key("outside_diameter", &FerruleFacts::outside_diameter, "of the ferrule", within(2 * mm, 300 * mm)),
      key("inside_diameter", &FerruleFacts::inside_diameter,
          "of the ferrule, to which the wood under it is turned; the turner fits it when left out",
          within(1 * mm, 299 * mm)),
      key("length", &FerruleFacts::length, "of the ferrule, from the seat", within(1 * mm, 300 * mm)),
      key("fit", &FerruleFacts::fit, "how it is held"),
  };
};
template <>
struct Keys<StudFacts> {
  static inline const KeyList list{
      key("thread", &StudFacts::thread,
          "designation of the stud's thread: \"M8\", \"M10x1\", \"5/16-18\", \"#10-24\""),
      key("enters", &StudFacts::enters, "how far the stud screws into the client's part", within(2 * mm, 200 * mm),
          "\"12 mm\""),
      key("grade", &StudFacts::grade, "class of its material: \"A2-70\", \"8.8\", \"brass\"", within(1, 40)),
      key("hole_depth", &StudFacts::hole_depth, "depth of the client's threaded hole", within(2 * mm, 300 * mm)),
      key("embedded", &StudFacts::embedded, "how deep it sits in the wood; worked out when left out",
          within(2 * mm, 300 * mm)),
      key("pull", &StudFacts::pull, "largest pull along the stud in use", within(0 * newton, 100 * kilonewton)),
      key("side_load", &StudFacts::side_load, "largest load across the stud in use",
          within(0 * newton, 100 * kilonewton)),
      key("lever", &StudFacts::lever, "where the side load acts, from the seat", within(0 * mm, 2 * metre)),
      key("torque", &StudFacts::torque, "largest torque about the stud in use",
          within(0 * newton_metre, 1000 * newton_metre)),
      key("tightening", &StudFacts::tightening, "torque with which it is screwed into the client's part",
          within(0 * newton_metre, 1000 * newton_metre)),
      key("yield_strength", &StudFacts::yield_strength, "of the stud, instead of what its grade promises",
          within(10 * megapascal, 2000 * megapascal)),
      key("part_shear_strength", &StudFacts::part_shear_strength,
          "of the client's metal, for the thread in it: about 0.6 of its tensile strength",
          within(5 * megapascal, 1500 * megapascal)),
  };
};
template <>
struct Keys<BoreFacts> {
  static inline const KeyList list{
      key("fit", &BoreFacts::fit, "whether the stud is glued into a plain bore or screwed into a tapped one"),
      key("drill", &BoreFacts::drill, "the drill to use; otherwise the next one up among the shop's"),
  };
};
template <>
struct Keys<DefectFacts> {
  static inline const KeyList list{
      key("from", &DefectFacts::from, "along the grain, from the board's left end", within(0 * mm, 20 * metre)),
      key("to", &DefectFacts::to, "along the grain, where it ends", within(0 * mm, 20 * metre)),
      key("near", &DefectFacts::near, "across, from the board's near edge; its whole width when left out",
          within(0 * mm, 2 * metre)),
      key("far", &DefectFacts::far, "across, where it ends", within(0 * mm, 2 * metre)),
  };
};
template <>
struct Keys<BoardFacts> {
  static inline const KeyList list{
      key("name", &BoardFacts::name, "what stands on the board", within(1, 20)),
      key("length", &BoardFacts::length, "along the grain", within(10 * mm, 20 * metre)),
      key("width", &BoardFacts::width, "across the grain", within(5 * mm, 2 * metre)),
      key("thickness", &BoardFacts::thickness, "of the board", within(5 * mm, 500 * mm)),
      key("defects", &BoardFacts::defects, "what of it is not to be used", within(0, 100)),
  };
};
template <>
struct Keys<WoodFacts> {
  static inline const KeyList list{
      key("species", &WoodFacts::species, "name of the wood: \"European beech\", \"black walnut\"", within(1, 60),
          "\"European beech\""),
      key("condition", &WoodFacts::condition, "state of the wood"),
      key("moisture", &WoodFacts::moisture, "moisture when it is sawn, of the dry mass",
          within(0 * percent, 200 * percent)),
      key("tangential", &WoodFacts::tangential, "tangential shrinkage, green to oven-dry, instead of the table's",
          within(0 * percent, 30 * percent)),
      key("dry_density", &WoodFacts::dry_density,
          "oven-dry mass on oven-dry volume, measured, instead of the table's",
          within(50 * kilogram_per_m3, 1400 * kilogram_per_m3), "\"0.52 g/cm3\""),
      key("boards", &WoodFacts::boards, "boards on hand, to be sawn in this order", within(0, 60)),
      key("voids", &WoodFacts::voids, "which voids may stay in the finished piece"),
      key("matched", &WoodFacts::matched, "are the pieces to match, out of as few boards as can be"),
  };
};
template <>
struct Keys<TreatmentFacts> {
  static inline const KeyList list{
      key("resin", &TreatmentFacts::resin, "name of one of the shop's resins", within(1, 40)),
      key("dye", &TreatmentFacts::dye, "name of one of its dyes; undyed when left out", within(1, 40)),
      key("witness", &TreatmentFacts::witness, "is a blank more started in each bath, only to be cut open"),
      key("witness_for", &TreatmentFacts::witness_for, "is it one for each bath, or for each load of the oven"),
  };
};
template <>
struct Keys<UseFacts> {
  static inline const KeyList list{
      key("driest", &UseFacts::driest, "least moisture of the wood where it is used",
          within(0 * percent, 30 * percent)),
      key("dampest", &UseFacts::dampest, "most moisture of the wood there", within(0 * percent, 30 * percent)),
  };
};
template <>
struct Keys<BlankFacts> {
  static inline const KeyList list{
      key("section", &BlankFacts::section, "side of the square section", section),
      key("length", &BlankFacts::length, "length of the blank", handle_length),
      key("state", &BlankFacts::state, "which state these sizes were taken in"),
  };
};

namespace {

/// The job file as a whole: the order and the number of its format.
struct JobFile : Order {
  Given<int> format;
};

}  // namespace

template <>
struct Keys<JobFile> {
  static inline const KeyList list{
      key("format", &JobFile::format, "number of this file's format", within(1, newest_format)),
      key_of<JobFile>("id", &JobFile::id, "the order's number: letters, digits, . _ -", within(1, 40)),
      key_of<JobFile>("client", &JobFile::client, "who ordered", within(1, 80)),
      key_of<JobFile>("item", &JobFile::item, "what is made", within(1, 80)),
      key_of<JobFile>("quantity", &JobFile::quantity, "good pieces to deliver", within(1, 5000)),
      key_of<JobFile>("due", &JobFile::due, "day of delivery"),
      key_of<JobFile>("drawing", &JobFile::drawing, "number of the client's drawing", within(1, 40)),
      key_of<JobFile>("revision", &JobFile::revision, "revision of that drawing", within(1, 10)),
      key_of<JobFile>("notes", &JobFile::notes, "printed on the turner's sheet", within(1, 600)),
      key_of<JobFile>("finish", &JobFile::finish, "what the finished piece is given", within(1, 80)),
      key_of<JobFile>(
          "template", &JobFile::sheet_template,
          "\"a4\", \"letter\", or the path of a template file from the job file's folder; otherwise the shop's",
          within(1, 200), "\"letter\""),
      key_of<JobFile>("promised", &JobFile::promised, "is it promised to the client"),
      key_of<JobFile>("price", &JobFile::price, "agreed for a piece"),
      key_of<JobFile>("handle", &JobFile::handle, "the finished form"),
      key_of<JobFile>("seat", &JobFile::seat, "the face that meets the client's part"),
      key_of<JobFile>("ferrule", &JobFile::ferrule, "a ring round the seat's end"),
      key_of<JobFile>("stud", &JobFile::stud, "the threaded stud"),
      key_of<JobFile>("bore", &JobFile::bore, "the hole for the stud"),
      key_of<JobFile>("wood", &JobFile::wood, "what it is made of"),
      key_of<JobFile>("blank", &JobFile::blank, "a blank that is there already"),
      key_of<JobFile>("treatment", &JobFile::treatment,
                      "what is drawn into the wood; bath and cure are planned when given"),
      key_of<JobFile>("use", &JobFile::use, "where the piece is used"),
  };
};

namespace {

/// The same with a hyphen in the place of each run of characters that no id has; where nothing is left, an example.
std::string as_id(const std::string& typed) {
  std::string id;
  for (const char c : typed.substr(0, 40)) {
    const bool fits = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '_' || c == '-';
    if (fits) id += c;
    if (!fits && !id.empty() && id.back() != '-') id += '-';
  }
  while (id.ends_with('-') || id.ends_with('.')) id.pop_back();
  return order_id_problem(id) ? "H-0147" : id;
}

void check_id(const Order& order, Diagnostics& out) {
  const auto problem = order_id_problem(order.id.value);
  if (!problem) return;
  out.error(Problem::bad_order_id, order.id.at, says::id_because, problem->text)
      .hint(says::how_to_write_ids, as_id(order.id.value));
}

/// Where the stations are if each length was taken from the one before.
std::vector<std::string> added_up(const std::vector<Station>& stations) {
  std::vector<std::string> along;
  Length sum;
  for (const Station& station : stations) {
    sum = sum + station.along.value;
    const std::string_view typed = written_at(station.along.at);
    const bool in_inches = typed.substr(0, typed.find('"', 1)).find("in") != std::string_view::npos;
    along.push_back(
        text(sum, {in_inches ? UnitSystem::inches : UnitSystem::metric, Round::nearest, Fineness::measured}));
  }
  return along;
}

void check_stations(const HandleFacts& handle, Diagnostics& out) {
  const auto& stations = handle.stations;
  if (stations.front().along.value != 0 * mm) {
    out.error(Problem::seat_station_missing, stations.front().along.at, says::first_station_not_at_seat)
        .hint(says::such_as_first_station);
  }
  constexpr std::size_t least_for_smooth = 4;
  if (handle.form.value == FormLine::smooth && stations.size() < least_for_smooth) {
    out.error(Problem::too_few_stations, handle.form.at, says::smooth_needs_stations, least_for_smooth,
              stations.size())
        .hint(says::straight_or_more_stations);
  }
  for (std::size_t i = 1; i < stations.size(); ++i) {
    const Station& before = stations.at(i - 1);
    const Station& here = stations.at(i);
    if (here.along.value > before.along.value) continue;
    out.error(Problem::stations_not_rising, here.along.at, says::station_not_farther)
        .label(before.along.at, says::the_one_before)
        .hint(says::as_from_seat, listed(added_up(stations), says::quoted, says::one_and_next));
    return;
  }
}

void check_witness(const Order& order, Diagnostics& out) {
  if (!order.treatment || order.treatment->witness.value || order.treatment->witness_for.origin == Origin::standard)
    return;
  out.error(Problem::keys_disagree, order.treatment->witness_for.at, says::no_witness_wanted)
      .hint(says::want_witness);
}

}  // namespace

Order::Order() = default;
Order::Order(const Order&) = default;
Order::Order(Order&&) noexcept = default;
Order& Order::operator=(const Order&) = default;
Order& Order::operator=(Order&&) noexcept = default;
Order::~Order() = default;

std::optional<Order> read_order(const Source& source, Diagnostics& out) {
  const int before = out.errors();
  auto file = read_facts(source, Origin::job, JobFile{}, out);
  if (!file) return std::nullopt;
  Order order = std::move(*file);
  order.source = source;
  check_id(order, out);
  check_stations(order.handle, out);
  check_witness(order, out);
  return out.errors() == before ? std::optional{std::move(order)} : std::nullopt;
}

std::vector<KeyInfo> job_key_infos() { return key_infos<JobFile>(); }

std::optional<std::string> order_id_in(const Source& source) {
  Diagnostics ignored;
  const auto document = read_document(source, ignored);
  if (!document) return std::nullopt;
  const auto id = std::ranges::find(document->members, "id", &Member::key);
  if (id == document->members.end() || id->value.type != Node::Type::text) return std::nullopt;
  return id->value.text;
}

}  // namespace blankwright

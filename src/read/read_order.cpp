#include <fmt/format.h>

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
struct Words<WoodCondition> {
  static constexpr std::array<std::string_view, 4> list{"sound", "spalted", "punky", "burl"};
};
template <>
struct Words<BlankState> {
  static constexpr std::array<std::string_view, 3> list{"sawn", "dry", "squared"};
};

namespace {
const Limits handle_length = within(0 * mm, 1 * metre);
const Limits section = within(5 * mm, 300 * mm);
}  // namespace

template <>
struct Keys<Station> {
  static inline const auto list = std::tuple{
      key("at", &Station::along, "distance from the seat", handle_length),
      key("diameter", &Station::diameter, "finished diameter there", within(1 * mm, 300 * mm)),
  };
};
template <>
struct Keys<HandleFacts> {
  static inline const auto list = std::tuple{
      key("stations", &HandleFacts::stations, "lengths from the seat with their diameters, seat first, tail last",
          within(2, 200), "[{at = \"0 mm\", diameter = \"25 mm\"}, {at = \"100 mm\", diameter = \"22 mm\"}]"),
      key("form", &HandleFacts::form, "how the form runs from station to station"),
      key("tolerance", &HandleFacts::tolerance, "of the diameters, to either side", within(0 * mm, 10 * mm)),
  };
};
template <>
struct Keys<SeatFacts> {
  static inline const auto list = std::tuple{
      key("squareness", &SeatFacts::squareness, "how far the seat may be out of square, over its diameter",
          within(0 * mm, 5 * mm)),
  };
};
template <>
struct Keys<StudFacts> {
  static inline const auto list = std::tuple{
      key("thread", &StudFacts::thread,
          "designation of the stud's thread: \"M8\", \"M10x1\", \"5/16-18\", \"#10-24\""),
      key("enters", &StudFacts::enters, "how far the stud screws into the client's part", within(2 * mm, 200 * mm)),
      key("grade", &StudFacts::grade, "class of its material: \"A2-70\", \"8.8\", \"brass\"", within(1, 40)),
      key("hole_depth", &StudFacts::hole_depth, "depth of the client's threaded hole", within(2 * mm, 300 * mm)),
      key("embedded", &StudFacts::embedded, "how deep it sits in the wood; worked out when left out",
          within(2 * mm, 300 * mm)),
      key("pull", &StudFacts::pull, "largest pull along the stud in use", within(0 * newton, 100 * kilonewton)),
  };
};
template <>
struct Keys<BoreFacts> {
  static inline const auto list = std::tuple{
      key("fit", &BoreFacts::fit, "whether the stud is glued into a plain bore or screwed into a tapped one"),
      key("drill", &BoreFacts::drill, "the drill to use; otherwise the next one up among the shop's"),
  };
};
template <>
struct Keys<WoodFacts> {
  static inline const auto list = std::tuple{
      key("species", &WoodFacts::species, "name of the wood: \"European beech\", \"black walnut\"", within(1, 60),
          "\"European beech\""),
      key("condition", &WoodFacts::condition, "state of the wood"),
      key("moisture", &WoodFacts::moisture, "moisture when it is sawn, of the dry mass",
          within(0 * percent, 200 * percent)),
      key("tangential", &WoodFacts::tangential, "tangential shrinkage, green to oven-dry, instead of the table's",
          within(0 * percent, 30 * percent)),
  };
};
template <>
struct Keys<BlankFacts> {
  static inline const auto list = std::tuple{
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
  static inline const auto list = std::tuple{
      key("format", &JobFile::format, "number of this file's format", within(1, newest_format)),
      Key<JobFile, Given<std::string>>{"id", &JobFile::id, "the order's number: letters, digits, . _ -",
                                       within(1, 40)},
      Key<JobFile, Given<std::string>>{"client", &JobFile::client, "who ordered", within(1, 80)},
      Key<JobFile, Given<std::string>>{"item", &JobFile::item, "what is made", within(1, 80)},
      Key<JobFile, Given<int>>{"quantity", &JobFile::quantity, "good pieces to deliver", within(1, 5000)},
      Key<JobFile, std::optional<Given<Date>>>{"due", &JobFile::due, "day of delivery", {}},
      Key<JobFile, std::optional<Given<std::string>>>{"drawing", &JobFile::drawing, "number of the client's drawing",
                                                      within(1, 40)},
      Key<JobFile, std::optional<Given<std::string>>>{"revision", &JobFile::revision, "revision of that drawing",
                                                      within(1, 10)},
      Key<JobFile, std::optional<Given<std::string>>>{"notes", &JobFile::notes, "printed on the turner's sheet",
                                                      within(1, 600)},
      Key<JobFile, HandleFacts>{"handle", &JobFile::handle, "the finished form", {}},
      Key<JobFile, SeatFacts>{"seat", &JobFile::seat, "the face that meets the client's part", {}},
      Key<JobFile, StudFacts>{"stud", &JobFile::stud, "the threaded stud", {}},
      Key<JobFile, BoreFacts>{"bore", &JobFile::bore, "the hole for the stud", {}},
      Key<JobFile, WoodFacts>{"wood", &JobFile::wood, "what it is made of", {}},
      Key<JobFile, std::optional<BlankFacts>>{"blank", &JobFile::blank, "a blank that is there already", {}},
  };
};

namespace {

void check_id(const Order& order, Diagnostics& out) {
  const auto problem = order_id_problem(order.id.value);
  if (!problem) return;
  out.error(Problem::bad_order_id, order.id.at, fmt::format("`id`: {}", problem->text))
      .hint("use up to 40 letters, digits, full stops, underscores and hyphens: id = \"H-0147\"");
}

void check_stations(const HandleFacts& handle, Diagnostics& out) {
  const auto& stations = handle.stations;
  if (stations.front().along.value != 0 * mm) {
    out.error(Problem::seat_station_missing, stations.front().along.at,
              "the first station is not at the seat; lengths are measured from there")
        .hint("at = \"0 mm\"");
  }
  constexpr std::size_t least_for_smooth = 4;
  if (handle.form.value == FormLine::smooth && stations.size() < least_for_smooth) {
    out.error(Problem::too_few_stations, handle.form.at,
              fmt::format("a smooth form needs {} stations; this one has {}", least_for_smooth, stations.size()))
        .hint("form = \"straight\", or add stations");
  }
  for (std::size_t i = 1; i < stations.size(); ++i) {
    const Station& before = stations.at(i - 1);
    const Station& here = stations.at(i);
    if (here.along.value > before.along.value) continue;
    out.error(Problem::stations_not_rising, here.along.at,
              "this station is not farther from the seat than the one before")
        .label(before.along.at, "the one before");
  }
}

}  // namespace

std::optional<Order> read_order(const Source& source, Diagnostics& out) {
  const int before = out.errors();
  auto file = read_facts(source, Origin::job, JobFile{}, out);
  if (!file) return std::nullopt;
  Order order = std::move(*file);
  order.source = source;
  check_id(order, out);
  check_stations(order.handle, out);
  return out.errors() == before ? std::optional{std::move(order)} : std::nullopt;
}

std::vector<KeyInfo> job_key_infos() { return key_infos<JobFile>(); }

}  // namespace blankwright

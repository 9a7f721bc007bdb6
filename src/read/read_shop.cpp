#include "diagnose/problem.h"
#include "diagnose/says_facts.h"
#include "read/process_keys.h"
#include "read/read_file.h"
#include "read/shop.h"
#include "read/text_forms.h"

namespace blankwright {

template <>
struct Words<UnitSystem> {
  static constexpr std::array<std::string_view, 2> list{"metric", "inch"};
};
template <>
struct Words<BoringMethod> {
  static constexpr std::array<std::string_view, 2> list{"press", "lathe"};
};
template <>
struct Words<HandsOnWhen> {
  static constexpr std::array<std::string_view, 3> list{"throughout", "start", "ends"};
};

template <>
struct Words<PlannedWork> {
  static constexpr std::array<std::string_view, 6> list{"drying", "cooling", "vacuum",
                                                        "soak",   "cure",    "glue-setting"};
};

template <>
struct Keys<WeekFacts> {
  static inline const KeyList list{
      key("monday", &WeekFacts::monday,
          "stretches of work on a Monday: [\"08:00-12:00\", \"13:00-17:00\"]; free when left out", within(0, 10)),
      key("tuesday", &WeekFacts::tuesday, "stretches of work on a Tuesday; free when left out", within(0, 10)),
      key("wednesday", &WeekFacts::wednesday, "stretches of work on a Wednesday; free when left out", within(0, 10)),
      key("thursday", &WeekFacts::thursday, "stretches of work on a Thursday; free when left out", within(0, 10)),
      key("friday", &WeekFacts::friday, "stretches of work on a Friday; free when left out", within(0, 10)),
      key("saturday", &WeekFacts::saturday, "stretches of work on a Saturday; free when left out", within(0, 10)),
      key("sunday", &WeekFacts::sunday, "stretches of work on a Sunday; free when left out", within(0, 10)),
      key("days_off", &WeekFacts::days_off, "dates on which nobody works", within(0, 1000)),
  };
};

namespace {
const Limits small = within(0 * mm, 50 * mm);
const Limits per_100mm = within(0 * mm, 20 * mm);
const Limits span_of_time = within(0 * hour, 60 * 24 * hour);
}  // namespace

template <>
struct Keys<AllowanceFacts> {
  static inline const KeyList list{
      key("finish", &AllowanceFacts::finish, "wood left on the finished form, per side, for the turner to clean up",
          small),
      key("bow", &AllowanceFacts::bow, "bow of the squared blank, per side", small),
      key("section_tolerance", &AllowanceFacts::section_tolerance,
          "how far a squared section may fall below its size", small),
      key("squaring", &AllowanceFacts::squaring, "taken off the section when it is squared after the cure", small),
      key("planing", &AllowanceFacts::planing, "taken off the section before drying", small),
      key("saw_increment", &AllowanceFacts::saw_increment, "sawn sizes are rounded up to a multiple of this",
          within(0.1 * mm, 50 * mm)),
      key("kerf", &AllowanceFacts::kerf, "width of the saw's cut", within(0 * mm, 10 * mm)),
      key("end_trim", &AllowanceFacts::end_trim, "taken off either end of a board before it is used",
          within(0 * mm, 500 * mm)),
      key("seat_facing", &AllowanceFacts::seat_facing, "taken off the seat's end after boring", small),
      key("end_squaring", &AllowanceFacts::end_squaring, "taken off the length when both ends are squared", small),
      key("tail_waste", &AllowanceFacts::tail_waste, "waste behind the tail for the wire hole and the end mark",
          within(least_tail_waste, 200 * mm)),
  };
};
template <>
struct Keys<BoringFacts> {
  static inline const KeyList list{
      key("method", &BoringFacts::method,
          "bored on the drill press, or on the lathe in a blank rounded between centres"),
      key("offset", &BoringFacts::offset, "how far a bore is off the centre at the seat, 95 in 100",
          within(0 * mm, 10 * mm)),
      key("tilt_per_100mm", &BoringFacts::tilt_per_100mm, "how far a bore leans over 100 mm, 95 in 100", per_100mm),
      key("end_squareness_per_100mm", &BoringFacts::end_squareness_per_100mm,
          "how far the bored end is out of square over 100 mm", per_100mm),
      key("jig_offset", &BoringFacts::jig_offset, "offset that the centring jig leaves, measured on set studs",
          within(0 * mm, 10 * mm)),
      key("jig_tilt_per_100mm", &BoringFacts::jig_tilt_per_100mm,
          "tilt that the centring jig leaves, measured likewise", per_100mm),
      key("drill_point", &BoringFacts::drill_point, "included angle of the drills' points",
          within(60 * degree, 180 * degree)),
      key("drills", &BoringFacts::drills,
          "drills owned: \"8.5 mm\", \"5/16 in\", \"#7\", \"F\"; the usual sizes when left out", within(0, 500)),
      key("reservoir", &BoringFacts::reservoir, "room behind the stud for displaced glue", small),
      key("least_web", &BoringFacts::least_web, "least wood behind the drill's point", small),
      key("least_wall", &BoringFacts::least_wall, "least wood between bore and finished form", small),
  };
};
template <>
struct Keys<LatheFacts> {
  static inline const KeyList list{
      key("fastest", &LatheFacts::fastest, "no spindle speed above this is printed, however small the handle",
          within(100 * per_minute, 10'000 * per_minute)),
  };
};
template <>
struct Keys<GlueFacts> {
  static inline const KeyList list{
      key("line", &GlueFacts::line, "thickness of the glue line, per side", within(0 * mm, 3 * mm)),
      key("shear_strength", &GlueFacts::shear_strength, "of the bond between stud and wood",
          within(0.1 * megapascal, 30 * megapascal)),
      key("shear_measured", &GlueFacts::shear_measured, "was that strength measured on pulled witnesses"),
      key("wood_shear_strength", &GlueFacts::wood_shear_strength, "of the wood round the bore",
          within(0.1 * megapascal, 30 * megapascal)),
      key("set_time", &GlueFacts::set_time, "until the glue has its full strength", within(0 * hour, 30 * 24 * hour)),
      key("safety_factor", &GlueFacts::safety_factor, "on bond, thread and stud", within(1, 20)),
      key("assembly_factor", &GlueFacts::assembly_factor, "on the bond while the stud is tightened",
          within(100 * percent, 1000 * percent)),
      key("least_embedded", &GlueFacts::least_embedded, "least length in the wood, of the stud's diameter",
          within(100 * percent, 2000 * percent)),
      key("least_edge", &GlueFacts::least_edge, "least distance from the stud's axis to the surface, of its diameter",
          within(50 * percent, 1000 * percent)),
  };
};
template <>
struct Keys<YieldFacts> {
  static inline const KeyList list{
      key("expected", &YieldFacts::expected, "how many came out good of how many started so far: \"8 of 10\""),
      key("confidence", &YieldFacts::confidence, "chance with which enough are to be good",
          within(50 * percent, 99.9 * percent)),
      key("spares", &YieldFacts::spares, "pieces more than ordered, where no yield is known", within(0, 1000)),
  };
};
template <>
struct Keys<RegisterFacts> {
  static inline const KeyList list{
      key("series", &RegisterFacts::series,
          "first ID that the register gives out; best left out: then a new register draws it, and no two shops have "
          "the same IDs"),
  };
};
template <>
struct Keys<OperationFacts> {
  static inline const KeyList list{
      key("name", &OperationFacts::name, "what is done", within(1, 60)),
      key("who", &OperationFacts::who, "who does it", within(1, 30)),
      key("fixed", &OperationFacts::fixed, "time that it takes whatever the number of pieces", span_of_time),
      key("per_piece", &OperationFacts::per_piece, "time for each piece", within(0 * hour, 48 * hour)),
      key("planned", &OperationFacts::planned,
          "takes the time that the plan works out for this, in the vessel or the oven, instead of `fixed`"),
      key("hands_on", &OperationFacts::hands_on, "when somebody has to be at it"),
      key("hands_on_time", &OperationFacts::hands_on_time,
          "how long, at the start or at either end; 10 min when left out", within(0 * hour, 12 * hour)),
      key("unattended", &OperationFacts::unattended, "may it run while nobody is there"),
      key("may_run_long", &OperationFacts::may_run_long, "may it run longer without harm"),
      key("most", &OperationFacts::most, "the longest that it may run", span_of_time),
      key("longest_wait", &OperationFacts::longest_wait, "the longest wait between the operation before and this one",
          span_of_time),
      key("only_witnesses", &OperationFacts::only_witnesses,
          "done to witnesses alone, which go no further; left out where there are none"),
      key("ended_by", &OperationFacts::ended_by, "the entry with which it is done to a blank"),
      key("only_treated", &OperationFacts::only_treated, "left out for orders that no resin is drawn into"),
      key("limit", &OperationFacts::limit, "what to keep to, printed beside it", within(1, 120)),
      key("hold", &OperationFacts::hold, "what has to be true before the work goes on; a signature is asked for",
          within(1, 120)),
  };
};

namespace {

struct ShopFile : Shop {
  Given<int> format;
};

}  // namespace

template <>
struct Keys<ShopFile> {
  static inline const KeyList list{
      key("format", &ShopFile::format, "number of this file's format", within(1, newest_format)),
      key_of<ShopFile>("name", &ShopFile::name, "of the shop", within(1, 80)),
      key_of<ShopFile>("zone", &ShopFile::zone, "time zone (IANA): \"Europe/Berlin\""),
      key_of<ShopFile>("units", &ShopFile::units, "units to print in"),
      key_of<ShopFile>("template", &ShopFile::sheet_template, "\"a4\", \"letter\", or the path of a template file",
                       within(1, 200)),
      key_of<ShopFile>("jobs", &ShopFile::jobs, "folder of the job files, from this file's; otherwise this file's",
                       within(1, 200)),
      key_of<ShopFile>("altitude", &ShopFile::altitude, "of the shop above the sea, for the vacuum",
                       within(-430 * metre, 5000 * metre)),
      key_of<ShopFile>("register", &ShopFile::register_facts, "the register beside this file"),
      key_of<ShopFile>("hours", &ShopFile::hours, "working hours, on one day at least"),
      key_of<ShopFile>("allowances", &ShopFile::allowances, "what is left on and taken off"),
      key_of<ShopFile>("boring", &ShopFile::boring, "how bores are made and how true they are"),
      key_of<ShopFile>("lathe", &ShopFile::lathe, "the lathe"),
      key_of<ShopFile>("glue", &ShopFile::glue, "how studs are glued"),
      key_of<ShopFile>("yield", &ShopFile::yield, "how many pieces come out good"),
      key_of<ShopFile>("drying", &ShopFile::drying, "how wood is dried before the bath"),
      key_of<ShopFile>("uptake", &ShopFile::uptake, "how much resin has to go in"),
      key_of<ShopFile>("bath", &ShopFile::bath, "how blanks are set in a vessel and held down"),
      key_of<ShopFile>("vessels", &ShopFile::vessels, "vessels for the bath", within(0, 20)),
      key_of<ShopFile>("pump", &ShopFile::pump, "the vacuum pump"),
      key_of<ShopFile>("vacuum", &ShopFile::vacuum, "how the vacuum is pulled and held"),
      key_of<ShopFile>("resins", &ShopFile::resins, "resins, by their data sheets", within(0, 20)),
      key_of<ShopFile>("activated", &ShopFile::activated, "activated resin left over from earlier baths",
                       within(0, 100)),
      key_of<ShopFile>("ovens", &ShopFile::ovens, "ovens; the first is used first", within(0, 20)),
      key_of<ShopFile>("studs", &ShopFile::studs, "studs and rods in stock", within(0, 200)),
      key_of<ShopFile>("costs", &ShopFile::costs, "what work and material cost"),
      key_of<ShopFile>("printer", &ShopFile::printer, "how true the printer is"),
      key_of<ShopFile>("routing", &ShopFile::routing, "the operations, in order", within(1, 60),
                       "[{name = \"Turn\", who = \"turner\", per_piece = \"30 min\"}]"),
  };
};

namespace {

/// What one operation says has to agree with itself.
void check_operation(const OperationFacts& op, Diagnostics& out) {
  const bool by_the_clock = op.hands_on.value != HandsOnWhen::throughout;
  if (op.most && by_the_clock && !op.may_run_long.value) {
    out.error(Problem::keys_disagree, op.most->at, says::most_without_effect).hint(says::such_as_may_run_long);
  }
  if (op.hands_on_time && !by_the_clock) {
    out.error(Problem::keys_disagree, op.hands_on_time->at, says::hands_on_without_effect)
        .hint(says::such_as_hands_on);
  }
  if (!op.fixed && !op.per_piece && !op.planned) {
    out.error(Problem::missing_key, op.place, says::operation_without_time, op.name.value).hint(says::such_as_time);
  }
  if (op.planned && (op.fixed || op.per_piece)) {
    out.error(Problem::keys_disagree, op.fixed ? op.fixed->at : op.per_piece->at, says::operation_with_two_times,
              op.name.value)
        .label(op.planned->at, says::from_the_plan)
        .hint(says::leave_one_out);
  }
  if (op.most && op.fixed && op.most->value < op.fixed->value) {
    out.error(Problem::out_of_range, op.most->at, says::most_below_time).label(op.fixed->at, says::the_time_it_takes);
  }
}

/// Witnesses go through bath and oven with the others: what is done to them alone comes after.
void check_witnesses(const std::vector<OperationFacts>& routing, Diagnostics& out) {
  const OperationFacts* alone = nullptr;
  for (const OperationFacts& op : routing) {
    if (op.only_witnesses.value && alone == nullptr) alone = &op;
    if (alone == nullptr || !op.planned || op.planned->value == PlannedWork::glue_setting) continue;
    out.error(Problem::keys_disagree, alone->only_witnesses.at, says::witnesses_alone_before, alone->name.value,
              op.name.value)
        .label(op.planned->at, says::they_go_with_others);
    return;
  }
}

void check_day(const std::vector<Given<HoursOfWork>>& day, Diagnostics& out) {
  for (std::size_t i = 1; i < day.size(); ++i) {
    if (day.at(i).value.from >= day.at(i - 1).value.to) continue;
    out.error(Problem::bad_hours, day.at(i).at, says::stretches_overlap)
        .label(day.at(i - 1).at, says::the_one_before);
  }
}

/// A measured residual of the jig counts only whole: offset and tilt belong together.
void check_jig(const BoringFacts& boring, Diagnostics& out) {
  if (boring.jig_offset.has_value() == boring.jig_tilt_per_100mm.has_value()) return;
  const bool has_offset = boring.jig_offset.has_value();
  constexpr Keyword offset{"jig_offset"}, tilt{"jig_tilt_per_100mm"};
  out.error(Problem::keys_disagree, has_offset ? boring.jig_offset->at : boring.jig_tilt_per_100mm->at,
            says::missing_beside, has_offset ? tilt : offset, has_offset ? offset : tilt)
      .hint(says::assigned, has_offset ? tilt : offset,
            printed(decimal(has_offset ? 0.3 : 0.2, 1), PrintedUnit::millimetres));
}

void check_hours(const Shop& shop, Diagnostics& out) {
  const WeekFacts& days = shop.hours;
  for (const auto* day :
       {&days.monday, &days.tuesday, &days.wednesday, &days.thursday, &days.friday, &days.saturday, &days.sunday}) {
    check_day(*day, out);
  }
  const WeekFacts& week = shop.hours;
  const bool any = !(week.monday.empty() && week.tuesday.empty() && week.wednesday.empty() && week.thursday.empty() &&
                     week.friday.empty() && week.saturday.empty() && week.sunday.empty());
  if (any) return;
  out.error(Problem::bad_hours, week.place.source ? week.place : shop.place, says::no_hours_at_all)
      .hint(says::such_as_a_day);
}

}  // namespace

std::string_view name_of(PlannedWork work) { return Words<PlannedWork>::list.at(static_cast<std::size_t>(work)); }

Shop::Shop() = default;
Shop::Shop(const Shop&) = default;
Shop::Shop(Shop&&) noexcept = default;
Shop& Shop::operator=(const Shop&) = default;
Shop& Shop::operator=(Shop&&) noexcept = default;
Shop::~Shop() = default;

std::optional<Shop> read_shop(const Source& source, Diagnostics& out) {
  const int before = out.errors();
  auto file = read_facts(source, Origin::shop, ShopFile{}, out);
  if (!file) return std::nullopt;
  Shop shop = std::move(*file);
  shop.source = source;
  check_hours(shop, out);
  check_jig(shop.boring, out);
  if (shop.units.value == UnitSystem::inches && shop.allowances.saw_increment.origin == Origin::standard) {
    shop.allowances.saw_increment = standard_value(inch / 16, common_practice);
  }
  for (OperationFacts& op : shop.routing) {
    if (op.planned && op.hands_on.origin == Origin::standard) {
      op.hands_on = standard_value(HandsOnWhen::ends, "it is set going and taken out");
    }
    check_operation(op, out);
  }
  check_witnesses(shop.routing, out);
  return out.errors() == before ? std::optional{std::move(shop)} : std::nullopt;
}

std::vector<KeyInfo> shop_key_infos() { return key_infos<ShopFile>(); }

}  // namespace blankwright

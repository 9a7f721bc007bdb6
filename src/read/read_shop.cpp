#include "diagnose/problem.h"
#include "diagnose/says_facts.h"
#include "read/process_keys.h"
#include "read/read_file.h"
#include "read/shop.h"
#include "read/text_forms.h"
#include "read/work_keys.h"

namespace blankwright {

template <>
struct Words<UnitSystem> {
  static constexpr std::array<std::string_view, 2> list{"metric", "inch"};
};
template <>
struct Words<BoringMethod> {
  static constexpr std::array<std::string_view, 2> list{"press", "lathe"};
};
namespace {
const Limits small = within(0 * mm, 50 * mm);
const Limits per_100mm = within(0 * mm, 20 * mm);
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
      key("expected", &YieldFacts::expected,
          "how many came out good of how many started so far: \"8 of 10\"; counted with the register's own until "
          "that "
          "has as many"),
      key("confidence", &YieldFacts::confidence, "chance with which enough are to be good",
          within(50 * percent, 99.9 * percent)),
      key("spares", &YieldFacts::spares, "pieces more than ordered, where no yield is known", within(0, 1000)),
  };
};
template <>
struct Keys<PromiseFacts> {
  static inline const KeyList list{
      key("confidence", &PromiseFacts::confidence, "chance with which a date that is promised is to hold",
          within(50 * percent, 99 * percent)),
      key("spread", &PromiseFacts::spread,
          "how far the times that work takes are off the planned ones, two of three, until the register tells it",
          within(0 * percent, 100 * percent)),
      key("wood_delivery", &PromiseFacts::wood_delivery, "from ordering wood to having it",
          within(0 * hour, 365 * 24 * hour)),
  };
};
template <>
struct Keys<RegisterFacts> {
  static inline const KeyList list{
      key("series", &RegisterFacts::series,
          "first ID that the register gives out; best left out: then a new register draws it, and no two shops have "
          "the same IDs"),
      key("file", &RegisterFacts::file,
          "the register's file, from this file's folder; otherwise beside this file, named after it", within(1, 400)),
      key("database", &RegisterFacts::database,
          "PostgreSQL database that holds the register of several benches, as libpq takes it: \"service=shop\", "
          "\"host=office dbname=shop\"; never with a password",
          within(1, 400)),
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
      key_of<ShopFile>("register", &ShopFile::register_facts,
                       "the register: where it stands, and where its IDs begin"),
      key_of<ShopFile>("hours", &ShopFile::hours, "working hours, on one day at least"),
      key_of<ShopFile>("allowances", &ShopFile::allowances, "what is left on and taken off"),
      key_of<ShopFile>("boring", &ShopFile::boring, "how bores are made and how true they are"),
      key_of<ShopFile>("lathe", &ShopFile::lathe, "the lathe"),
      key_of<ShopFile>("glue", &ShopFile::glue, "how studs are glued"),
      key_of<ShopFile>("yield", &ShopFile::yield, "how many pieces come out good"),
      key_of<ShopFile>("promise", &ShopFile::promise, "with what a date is promised"),
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
      key_of<ShopFile>("people", &ShopFile::people, "who works in the shop; when left out everybody works its hours",
                       within(0, 50)),
      key_of<ShopFile>("machines", &ShopFile::machines, "machines that only one operation at a time can have",
                       within(0, 50)),
      key_of<ShopFile>("routing", &ShopFile::routing, "the operations, in order", within(1, 60),
                       "[{name = \"Turn\", who = \"turner\", per_piece = \"30 min\"}]"),
  };
};

namespace {

/// An inch shop's fence and stop are set in fractions: what it does not say itself is one.
void set_saw_in_inches(AllowanceFacts& allowances) {
  const auto unless_said = [](Given<Length>& given, Length usual) {
    if (given.origin == Origin::standard) given = standard_value(usual, common_practice);
  };
  unless_said(allowances.saw_increment, inch / 16);
  unless_said(allowances.kerf, inch / 8);
  unless_said(allowances.end_trim, 0.75 * inch);
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
  check_jig(shop.boring, out);
  if (shop.units.value == UnitSystem::inches) set_saw_in_inches(shop.allowances);
  check_work(shop, out);
  return out.errors() == before ? std::optional{std::move(shop)} : std::nullopt;
}

std::vector<KeyInfo> shop_key_infos() { return key_infos<ShopFile>(); }

}  // namespace blankwright

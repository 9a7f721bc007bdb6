#pragma once

// An order whose bath and oven load are put together by hand, so that a test knows every figure on its cards. The
// orders and shops are the invented ones of the sample jobs.

#include <memory>
#include <string>
#include <vector>

#include "cutting_fixture.h"
#include "plan/figure/figure.h"
#include "sheet/paper/on_paper.h"

namespace blankwright {

/// What a test varies.
struct Bathing {
  bool inches = false, letter = false, draft = false, trough = false;
  int margin = 12;  // mm
  int pieces = 10;
  bool witness = true;
  int in_layer = 5, layers = 2;
  std::string dye = {};
  bool figures = true;
  int others = 0;  ///< blanks of another order in the same bath
  bool reused = false;
  std::string own_template = {};  ///< more of its lines
};

/// Blanks 30 mm thick standing in rows of five along x, 65 mm long in two layers or 140 mm in one: tops at 140 mm.
/// Levels at 190 and 165 mm, 4 l of resin.
inline PlannedBath bath_by_hand(const Shop& shop, const Bathing& how) {
  PlannedBath planned;
  Bath& bath = planned.bath;
  bath.vessel = &shop.vessels.at(how.trough ? 1 : 0);
  bath.resin = &shop.resins.at(0);
  const Length section = 30 * mm, length = how.layers == 1 ? 140 * mm : 65 * mm;
  bath.layout = {.stance = Stance::standing,
                 .layers = how.layers,
                 .in_layer = how.in_layer,
                 .cell_across = section,
                 .cell_along = section,
                 .top = 140 * mm,
                 .cell_x = {},
                 .cell_y = {}};
  const int in_row = 5;
  for (int n = 0; n < how.in_layer; ++n) {
    const int column = n % in_row, row = n / in_row;
    bath.layout.cell_x.push_back((column - 2) * 36.0 * mm);
    bath.layout.cell_y.push_back((row == 0 ? 0 : row % 2 == 1 ? (row + 1) / 2 : -row / 2) * 36.0 * mm);
  }
  bath.start_height = 190 * mm;
  bath.end_height = 165 * mm;
  bath.headspace = bath.vessel->height.value - bath.start_height;
  bath.pour = 4 * litre;
  bath.reused = how.reused ? 1 * litre : 0 * litre;
  bath.fresh = bath.pour - bath.reused;
  bath.ballast = 1200.3 * gram;  // on scales 1210 g
  bath.left_over = 2.5 * litre;
  planned.to_bottle = bath.left_over;
  planned.dye = how.dye;
  planned.shares = {{0, 0, how.pieces, 0, how.witness ? 1 : 0}};
  const BathBlanks alike{planned.shares.front().total(), section, length, 90 * gram, 60 * gram, 90 * gram};
  planned.blanks = {alike};
  if (how.others > 0) {
    planned.shares.push_back({1, 0, how.others, 0, 0});
    planned.blanks.push_back(alike);
    planned.blanks.back().count = how.others;
  }
  const Instant noon{std::chrono::sys_days{std::chrono::year{2027} / 5 / 10} + std::chrono::hours{10}};
  planned.vacuum = Interval{noon, noon + std::chrono::hours{6}};
  planned.activated = parse_date(how.reused ? "2027-03-09" : "2027-05-10").value();
  if (!how.figures) return planned;
  const auto set = [&](Figure figure, double si) { planned.figures.set(figure, si); };
  const Length rim = bath.vessel->height.value;
  set(Figure::bath_pour, bath.pour / Volume::unit());
  set(Figure::bath_fresh_resin, bath.fresh / Volume::unit());
  set(Figure::bath_reused_resin, bath.reused / Volume::unit());
  set(Figure::bath_activator, 0.0416);
  set(Figure::bath_ballast, bath.ballast / kilogram);
  set(Figure::bath_start_height, bath.start_height / metre);
  set(Figure::bath_end_height, bath.end_height / metre);
  set(Figure::bath_start_dip, (rim - bath.start_height) / metre);
  set(Figure::bath_end_dip, (rim - bath.end_height) / metre);
  set(Figure::bath_headspace, bath.headspace / metre);
  set(Figure::bath_left_over, bath.left_over / Volume::unit());
  return planned;
}

/// Keeps what a dossier refers to.
class BathedOrder {
 public:
  explicit BathedOrder(const Bathing& how) : how_{how} {
    Diagnostics out;
    const auto source = [](const std::string& name, const std::string& text) {
      return std::make_shared<SourceText>(SourceText{name, text});
    };
    const auto file = [&](const std::string& path) { return source(path, table_pages::bytes_of_file(path)); };
    const std::string folder = how.inches ? "/sample-jobs/inch/" : "/sample-jobs/metric/";
    auto words = read_template(file("/templates/standard.toml"), Template{}, out);
    const table_pages::Job paper{.letter = how.letter, .margin = how.margin};
    if (words)
      words = read_template(source("own.toml", table_pages::template_text(paper) + how.own_template), *words, out);
    auto order = read_order(file(folder + (how.inches ? "file-handle.toml" : "burnisher.toml")), out);
    auto shop = read_shop(file(folder + "shop.toml"), out);
    INFO(rendered(out));
    REQUIRE((words && order && shop));
    words_ = std::move(*words);
    order_ = std::move(*order);
    shop_ = std::move(*shop);
    if (how.figures) set_figures();
    plan_.witnesses = how.witness ? 1 : 0;
    plan_.process.resin = &shop_.resins.at(0);
    if (shop_.boring.method.value == BoringMethod::lathe) plan_.rounded.emplace();
    together_.baths.push_back(bath_by_hand(shop_, how));
    const PlannedBath& bath = together_.baths.front();
    const OvenFacts& oven = shop_.ovens.at(0);
    const OvenLoad layout = oven_load(oven, bath.blanks.front().section, bath.blanks.front().length);
    together_.loads.push_back({0, &oven, layout, bath.shares, {}});
    issued_ = {issue(order_.id.value, how.pieces, how.witness ? 1 : 0, 0), issue("OTHER-9", how.others, 0, 1000)};
  }

  Dossier dossier() const {
    std::vector<BlankId> blanks = issued_.front().pieces;
    blanks.insert(blanks.end(), issued_.front().witnesses.begin(), issued_.front().witnesses.end());
    Dossier d{order_, shop_, plan_, times_, words_, blanks, how_.draft, at_, "Blankwright 0.1.0", {}, {}};
    d.baths = baths_of(0, together_, issued_);
    d.loads = loads_of(0, together_, issued_);
    return d;
  }

 private:
  /// As they would be planned, give or take; 94 kPa of the air at some altitude, and 90 of it on the gauge.
  void set_figures() {
    const auto celsius_si = [](double degrees) { return 273.15 + degrees; };
    const auto set = [&](Figure figure, double si) { plan_.figures.set(figure, si); };
    set(Figure::vacuum_gauge, 90e3);
    set(Figure::vacuum_hold, 6 * 3600.0);
    set(Figure::vacuum_least_soak, 12 * 3600.0);
    set(Figure::drying_oven, celsius_si(103));
    set(Figure::drying_least_time, 30 * 3600.0);
    set(Figure::drying_cool, 2 * 3600.0);
    set(Figure::drying_room_moisture, 0.086);
    set(Figure::drying_regain_time, 2.5 * 3600);
    set(Figure::cure_dial, celsius_si(94.5));
    set(Figure::cure_true, celsius_si(93));
    set(Figure::cure_core, celsius_si(85));
    set(Figure::cure_core_time, 135 * 60.0);
    set(Figure::cure_core_time_cautious, 205 * 60.0);
    set(Figure::cure_hold, 3600);
    set(Figure::cure_total, 265 * 60.0);
  }

  IssuedTo issue(const std::string& order, int pieces, int witnesses, int first) const {
    IssuedTo issued{order, {}, {}};
    for (int n = 0; n < pieces + witnesses && !how_.draft; ++n)
      (n < pieces ? issued.pieces : issued.witnesses).push_back(BlankId::nth(static_cast<std::uint32_t>(first + n)));
    return issued;
  }

  Bathing how_;
  Instant at_{std::chrono::sys_days{std::chrono::year{2027} / 5 / 3} + std::chrono::hours{7}};
  Template words_;
  Order order_;
  Shop shop_;
  OrderPlan plan_{.species = "European beech", .form = {{{0 * mm, 26 * mm}, {108 * mm, 24 * mm}}, false}};
  OrderTimes times_;
  ShopPlan together_;
  std::vector<IssuedTo> issued_;
};

}  // namespace blankwright

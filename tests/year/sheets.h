#pragma once

#include <optional>
#include <string>
#include <vector>

#include "moment.h"
#include "printed.h"

namespace simulated {

struct LadderRow {
  double dry_g = 0, wet_least_g = 0, cured_least_g = 0, wet_most_g = 0;
};

struct CaliperRow {
  int number = 0;
  double at_mm = 0, diameter_mm = 0, least_mm = 0,
         most_mm = 0;  ///< least and most are NaN where they are made to fit
};

struct BlankSizes {
  double sawn_mm = 0, dry_mm = 0, squared_mm = 0;
};

struct PrintedRun {
  std::string operation;
  Moment start, end;
};

/// What the shop's people take from an order's sheets. All NaN or empty where it is not printed.
struct Sheets {
  // the turner's sheet
  double tighten_most_Nm = 0, spindle_rpm = 0, depth_stop_mm = 0, round_to_mm = 0, centres_off_mm = 0;
  double squared_section_mm = 0, squared_length_mm = 0;
  double axis_limit_mm = 0;  ///< position on the press, runout on the lathe: line 1 of the checks
  double lean_limit_mm_per_100mm = 0, projection_mm = 0, embedded_mm = 0;
  std::vector<CaliperRow> calipers;
  // routing
  BlankSizes section, length;
  std::vector<PrintedRun> runs;
  // weighing
  std::vector<LadderRow> ladder;
  // cards
  double gauge_kPa = 0, dial_cure_C = 0, dial_dry_C = 0;
  int loads = 0;  ///< cards of the oven
  double soak_least_hours = 0, dry_least_hours = 0, cool_hours = 0, oven_least_hours = 0;
};

/// NaN where it names none.
double tightening_on_card(const PrintedPage& page);
Sheets read_sheets(const std::vector<PrintedPage>& pages, Moment printed);

struct ListedBlank {
  std::string id, order, role;
  int bath = 0, load = 0;
};
/// The IDs of an order, with the bath and the load that they were given.
std::vector<ListedBlank> listed_blanks(const std::string& csv);

}  // namespace simulated

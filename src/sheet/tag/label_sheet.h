#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "read/shop.h"
#include "read/template.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"

namespace blankwright {

/// Places of a label sheet, numbered from 1 row by row, that have lost their label already.
using UsedPlaces = std::vector<int>;

/// "1-4, 9" as places, ascending, each once; nothing where it is not a list of places from 1 to 2500 and ranges of
/// them.
std::optional<UsedPlaces> read_places(std::string_view text);

/// How many labels a sheet has.
int places_of(const LabelSheet& sheet);

/// Where the n-th label of a run (from 0) is printed.
struct LabelSpot {
  int page = 0;
  Box label;  ///< as this printer has to be told, so that it comes out on the label
};

/// Labels of a sheet one after the other, from the first place that is not used up on the first page. Places are
/// moved and stretched by what the shop has measured of its printer.
class LabelRun {
 public:
  /// `used` has to leave a place.
  LabelRun(const LabelSheet& sheet, const PrinterFacts& printer, const UsedPlaces& used = {});

  LabelSpot spot(int n) const;
  /// A place of the sheet, from 0.
  Box label_at(int place) const;

 private:
  LabelSheet sheet_;
  PrinterFacts printer_;
  std::vector<int> first_page_;  ///< places that are free on it
};

/// Does ink of the labels come nearer than 5 mm to the edge of the paper, where many printers print nothing?
bool is_near_edge(const LabelSheet& sheet, const PrinterFacts& printer, Length margin_in_label);

/// The outline of every label with the number of its place, to be printed on plain paper and held against a label
/// sheet.
Page label_outlines(const LabelSheet& sheet, const PrinterFacts& printer, const Template& t,
                    const FontMetrics& fonts);

}  // namespace blankwright

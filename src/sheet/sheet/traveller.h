#pragma once

#include <optional>
#include <vector>

#include "sheet/frame/frame.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// A page of the traveller, and what stands on it: nothing where it is an empty side.
struct TravellerPage {
  Page page;
  std::vector<PartOnPage> parts;
};

/// The traveller without the feet of its pages: the template's sheets person by person. Where paper is printed on
/// both sides, the pages of each person begin on a leaf of their own, and cards and what is cut out have nothing
/// behind them: such a side is a page without anything. The worksheet is a document of its own.
std::vector<TravellerPage> traveller_sheets(const Dossier& dossier, const FontMetrics& fonts);

/// Their pages, numbered; of them only those that are `wanted`, where that is given, a bool for each of the pages:
/// they keep their numbers, and those of different leaves stay on different leaves.
std::vector<Page> traveller(const Dossier& dossier, const FontMetrics& fonts, std::vector<TravellerPage> sheets,
                            const std::optional<std::vector<bool>>& wanted = {});

/// How every figure came about.
std::vector<Page> worksheet_document(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright

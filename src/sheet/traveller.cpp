#include "sheet/traveller.h"

#include <iterator>
#include <utility>

#include "sheet/bath_card.h"
#include "sheet/bottle_label.h"
#include "sheet/caution_sheet.h"
#include "sheet/cutting_sheet.h"
#include "sheet/frame.h"
#include "sheet/half_profile.h"
#include "sheet/inspection_sheet.h"
#include "sheet/oven_card.h"
#include "sheet/routing_sheet.h"
#include "sheet/stamping_sheet.h"
#include "sheet/target_sheets.h"
#include "sheet/turner_sheet.h"
#include "sheet/weighing_sheet.h"
#include "sheet/worksheet.h"

namespace blankwright {
namespace {

void append(std::vector<Page>& pages, std::vector<Page> more) {
  pages.insert(pages.end(), std::move_iterator{more.begin()}, std::move_iterator{more.end()});
}

}  // namespace

std::vector<Page> traveller(const Dossier& dossier, const FontMetrics& fonts) {
  std::vector<Page> pages{turner_sheet(dossier, fonts)};
  append(pages, routing_sheets(dossier, fonts));
  append(pages, cutting_sheets(dossier, fonts));
  append(pages, stamping_sheets(dossier, fonts));
  append(pages, weighing_sheets(dossier, fonts));
  append(pages, bath_cards(dossier, fonts));
  append(pages, oven_cards(dossier, fonts));
  append(pages, bottle_labels(dossier, fonts));
  append(pages, inspection_sheets(dossier, fonts));
  append(pages, target_sheets(dossier, fonts));
  append(pages, half_profile_sheets(dossier, fonts));
  append(pages, caution_sheets(dossier, fonts));
  append(pages, worksheets(dossier, fonts));
  number_sheets(pages, dossier, fonts);
  return pages;
}

}  // namespace blankwright

#include "sheet/traveller.h"

#include <iterator>
#include <utility>

#include "sheet/frame.h"
#include "sheet/inspection_sheet.h"
#include "sheet/routing_sheet.h"
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
  append(pages, weighing_sheets(dossier, fonts));
  append(pages, inspection_sheets(dossier, fonts));
  append(pages, worksheets(dossier, fonts));
  number_sheets(pages, dossier, fonts);
  return pages;
}

}  // namespace blankwright

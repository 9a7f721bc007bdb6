#include "commands/written_files.h"

#include <fmt/format.h>

#include "commands/chosen_paper.h"
#include "sheet/sheet/traveller.h"
#include "sheet/sheet/week_sheet.h"
#include "sheet/tag/tags.h"
#include "write/blanks_csv.h"
#include "write/picture.h"
#include "write/plan_json.h"

namespace blankwright {
namespace {

DocumentInfo document_info(const Dossier& d, Word kind) {
  DocumentInfo info;
  info.title =
      fmt::format("{} {}: {}", d.sheet_template.words[Word::order], d.order.id.value, d.sheet_template.words[kind]);
  info.author = d.shop.name.value;
  info.subject = d.order.item.value;
  info.language = d.sheet_template.language.value;
  info.made_at_unix = d.at.time_since_epoch().count();
  info.true_to_size = true;
  return info;
}

std::string summary(const Dossier& d, const Tally& so_far, const std::string& folder, const std::string& files) {
  const BlankSize& b = d.plan.blank;
  const Printing sawn{d.shop.units.value, Round::up, Fineness::sawn};
  const std::string size =
      b.sawn_section ? fmt::format("sawn {} square, {} long", text(*b.sawn_section, sawn), text(*b.sawn_length, sawn))
                     : fmt::format("squared to {}", text(b.squared_section, sawn));
  const std::string stand = so_far.is_begun() ? fmt::format(": {}; ", in_words(so_far)) : ", ";
  return fmt::format("{}: {} for {}{}{}\n  {}: {}\n", d.order.id.value, counted(blank_count(d), "blank"),
                     d.order.quantity.value, stand, size, folder, files);
}

using NamedFiles = std::vector<std::pair<std::string, std::string>>;

/// A picture of each page, "traveller-03.png".
void add_pictures(NamedFiles& files, const std::string& document, const std::vector<Page>& pages, int dots_per_inch) {
  if (dots_per_inch == 0) return;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    files.emplace_back(fmt::format("{}-{:02}.png", document, i + 1),
                       png_of(pages.at(i), dots_per_inch, sheet_fonts().files));
  }
}

}  // namespace

std::string write_order(const Dossier& d, const OrderTold& told, const Wanted& wanted, const PaperInHand* in_hand,
                        Files& disk, Diagnostics& out) {
  const CompileFlags& flags = wanted.flags;
  const SheetFonts& fonts = sheet_fonts();
  NamedFiles files;
  const ChosenPaper paper = chosen_paper(d, flags, in_hand);
  const auto add_pages = [&](const std::string& name, const std::vector<Page>& pages, Word title) {
    if (pages.empty()) return;
    files.emplace_back(name + ".pdf", pdf_of(pages, document_info(d, title), fonts.files));
    add_pictures(files, name, pages, flags.pictures);
  };
  if (wants(flags, "traveller")) {
    add_pages(paper.traveller, traveller(d, fonts.metrics, paper.sheets, paper.pages), Word::turner_sheet);
  }
  if (flags.worksheet) {
    add_pages("worksheet", worksheet_document(d, fonts.metrics), Word::worksheet);
  }
  if (wants(flags, "tags") && !paper.tags.empty()) {
    const auto pages = tag_pages(d, fonts.metrics, wanted.used_places, out, paper.tagged);
    if (out.has_errors()) return {};
    add_pages(paper.tags, pages, Word::tags_sheet);
  }
  if (wants(flags, "plan")) files.emplace_back("plan.json", plan_json(d, told.said));
  if (wants(flags, "calendar")) files.emplace_back("schedule.ics", told.calendar);
  if (wants(flags, "blanks")) files.emplace_back("blanks.csv", blanks_csv(d));

  const std::string folder = flags.out + "/" + d.order.id.value;
  disk.make_folders(folder);
  std::string names;
  for (const auto& [name, bytes] : files) {
    disk.write_whole(folder + "/" + name, bytes);
    if (!name.ends_with(".png")) names += (names.empty() ? "" : ", ") + name;
  }
  if (flags.pictures > 0) names += ", pictures of the pages";
  return summary(d, told.so_far, folder, names) + paper.told;
}

std::string write_days(const ShopDays& days, const std::string& calendar, const Wanted& wanted, Files& disk) {
  const SheetFonts& fonts = sheet_fonts();
  const std::string& folder = wanted.flags.out;
  const auto pages = week_sheets(days, fonts.metrics);
  const DocumentInfo info = shop_document(days.shop, days.sheet_template,
                                          fmt::format("{}: {}", days.shop.name.value, pages.front().label), days.at);
  NamedFiles files{{"shop.ics", calendar}, {"week.pdf", pdf_of(pages, info, fonts.files)}};
  add_pictures(files, "week", pages, wanted.flags.pictures);
  disk.make_folders(folder);
  for (const auto& [name, bytes] : files) disk.write_whole(folder + "/" + name, bytes);
  return fmt::format("{}: week.pdf, shop.ics; orders in them: {}\n", folder, days.orders.size());
}

}  // namespace blankwright

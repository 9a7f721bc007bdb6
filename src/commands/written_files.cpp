#include "commands/written_files.h"

#include <fmt/format.h>

#include <iterator>

#include "commands/chosen_paper.h"
#include "commands/documents.h"
#include "sheet/sheet/traveller.h"
#include "sheet/sheet/week_sheet.h"
#include "sheet/tag/tags.h"
#include "write/blanks_csv.h"
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

}  // namespace

std::string write_order(const Dossier& d, const OrderTold& told, const Wanted& wanted, const PaperInHand* in_hand,
                        Files& disk, Diagnostics& out) {
  const CompileFlags& flags = wanted.flags;
  const SheetFonts& fonts = sheet_fonts();
  OutputFolder output{flags, disk};
  NamedFiles files;
  const ChosenPaper paper = chosen_paper(d, flags, in_hand);
  const auto add_pages = [&](const std::string& name, std::vector<Page> pages, Word title) {
    std::ranges::move(output.of_document(d.order.id.value, name, std::move(pages), document_info(d, title)),
                      std::back_inserter(files));
  };
  if (wants(flags, "traveller")) {
    add_pages(paper.traveller, traveller(d, fonts.metrics, paper.sheets, paper.pages), Word::turner_sheet);
  }
  if (flags.worksheet) {
    add_pages("worksheet", worksheet_document(d, fonts.metrics), Word::worksheet);
  }
  if (wants(flags, "tags") && !paper.tags.empty()) {
    auto pages = tag_pages(d, fonts.metrics, wanted.used_places, out, paper.tagged);
    if (out.has_errors()) return {};
    add_pages(paper.tags, std::move(pages), Word::tags_sheet);
  }
  if (wants(flags, "plan")) files.emplace_back("plan.json", plan_json(d, told.said));
  if (wants(flags, "calendar")) files.emplace_back("schedule.ics", told.calendar);
  if (wants(flags, "blanks")) files.emplace_back("blanks.csv", blanks_csv(d));

  const std::string names = output.write(d.order.id.value, files);
  return summary(d, told.so_far, flags.out + "/" + d.order.id.value, names) + paper.told;
}

std::string write_days(const ShopDays& days, const std::string& calendar, const Wanted& wanted, Files& disk) {
  const SheetFonts& fonts = sheet_fonts();
  const std::string& folder = wanted.flags.out;
  auto pages = week_sheets(days, fonts.metrics);
  const DocumentInfo info = shop_document(days.shop, days.sheet_template,
                                          fmt::format("{}: {}", days.shop.name.value, pages.front().label), days.at);
  OutputFolder output{wanted.flags, disk};
  NamedFiles files = output.of_document({}, "week", std::move(pages), info);
  files.emplace_back("shop.ics", calendar);
  const std::string names = output.write({}, files);
  return fmt::format("{}: {}; orders in them: {}\n", folder, names, days.orders.size());
}

}  // namespace blankwright

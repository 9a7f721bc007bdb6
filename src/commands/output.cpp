#include "commands/output.h"

#include <fmt/format.h>

#include <algorithm>

#include "commands/shipped.h"
#include "sheet/tag/tags.h"

namespace blankwright {

std::string counted(std::int64_t count, const std::string& one, const std::string& more) {
  const std::string many = more.empty() ? one + "s" : more;
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

DocumentInfo shop_document(const Shop& shop, const Template& sheets, const std::string& title,
                           std::optional<Instant> made) {
  DocumentInfo info;
  info.title = info.subject = title;
  info.author = shop.name.value;
  info.language = sheets.language.value;
  if (made) info.made_at_unix = made->time_since_epoch().count();
  info.true_to_size = true;
  return info;
}

bool wants(const CompileFlags& flags, const std::string& output) {
  if (flags.only.empty()) return output != "tags" || flags.pages.empty();
  return std::ranges::find(flags.only, output) != flags.only.end();
}

const std::vector<std::string>& compile_outputs() {
  static const std::vector<std::string> outputs{"traveller", "tags", "plan", "calendar", "blanks"};
  return outputs;
}

const SheetFonts& sheet_fonts() {
  static const SheetFonts fonts = [] {
    PdfFonts files{std::string{shipped("BlankwrightSans-Regular.ttf")},
                   std::string{shipped("BlankwrightSans-Bold.ttf")}};
    FontMetrics metrics{files.regular, files.bold};
    return SheetFonts{std::move(files), std::move(metrics)};
  }();
  return fonts;
}

void check_on_paper(const Order& order, const Shop& shop, const OrderPlan& plan, const Template& sheets,
                    Diagnostics& out) {
  const OrderTimes none;
  check_tags(Dossier{order, shop, plan, none, sheets, {}, true, {}, {}}, sheet_fonts().metrics, out);
}

}  // namespace blankwright

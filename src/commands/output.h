#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "commands/commands.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/paper/dossier.h"
#include "sheet/tag/label_sheet.h"
#include "write/pdf.h"

namespace blankwright {

/// The fonts of the sheets, to measure with and to print with.
struct SheetFonts {
  PdfFonts files;
  FontMetrics metrics;
};
const SheetFonts& sheet_fonts();

/// "1 error", "2 errors"; `more` where the plural is another: "1 entry", "2 entries".
std::string counted(std::int64_t count, const std::string& one, const std::string& more = {});

/// What a document says of itself that belongs to the shop and to no single order. `made`: none where it depends on
/// the shop's files alone.
DocumentInfo shop_document(const Shop& shop, const Template& sheets, const std::string& title,
                           std::optional<Instant> made = {});

/// Was this kind of output asked for?
bool wants(const CompileFlags& flags, const std::string& output);

/// Will an order find room on its tags? Says what will not.
void check_on_paper(const Order& order, const Shop& shop, const OrderPlan& plan, const Template& sheets,
                    Diagnostics& out);

/// What is to be written of an order, and how.
struct Wanted {
  CompileFlags flags;
  UsedPlaces used_places;
};

}  // namespace blankwright

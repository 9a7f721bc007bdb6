#pragma once

#include <string>

#include "commands/output.h"
#include "commands/paper_in_hand.h"
#include "entries/fate.h"
#include "sheet/paper/shop_days.h"
#include "write/files.h"

namespace blankwright {

/// What else is told of an order beside its dossier.
struct OrderTold {
  const Tally& so_far;
  const Diagnostics& said;
  std::string calendar;  ///< as schedule_ics() writes it
};

/// Lays an order out and writes what was asked for into its folder. Returns the line that tells of it, and how its
/// blanks stand once something was entered of them; what finds no room on paper is said in `out`, and then nothing is
/// written. `in_hand`: what was printed before, where only a part of the paper is asked for; otherwise null.
std::string write_order(const Dossier& dossier, const OrderTold& told, const Wanted& wanted,
                        const PaperInHand* in_hand, Files& disk, Diagnostics& out);

/// Writes the shop's days into the folder above those of the orders: shop.ics, which is `calendar`, and week.pdf.
/// Returns the line that tells of it.
std::string write_days(const ShopDays& days, const std::string& calendar, const Wanted& wanted, Files& disk);

}  // namespace blankwright

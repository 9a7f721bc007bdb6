#pragma once

#include "plan/part/finished_form.h"
#include "plan/part/size_in_use.h"
#include "read/order.h"
#include "read/shop.h"

// Judgements of the seat: its form, its ferrule, its size in use. They compute nothing that is printed.

namespace blankwright {

/// Spigot or recess: wholly given, and not larger than the seat; the client's face larger than the stud.
void judge_seat(const Order& order, const Shop& shop, Diagnostics& out);

/// Does the ferrule go on the finished form, is the handle as long, and does the wood under it keep the shop's least
/// wall round a bore of that diameter?
void judge_ferrule(const Order& order, const FinishedForm& form, Length bore, const Shop& shop, Diagnostics& out);

/// Does the seat outgrow its tolerance, and does the order say where it is used? Nearly every wooden seat grows, so
/// that nobody else is told.
bool seat_outgrows(const SizeInUse& size, const Order& order);

/// Tells of a seat that outgrows its tolerance where it is used.
void judge_size_in_use(const SizeInUse& size, const Order& order, const Shop& shop, Diagnostics& out);

}  // namespace blankwright

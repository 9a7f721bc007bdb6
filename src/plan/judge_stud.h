#pragma once

#include "plan/stud.h"
#include "plan/stud_strength.h"

// Judgements of what holds the stud. They compute nothing that is printed.

namespace blankwright {

/// Do the order's loads leave the shop's safety factor: client's thread, bending of the stud, torque on the bond?
/// What is asked but cannot be judged is said. The pull on the bond is for judge_stud() to judge.
void judge_stud_strength(const StudStrength& strength, const Order& order, const Shop& shop, Diagnostics& out);

/// Does the stock, where the shop counts it, give as many studs of that length? A long one is cut into several.
void judge_stud_stock(const Stud& stud, const Order& order, const Shop& shop, int pieces, Diagnostics& out);

}  // namespace blankwright

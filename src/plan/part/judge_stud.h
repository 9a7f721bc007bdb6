#pragma once

#include "plan/part/stud.h"
#include "plan/part/stud_strength.h"
#include "plan/part/tightening.h"

// Judgements of what holds the stud. They compute nothing that is printed.

namespace blankwright {

/// Do the order's loads leave the shop's safety factor: client's thread, bending of the stud, torque on the bond?
/// What is asked but cannot be judged is said. The pull on the bond is for judge_stud() to judge.
void judge_stud_strength(const StudStrength& strength, const Order& order, const Shop& shop, Diagnostics& out);

/// Do bond and stud bear the order's tightening, in assembly and in use? The client's thread is for
/// judge_stud_strength() to judge. Of a bond nobody has pulled it says so, where no pull is named of which that is
/// said.
void judge_tightening(const Preload& preload, const Tightened& tightened, const Stud& stud, const Order& order,
                      const Shop& shop, Diagnostics& out);

/// That the shop's bonds, under that load for one, are no more than calculated. It concerns the shop, and so is said
/// at its figure and in the same words of every order.
void say_untested(const Place& load, const Shop& shop, Diagnostics& out);

/// Does the stock, where the shop counts it, give as many studs of that length? A long one is cut into several.
void judge_stud_stock(const Stud& stud, const Order& order, const Shop& shop, int pieces, Diagnostics& out);

}  // namespace blankwright

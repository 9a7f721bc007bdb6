#pragma once

#include <string>
#include <vector>

#include "order.h"
#include "sheets.h"
#include "shop.h"

namespace simulated {

/// What is wrong with an order's sheets: each a sentence. What was asked for has to stand on paper, and whoever keeps
/// to a printed limit has to end with a sound piece. `messages` is what the program said when it compiled.
std::vector<std::string> wrong_on_sheets(const Sheets& sheets, const Order& order, const Shop& shop,
                                         const std::string& messages);

/// Which of the unsafe answers of the findings an order's sheets could have given, by their numbers.
std::vector<int> provoked_by_sheets(const Sheets& sheets, const Order& order, const Shop& shop);

/// The least length of a blank, as it is sawn, that this handle can be made of: what is finished and what is taken
/// off.
double needed_sawn_length_mm(const Order& order, const Shop& shop);

}  // namespace simulated

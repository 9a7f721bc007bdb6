#pragma once

#include <vector>

#include "read/order.h"
#include "read/shop.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/sheet/client_card.h"

namespace blankwright {

/// A label for every piece of an order that is sent, with the template's blocks, on the label sheet of its tags.
/// Words that find no room are an error.
std::vector<Page> parcel_labels(const std::vector<PieceRecorded>& pieces, const Order& order, const Shop& shop,
                                const Template& t, const FontMetrics& fonts, Diagnostics& out);

}  // namespace blankwright

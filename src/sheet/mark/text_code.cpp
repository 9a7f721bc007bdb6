#include "sheet/mark/text_code.h"

#include <utility>

#include "sheet/mark/qr.h"

namespace blankwright {

void draw_text_code(Canvas& canvas, const Box& box, const std::string& text) {
  constexpr int least = 2, most = 6;  // version 1 has one alignment pattern less, and readers miss it more often
  auto symbol = qr_symbol({.text = text, .level = QrLevel::medium, .least_version = least, .most_version = most});
  if (!symbol) return;
  const auto place = placed_qr(symbol->side, box);
  if (place) canvas.add(Matrix{place->at, place->module, symbol->side, std::move(symbol->black)}, Role::code);
}

}  // namespace blankwright

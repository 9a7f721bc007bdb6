#include <ostream>

#include "commands/ask_parts.h"
#include "commands/harmless_stream.h"
#include "commands/material_rows.h"
#include "commands/open_shop.h"

namespace blankwright {

Answered about_material(Asked& asked, std::string&) {
  const Shop& shop = asked.at.inputs.shop;
  Diagnostics out;
  const OpenShop open = plan_open_shop(asked.at.register_place, shop, asked.now, out);
  asked.around.errors << AsIs{rendered(out, asked.around.errors_terminal.colour)};
  Answer answer;
  answer.columns = material_columns();
  const auto& planned = open.planned;
  const ShopNeeds needs = shop_needs(planned.plan, planned.to_make, materials_of(planned), shop);
  for (MaterialRow& row : material_rows(needs, shop, asked.now)) answer.rows.push_back(std::move(row.cells));
  return answer;
}

}  // namespace blankwright

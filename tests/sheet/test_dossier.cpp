#include "test_dossier.h"

#include <array>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "plan/order/plan_order.h"
#include "plan/shop/plan_shop.h"
#include "sheet/paper/on_paper.h"

namespace blankwright {

std::string project_file(const std::string& path) {
  std::ifstream file{std::string{BLANKWRIGHT_SOURCE_DIR} + "/" + path, std::ios::binary};
  if (!file) throw std::runtime_error{"no file " + path};
  return std::string{std::istreambuf_iterator<char>{file}, {}};
}

const FontMetrics& fonts_for_test() {
  static const FontMetrics fonts{project_file("fonts/BlankwrightSans-Regular.ttf"),
                                 project_file("fonts/BlankwrightSans-Bold.ttf")};
  return fonts;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error{"no \"" + from + "\" in the text"};
  return text.replace(at, from.size(), to);
}

TestOrder::TestOrder(const std::string& job, const std::string& shop, const std::string& own_template, bool draft)
    : at_{std::chrono::sys_days{std::chrono::year{2027} / 5 / 3} + std::chrono::hours{6}} {
  Diagnostics out;
  const auto source = [](const char* name, const std::string& text) {
    return std::make_shared<const SourceText>(SourceText{name, text});
  };
  auto sheets = read_template(source("standard.toml", project_file("templates/standard.toml")), Template{}, out);
  if (sheets && !own_template.empty()) sheets = read_template(source("own.toml", own_template), *sheets, out);
  auto read_job = read_order(source("job.toml", job), out);
  auto read_the_shop = read_shop(source("shop.toml", shop), out);
  if (!sheets || !read_job || !read_the_shop) throw std::runtime_error{rendered(out)};
  template_ = std::make_unique<Template>(std::move(*sheets));
  order_ = std::make_unique<Order>(std::move(*read_job));
  shop_ = std::make_unique<Shop>(std::move(*read_the_shop));
  auto plan = plan_order(*order_, *shop_, Record{}, out);
  if (!plan) throw std::runtime_error{rendered(out)};
  plan_ = std::make_unique<OrderPlan>(std::move(*plan));
  const std::array orders{order_to_make(*order_, *shop_, *plan_, Record{})};
  const ShopTime time = shop_time(*shop_, at_);
  together_ = std::make_unique<ShopPlan>(plan_shop(orders, *shop_, time, out));
  if (!together_->orders.front().times) throw std::runtime_error{rendered(together_->orders.front().said)};
  times_ = std::make_unique<OrderTimes>(times_in_full(0, *together_, orders, *shop_, time, out));
  IssuedTo issued{order_->id.value, {}, {}};
  std::vector<BlankId> blanks;
  for (int n = 0; !draft && n < plan_->blanks(); ++n) {
    blanks.push_back(BlankId::nth(static_cast<std::uint32_t>(n)));
    (n < plan_->start.pieces ? issued.pieces : issued.witnesses).push_back(blanks.back());
  }
  const std::array all_issued{issued};
  dossier_ = std::make_unique<Dossier>(Dossier{.order = *order_,
                                               .shop = *shop_,
                                               .plan = *plan_,
                                               .times = *times_,
                                               .sheet_template = *template_,
                                               .blanks = blanks,
                                               .draft = draft,
                                               .at = at_,
                                               .program = "Blankwright 0.1.0",
                                               .baths = baths_of(0, *together_, all_issued),
                                               .loads = loads_of(0, *together_, all_issued)});
}

}  // namespace blankwright

#include "planning.h"

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "plan/figure/figure.h"

namespace blankwright {

Source source_of(std::string name, std::string text) {
  return std::make_shared<const SourceText>(SourceText{std::move(name), std::move(text)});
}

std::string project_file(const std::string& name) {
  std::ifstream file{BLANKWRIGHT_SOURCE_DIR "/" + name, std::ios::binary};
  REQUIRE_MESSAGE(file.good(), name);
  return {std::istreambuf_iterator<char>{file}, {}};
}
std::string order_file(const std::string& name) { return project_file("tests/orders/" + name); }
std::string sample_file(const std::string& name) { return project_file("sample-jobs/" + name); }

std::string with(std::string text, std::string_view old, std::string_view replacement) {
  CAPTURE(old);
  const auto found = text.find(old);
  REQUIRE(found != std::string::npos);
  REQUIRE(text.find(old, found + 1) == std::string::npos);
  return text.replace(found, old.size(), replacement);
}

Shop shop_of(const std::string& text) {
  Diagnostics said;
  const auto shop = read_shop(source_of("shop.toml", text), said);
  REQUIRE_MESSAGE(shop.has_value(), rendered(said));
  return *shop;
}

Order order_of(const std::string& text) {
  Diagnostics said;
  const auto order = read_order(source_of("job.toml", text), said);
  REQUIRE_MESSAGE(order.has_value(), rendered(said));
  return *order;
}

const Diagnostic* Planned::about(Problem problem) const {
  for (const Diagnostic& d : said.all()) {
    if (d.problem == problem) return &d;
  }
  return nullptr;
}

Planned planned(const Order& order, const Shop& shop, const Record& record) {
  Planned out;
  out.plan = plan_order(order, shop, record, out.said);
  return out;
}

OrderPlan plan_of(const std::string& order, const std::string& shop) {
  const Planned p = planned(order_of(order), shop_of(shop));
  REQUIRE_MESSAGE(p.plan.has_value(), rendered(p.said));
  return *p.plan;
}

double in_mm(const OrderPlan& plan, Figure figure) {
  CAPTURE(info(figure).path);
  REQUIRE(plan.figures.known(figure));
  return std::get<double>(plan.figures.get(figure)) * 1000;
}

}  // namespace blankwright

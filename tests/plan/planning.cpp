#include "planning.h"

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "judging.h"
#include "measure/read_thread.h"
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
std::string awl() { return order_file("awl-handle.toml"); }
std::string bench() { return order_file("shop.toml"); }

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

Shop shop_with(const std::string& tables) {
  const std::string shop = bench();
  return shop_of(shop.substr(0, shop.find("[[routing]]")) + tables);
}

Order order_of(const std::string& text) {
  Diagnostics said;
  const auto order = read_order(source_of("job.toml", text), said);
  REQUIRE_MESSAGE(order.has_value(), rendered(said));
  return *order;
}

const Diagnostic* Planned::about(Problem problem) const { return found(said, problem); }

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

Thread thread_of(std::string_view designation) {
  const auto thread = read_thread(designation);
  REQUIRE_MESSAGE(thread.has_value(), std::string{designation});
  return *thread;
}

FinishedForm awl_form(bool smooth) {
  return {{{0 * mm, 26 * mm}, {30 * mm, 30 * mm}, {80 * mm, 34 * mm}, {110 * mm, 20 * mm}}, smooth};
}
FinishedForm cylinder(double diameter_mm, double length_mm) {
  return {{{0 * mm, diameter_mm * mm}, {length_mm * mm, diameter_mm * mm}}, false};
}

}  // namespace blankwright

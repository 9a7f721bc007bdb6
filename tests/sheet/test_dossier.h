#pragma once

// An order as the sheets get it, made from the texts of a job file and a shop file.

#include <array>
#include <fstream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>

#include "plan/order/plan_order.h"
#include "plan/shop/plan_shop.h"
#include "read/template.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/paper/dossier.h"
#include "sheet/paper/on_paper.h"

namespace blankwright {

std::string project_file(const std::string& path);

const FontMetrics& fonts_for_test();

inline const std::string letter_template = "format = 1\npaper = \"Letter\"\n";

/// A text with the first such stretch of it, which must stand there, replaced.
std::string replaced(std::string text, const std::string& from, const std::string& to);

/// Reads and plans one order and keeps what its dossier refers to. Throws std::runtime_error with everything that the
/// program has to say when something is wrong; warnings do not matter. `own_template` is read over the standard one.
class TestOrder {
 public:
  TestOrder(const std::string& job, const std::string& shop, const std::string& own_template = "",
            bool draft = false);

  const Dossier& dossier() const { return *dossier_; }

 private:
  Instant at_;
  std::unique_ptr<Template> template_;
  std::unique_ptr<Order> order_;
  std::unique_ptr<Shop> shop_;
  std::unique_ptr<OrderPlan> plan_;
  std::unique_ptr<ShopPlan> together_;
  std::unique_ptr<OrderTimes> times_;
  std::unique_ptr<Dossier> dossier_;
};

}  // namespace blankwright

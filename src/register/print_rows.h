#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "entries/stored_order.h"
#include "register/database.h"

namespace blankwright {

/// A print with its texts; `print`'s places of texts are those in the database.
struct PrintedTexts {
  Print print;
  std::string job, shop, template_text;
  CompileInputs inputs() const { return {job, shop, template_text, print.program_version}; }
};

/// Adds prints and their texts, with statements that are prepared once.
class PrintWriter {
 public:
  explicit PrintWriter(Database& db);
  /// The place of a text in the database; one that it has is not put there again.
  std::size_t text(std::string_view text);
  void print(const Print& print);
  void plan(const PlanOfPrint& plan);

 private:
  Database& db_;
  Statement find_, text_, sums_, print_, plan_;
};

/// An order's print of that number, or the newest where none is given; none where there is no such.
std::optional<PrintedTexts> print_of(Database& db, std::string_view order_id,
                                     std::optional<std::int64_t> number = std::nullopt);

/// All texts by their places, and all prints, by order and number.
std::map<std::size_t, std::string> all_texts(Database& db);
std::vector<Print> all_prints(Database& db);
/// Those of an order, by number.
std::vector<Print> prints_of(Database& db, std::string_view order_id);

/// What was planned when that print was made; empty where that was not kept. All of them, by order and number.
std::string plan_of_print(Database& db, const Print& print);
/// That of an order's newest print.
std::string newest_plan_of(Database& db, std::string_view order_id);
std::vector<PlanOfPrint> all_plans(Database& db);

}  // namespace blankwright

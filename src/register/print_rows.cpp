#include "register/print_rows.h"

#include <fmt/format.h>

#include <utility>

#include "diagnose/failure.h"
#include "entries/checksum.h"
#include "register/entry_rows.h"

namespace blankwright {
namespace {

/// A print, the checksums of its texts, which its own covers as well, and its own.
constexpr std::string_view print_columns =
    "p.order_id, p.number, p.at_unix_s, p.made_unix_s, p.last_entry, p.program_version, p.job, p.shop, p.template, "
    "j.checksum, s.checksum, t.checksum, p.checksum";
constexpr std::string_view print_tables =
    "prints p LEFT JOIN texts j ON j.id = p.job LEFT JOIN texts s ON s.id = p.shop LEFT JOIN texts t ON t.id = "
    "p.template";
constexpr int print_sum = 12;
constexpr int first_text_column = print_sum + 1;

Instant moment(const Statement& row, int column) { return Instant{std::chrono::seconds{row.number(column)}}; }

Print read_print(const Database& db, const Statement& row) {
  check_row(db, row, {0, print_sum, print_sum},
            [&] { return fmt::format("print {} of order \"{}\"", row.number(1), row.text(0)); });
  const auto place = [&](int column) { return static_cast<std::size_t>(row.number(column)); };
  return {row.text(0),    static_cast<int>(row.number(1)),
          moment(row, 2), moment(row, 3),
          row.number(4),  row.text(5),
          place(6),       place(7),
          place(8)};
}

PlanOfPrint read_plan(const Database& db, const Statement& row) {
  check_row(db, row, {0, 3, 3},
            [&] { return fmt::format("the plan of print {} of order \"{}\"", row.number(1), row.text(0)); });
  return {row.text(0), static_cast<int>(row.number(1)), row.text(2)};
}

}  // namespace

PrintWriter::PrintWriter(Database& db)
    : db_{db},
      find_{db, "SELECT id, body FROM texts WHERE checksum = ?1 ORDER BY id"},
      text_{db, "INSERT INTO texts (id, body, checksum) VALUES (?1, ?2, ?3)"},
      sums_{db,
            "SELECT j.checksum, s.checksum, t.checksum FROM texts j, texts s, texts t WHERE j.id = ?1 AND "
            "s.id = ?2 AND t.id = ?3"},
      print_{db,
             "INSERT INTO prints (order_id, number, at_unix_s, made_unix_s, last_entry, program_version, job, "
             "shop, template, checksum) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)"},
      plan_{db, "INSERT INTO plans (order_id, number, body, checksum) VALUES (?1, ?2, ?3, ?4)"} {}

std::size_t PrintWriter::text(std::string_view text) {
  const std::int64_t sum = Checksum::of(text).value();
  for (find_.with(sum); find_.step();) {
    if (find_.text(1) == text) return static_cast<std::size_t>(find_.number(0));
  }
  const std::int64_t place = db_.number("SELECT coalesce(max(id), 0) + 1 FROM texts");
  text_.with(place, text, sum).run();
  return static_cast<std::size_t>(place);
}

void PrintWriter::print(const Print& p) {
  const auto place = [](std::size_t text) { return static_cast<std::int64_t>(text); };
  const auto insert = [&](const auto&... values) {
    Checksum sum = Checksum::of(values...);
    BW_EXPECT(sums_.with(place(p.job), place(p.shop), place(p.template_)).step());
    sums_.add_to(sum, 0, 3);
    print_.with(values..., sum.value()).run();
  };
  insert(p.order_id, std::int64_t{p.number}, p.at.time_since_epoch().count(), p.made.time_since_epoch().count(),
         p.last_entry, p.program_version, place(p.job), place(p.shop), place(p.template_));
}

void PrintWriter::plan(const PlanOfPrint& plan) {
  const std::int64_t number{plan.number};
  plan_.with(plan.order_id, number, plan.text, Checksum::of(plan.order_id, number, plan.text).value()).run();
}

std::optional<PrintedTexts> print_of(Database& db, std::string_view order_id, std::optional<std::int64_t> number) {
  Statement ask{db, fmt::format("SELECT {}, j.body, s.body, t.body FROM {} WHERE p.order_id = ?1 AND p.number = "
                                "coalesce(?2, (SELECT max(number) FROM prints WHERE order_id = ?1))",
                                print_columns, print_tables)};
  if (!ask.with(order_id, number).step()) return std::nullopt;
  PrintedTexts printed{read_print(db, ask), {}, {}, {}};
  const auto body = [&](int text, std::string_view name) {
    check_row(db, ask, {first_text_column + text, 1, print_sum - 3 + text}, [&] {
      return fmt::format("the {} text in print {} of order \"{}\"", name, printed.print.number,
                         printed.print.order_id);
    });
    return ask.text(first_text_column + text);
  };
  printed.job = body(0, "job's");
  printed.shop = body(1, "shop's");
  printed.template_text = body(2, "template's");
  return printed;
}

std::map<std::size_t, std::string> all_texts(Database& db) {
  Statement ask{db, "SELECT id, body, checksum FROM texts ORDER BY id"};
  std::map<std::size_t, std::string> texts;
  while (ask.step()) {
    check_row(db, ask, {1, 1, 2}, [&] { return fmt::format("text {} of the prints", ask.number(0)); });
    texts.emplace(ask.number(0), ask.text(1));
  }
  return texts;
}

std::vector<Print> all_prints(Database& db) {
  Statement ask{db, fmt::format("SELECT {} FROM {} ORDER BY p.order_id, p.number", print_columns, print_tables)};
  std::vector<Print> prints;
  while (ask.step()) prints.push_back(read_print(db, ask));
  return prints;
}

std::vector<Print> prints_of(Database& db, std::string_view order_id) {
  Statement ask{
      db, fmt::format("SELECT {} FROM {} WHERE p.order_id = ?1 ORDER BY p.number", print_columns, print_tables)};
  std::vector<Print> prints;
  for (ask.with(order_id); ask.step();) prints.push_back(read_print(db, ask));
  return prints;
}

std::string plan_of_print(Database& db, const Print& print) {
  Statement ask{db, "SELECT order_id, number, body, checksum FROM plans WHERE order_id = ?1 AND number = ?2"};
  return ask.with(print.order_id, std::int64_t{print.number}).step() ? read_plan(db, ask).text : std::string{};
}

std::string newest_plan_of(Database& db, std::string_view order_id) {
  Statement ask{
      db,
      "SELECT order_id, number, body, checksum FROM plans WHERE order_id = ?1 AND number = (SELECT max(number) "
      "FROM prints WHERE order_id = ?1)"};
  return ask.with(order_id).step() ? read_plan(db, ask).text : std::string{};
}

std::vector<PlanOfPrint> all_plans(Database& db) {
  Statement ask{db, "SELECT order_id, number, body, checksum FROM plans ORDER BY order_id, number"};
  std::vector<PlanOfPrint> plans;
  while (ask.step()) plans.push_back(read_plan(db, ask));
  return plans;
}

}  // namespace blankwright

#include "register/register.h"

#include <fmt/format.h>

#include <cstddef>
#include <utility>

#include "diagnose/failure.h"
#include "entries/order_id.h"
#include "register/entry_rows.h"
#include "register/format.h"
#include "register/print_rows.h"
#include "register/schema.h"
#include "register/sqlite.h"

namespace blankwright {
namespace {

enum class IfMissing { make, refuse };

/// Looks at a file before SQLite can touch one that is not ours, or make one that was not asked for.
Database opened_to_write(const RegisterPlace& place, IfMissing missing, std::chrono::milliseconds wait) {
  if (!place.is_on_server && look_at_file(place.name) == Found::nothing && missing == IfMissing::refuse)
    throw WorldError{place.name, "there is no register"};
  return Database{place, Database::Mode::write, wait};
}

}  // namespace

Register::Register(const RegisterPlace& place, const BlankId& series_if_new, std::chrono::milliseconds wait)
    : Register{opened_to_write(place, IfMissing::make, wait)} {
  begin_writing(series_if_new);
}

Register::Register(const RegisterPlace& place, std::chrono::milliseconds wait)
    : Register{opened_to_write(place, IfMissing::refuse, wait)} {
  begin_writing(std::nullopt);
}

void Register::begin_writing(const std::optional<BlankId>& series_if_new) {
  db_.check_soundness();
  is_new_ = bring_up_to_date(db_, series_if_new, [&] {
    RowWriter rows{db_, Instant{}};
    Statement ids{db_, "SELECT blank_id FROM blank_states ORDER BY blank_id"};
    while (ids.step()) {
      try {
        rows.summary(summary_of(*blank(stored_id(db_, ids.text(0)))));
      } catch (const WorldError&) {  // a damaged entry is named when that blank is asked for, and the others go on
      }
    }
  });
}

std::optional<Register> Register::open_to_read(const RegisterPlace& place, std::chrono::milliseconds wait) {
  if (!place.is_on_server && look_at_file(place.name) == Found::nothing) return std::nullopt;
  {
    Register opened{Database{place, Database::Mode::read, wait}};
    opened.db_.check_soundness();
    const std::int64_t format = opened.db_.format();
    if (format == 0) return std::nullopt;  // a database in which no register was made yet
    if (format == newest_format) return opened;
  }
  static_cast<void>(Register{place, wait});
  return open_to_read(place, wait);
}

void Register::check_clock(Instant now) const {
  if (is_in_known_years(now)) return;
  throw WorldError{db_.name(), fmt::format("nothing is entered while this machine's clock says {}: set the clock",
                                           clock_text(Zone{}, now))};
}

bool Register::is_there(const RegisterPlace& place) {
  if (!place.is_on_server) return look_at_file(place.name) != Found::nothing;
  return Database{place, Database::Mode::read, std::chrono::seconds{60}}.format() != 0;
}

tl::expected<std::vector<std::vector<BlankId>>, OrderIdClash> Register::issue(std::span<const OrderToIssue> orders,
                                                                              std::int64_t at_unix, Instant now,
                                                                              const PlansOfIssued& more) {
  check_clock(now);
  Transaction change{db_};
  RowWriter rows{db_, now};
  const Instant at{std::chrono::seconds{at_unix}};
  std::vector<std::vector<BlankId>> issued;
  for (const OrderToIssue& order : orders) {
    BW_EXPECT(!order_id_problem(order.order_id) && order.pieces >= 0 && order.witnesses >= 0);
    if (const auto stored = other_spelling(order.order_id)) {
      return tl::make_unexpected(OrderIdClash{order.order_id, *stored});
    }
    issued.push_back(issue_one(order, at, now, rows));
  }
  std::vector<std::string> plans;
  for (const OrderToIssue& order : orders) plans.push_back(order.plan);
  const auto further = more ? more(issued) : std::vector<std::string>(orders.size());
  for (std::size_t i = 0; i < orders.size(); ++i) plans.at(i) += further.at(i);
  add_prints(orders, plans, at, now);
  change.commit();
  return issued;
}

std::vector<BlankId> Register::issue_one(const OrderToIssue& order, Instant at, Instant now, RowWriter& rows) {
  rows.order(order.order_id, at, order.gist);
  const int witnesses = witnesses_of(order.order_id);
  const int pieces = static_cast<int>(issued_to(order.order_id).size()) - witnesses;
  add_blanks(order.order_id, order.pieces - pieces, IssuedAs::piece, now, rows);
  add_blanks(order.order_id, order.witnesses - witnesses, IssuedAs::witness, now, rows);
  return issued_to(order.order_id);
}

void Register::add_prints(std::span<const OrderToIssue> orders, std::span<const std::string> plans, Instant at,
                          Instant now) {
  PrintWriter prints{db_};
  const EntryNumber last = last_entry();
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const OrderToIssue& order = orders[i];
    const CompileInputs& in = order.inputs;
    const auto newest = print_of(db_, order.order_id);
    const bool is_same = newest && newest->inputs() == in && newest->print.at == at &&
                         newest->print.last_entry == last && plan_of_print(db_, newest->print) == plans[i];
    if (is_same) continue;
    const int number = newest ? newest->print.number + 1 : 1;
    prints.print({order.order_id, number, at, now, last, std::string{in.program_version}, prints.text(in.job_text),
                  prints.text(in.shop_text), prints.text(in.template_text)});
    if (!plans[i].empty()) prints.plan({order.order_id, number, plans[i]});
  }
}

void Register::add_blanks(const std::string& order_id, int count, IssuedAs what, Instant now, RowWriter& rows) {
  if (count <= 0) return;
  const BlankId first = series();
  std::int64_t n = db_.number("SELECT coalesce(max(n) + 1, 0) FROM blanks");
  Statement last{db_, "SELECT coalesce(max(seq), 0) FROM blanks WHERE order_id = ?1"};
  static_cast<void>(last.with(order_id).step());
  std::int64_t seq = last.number(0);
  for (int k = 0; k < count; ++k, ++n) {
    const BlankId id = first.after(static_cast<std::uint32_t>(n));
    rows.blank(n, id, order_id, ++seq, what == IssuedAs::witness);
    Entry entry;
    entry.kind = EntryKind::issued;
    entry.at = now;
    entry.blank = id;
    entry.set(Field::order, order_id);
    if (what == IssuedAs::witness) entry.set(Field::role, std::string{"witness"});
    rows.entry(entry);
  }
}

std::vector<BlankId> Register::issued_to(std::string_view order_id) {
  Statement ask{db_,
                "SELECT n, id, order_id, seq, witness, checksum FROM blanks WHERE order_id = ?1 AND id NOT IN "
                "(SELECT blank_id FROM blank_states WHERE stage = 'withdrawn') ORDER BY witness, seq"};
  std::vector<BlankId> blanks;
  for (ask.with(order_id); ask.step();) {
    check_row(db_, ask, {0, 5, 5}, [&] { return fmt::format("blank \"{}\"", ask.text(1)); });
    blanks.push_back(stored_id(db_, ask.text(1)));
  }
  return blanks;
}

int Register::witnesses_of(std::string_view order_id) {
  Statement ask{db_,
                "SELECT count(*) FROM blanks WHERE order_id = ?1 AND witness = 1 AND id NOT IN (SELECT blank_id FROM "
                "blank_states WHERE stage = 'withdrawn')"};
  static_cast<void>(ask.with(order_id).step());
  return static_cast<int>(ask.number(0));
}

std::optional<std::string> Register::stored_job(std::string_view order_id) {
  auto newest = print_of(db_, order_id);
  return newest ? std::optional{std::move(newest->job)} : std::nullopt;
}

std::optional<TextsInForce> Register::texts_in_force(std::string_view order_id, Instant when) {
  Statement ask{db_, "SELECT coalesce(max(number), 1) FROM prints WHERE order_id = ?1 AND made_unix_s <= ?2"};
  static_cast<void>(ask.with(order_id, when.time_since_epoch().count()).step());
  auto print = print_of(db_, order_id, ask.number(0));
  if (!print) return std::nullopt;
  return TextsInForce{print->print.number, std::move(print->job), std::move(print->shop)};
}

std::optional<LastPrint> Register::print_of_order(std::string_view order_id, std::optional<int> number) {
  const Transaction look{db_, TransactionKind::read};
  auto printed = print_of(db_, order_id, number ? std::optional<std::int64_t>{*number} : std::nullopt);
  if (!printed) return std::nullopt;
  std::string plan = plan_of_print(db_, printed->print);
  return LastPrint{printed->print, std::move(printed->job), std::move(printed->shop),
                   std::move(printed->template_text), std::move(plan)};
}

std::string Register::newest_plan(std::string_view order_id) { return newest_plan_of(db_, order_id); }

std::vector<PlannedThen> Register::plans_of(std::string_view order_id) {
  const Transaction look{db_, TransactionKind::read};
  std::vector<PlannedThen> plans;
  for (const Print& print : prints_of(db_, order_id)) plans.push_back({print.made, plan_of_print(db_, print)});
  return plans;
}

std::int64_t Register::print_count() { return db_.number("SELECT count(*) FROM prints"); }

std::set<std::string> Register::printed_again() {
  std::set<std::string> out;
  Statement ask{db_, "SELECT order_id FROM prints GROUP BY order_id HAVING count(*) > 1 ORDER BY order_id"};
  while (ask.step()) out.insert(ask.text(0));
  return out;
}

std::optional<std::string> Register::other_spelling(std::string_view order_id) {
  Statement ask{db_, "SELECT id FROM orders WHERE folded_id = ?1 AND id <> ?2"};
  return ask.with(folded_order_id(order_id), order_id).step() ? std::optional{ask.text(0)} : std::nullopt;
}

}  // namespace blankwright

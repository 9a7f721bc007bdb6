#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "diagnose/failure.h"
#include "entries/order_id.h"
#include "register/entry_rows.h"
#include "register/print_rows.h"
#include "register/register.h"

namespace blankwright {

RegisterContents Register::contents() {
  const Transaction look{db_, TransactionKind::read};
  RegisterContents all{series(),          {}, stored_orders(), all_prints(db_), all_entries(), all_plans(db_),
                       times_written(db_)};
  std::map<std::size_t, std::size_t> places;  // from those in the database to those among the texts
  for (auto& [place, text] : all_texts(db_)) {
    places.emplace(place, all.texts.size());
    all.texts.push_back(text);
  }
  for (Print& print : all.prints) {
    for (std::size_t* text : {&print.job, &print.shop, &print.template_}) *text = places.at(*text);
  }
  return all;
}

void Register::does_not_fit(std::string_view what) const {
  throw WorldError{db_.name(), fmt::format("what is to be taken over does not fit together: {}", what)};
}

void Register::fill(const RegisterContents& contents, Instant now) {
  check_clock(now);
  Transaction change{db_};
  RowWriter rows{db_, now};
  if (last_entry() != 0 || db_.number("SELECT count(*) FROM orders") != 0) {
    throw WorldError{db_.name(), "this register is not empty; fill a new one"};
  }
  Statement{db_, "UPDATE series SET first_id = ?1"}.with(contents.series.encoded()).run();
  fill_orders(contents, rows);
  fill_entries(contents, rows, now);
  Statement ids{db_, "SELECT id FROM blanks ORDER BY n"};
  while (ids.step()) rows.summary(summary_of(*blank(stored_id(db_, ids.text(0)))));
  if (db_.is_on_server()) db_.run("ANALYZE");  // how it answers follows from how much there is
  change.commit();
}

void Register::fill_orders(const RegisterContents& contents, RowWriter& rows) {
  for (const StoredOrder& order : contents.orders) {
    const auto problem = order_id_problem(order.id);
    const bool is_old_id = problem && problem->fault == OrderIdFault::leading_hyphen;  // taken by earlier versions
    if ((problem && !is_old_id) || other_spelling(order.id) || has_order(order.id)) {
      does_not_fit(fmt::format("order \"{}\"", order.id));
    }
    rows.order(order.id, order.at, order.gist);
  }
  PrintWriter writer{db_};
  std::vector<std::size_t> places;
  for (const std::string& text : contents.texts) places.push_back(writer.text(text));
  std::map<std::string, int> printed;  // the number of an order's last print
  for (Print print : contents.prints) {
    const auto fault = [&](std::string_view what) {
      does_not_fit(fmt::format("print {} of order \"{}\" {}", print.number, print.order_id, what));
    };
    if (!has_order(print.order_id)) fault("is of no order");
    if (print.number != ++printed[print.order_id]) fault("is out of turn");
    if (print.last_entry > std::ssize(contents.entries)) fault("knows an entry that is missing");
    for (std::size_t* text : {&print.job, &print.shop, &print.template_}) {
      if (*text >= places.size()) fault("has a text that is missing");
      *text = places.at(*text);
    }
    writer.print(print);
  }
  for (const PlanOfPrint& plan : contents.plans) {
    const auto last = printed.find(plan.order_id);
    if (last == printed.end() || plan.number < 1 || plan.number > last->second) {
      does_not_fit(
          fmt::format("a plan is of print {} of order \"{}\", which is missing", plan.number, plan.order_id));
    }
    writer.plan(plan);
  }
  for (const StoredOrder& order : contents.orders) {
    if (!printed.contains(order.id)) does_not_fit(fmt::format("order \"{}\" has no print", order.id));
  }
}

void Register::fill_entries(const RegisterContents& contents, RowWriter& rows, Instant now) {
  std::int64_t blanks = 0;
  EntryNumber last = 0;
  std::map<std::string, std::int64_t> issued;  // to an order so far
  for (const Entry& entry : contents.entries) {
    if (entry.number != ++last) does_not_fit(fmt::format("entry {} is out of turn", entry.number));
    const std::string order = entry.text(Field::order);
    if (!order.empty() && !has_order(order)) does_not_fit(fmt::format("order \"{}\" is missing", order));
    if (entry.kind == EntryKind::issued) {
      const std::int64_t seq = ++issued[order];
      if (order.empty() || !entry.blank || blanks == BlankId::count ||
          contents.series.after(static_cast<std::uint32_t>(blanks)) != *entry.blank) {
        does_not_fit(fmt::format("entry {} issues a blank that is not the next", entry.number));
      }
      rows.blank(blanks++, *entry.blank, order, seq, entry.text(Field::role) == "witness");
    } else if (entry.blank && entry.blank->place_in_series_of(contents.series) >= blanks) {
      does_not_fit(fmt::format("blank {} was never issued", entry.blank->shown()));
    }
    if (const auto why = cannot_replace(entry)) does_not_fit(fmt::format("entry {}: {}", entry.number, why->text));
    // A clock that was ahead when it was entered must not keep anything from being entered here.
    const auto written = contents.written.find(entry.number);
    rows.entry(entry, written == contents.written.end() ? not_said : std::min(written->second, now));
  }
}

}  // namespace blankwright

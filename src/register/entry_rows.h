#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "entries/blank_summary.h"
#include "entries/entry.h"
#include "entries/stored_order.h"
#include "register/database.h"

namespace blankwright {

/// Columns of a row, from `first` on, and the one that holds their checksum.
struct Covered {
  int first, count, sum;
};

/// Throws WorldError where the present row is not as it was written; `name` says which one it is.
void check_row(const Database& db, const Statement& row, const Covered& covered,
               const std::function<std::string()>& name);

/// Adds rows, with statements that are prepared once. `now`: the machine's clock.
class RowWriter {
 public:
  RowWriter(Database& db, Instant now);
  /// Puts an order in place, compiled with the moment `at`; its texts are its prints'.
  void order(const std::string& id, Instant at, const OrderGist& gist);
  /// Gives an ID, the register's n-th, to an order, as its blank number `seq`.
  void blank(std::int64_t n, const BlankId& id, const std::string& order_id, std::int64_t seq, bool witness);
  /// Adds an entry and answers its number. `written`: when it was entered.
  EntryNumber entry(const Entry& entry, Instant written);
  EntryNumber entry(const Entry& added) { return entry(added, now_); }
  /// Puts the row of a blank in place.
  void summary(const BlankSummary& summary);

 private:
  Instant now_;
  EntryNumber last_;  // the number of the last entry
  Statement order_, blank_, entry_, value_, summary_;
};

/// The entries that a condition on the table `entries` picks, and those that replace them, in the order of their
/// numbers. `where` is ours and never holds text from outside: that is bound to ?1.
std::vector<Entry> entries_where(Database& db, std::string_view where, std::string_view value);

/// The orders that a condition on the table `orders` picks, in the order of their ids; `value` is bound to ?1.
std::vector<StoredOrder> orders_where(Database& db, std::string_view where, std::string_view value);

/// Entries that were written from a moment on and before another one, but not those that issue blanks.
std::vector<Entry> entries_written(Database& db, Instant from, Instant before);

/// When entries were written, by their numbers; without those of which that is not known.
std::map<EntryNumber, Instant> times_written(Database& db);

/// The entries with numbers from `first` to `last`.
std::vector<Entry> entries_between(Database& db, EntryNumber first, EntryNumber last);

/// A row a blank that a condition on the tables `blanks` (b) and `blank_states` (s) picks, in the order of issue;
/// `value` is bound to ?1.
std::vector<KnownBlank> summaries_where(Database& db, std::string_view where, std::string_view value);

/// An ID that the register holds; one that is none means damage, and throws WorldError.
BlankId stored_id(const Database& db, const std::string& text);

}  // namespace blankwright

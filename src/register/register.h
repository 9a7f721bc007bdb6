#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

#include "entries/blank_id.h"
#include "entries/blank_refusal.h"
#include "entries/blank_state.h"
#include "entries/blank_summary.h"
#include "entries/entry.h"
#include "entries/process_state.h"
#include "entries/stored_order.h"
#include "register/connection.h"
#include "register/database.h"

namespace blankwright {

class RowWriter;
class States;

struct OrderToIssue {
  std::string order_id;  ///< a valid one (order_id_problem)
  int pieces = 0;        ///< how many blanks the order needs in all, >= 0
  CompileInputs inputs;
  OrderGist gist;
  int witnesses = 0;   ///< besides, only to be cut open, >= 0
  std::string plan{};  ///< as kept_plan() writes it
};

/// What was handed out for an order last.
struct LastPrint {
  Print print;
  std::string job, shop, template_text;
  std::string plan;  ///< empty where an earlier version of the program made it
};

/// What was planned for an order when a print of it was made.
struct PlannedThen {
  Instant made;      ///< when that was, by the machine's clock
  std::string plan;  ///< empty where it was not kept
};

/// What else is kept of the orders' plans, after OrderToIssue::plan, and can be told once their blanks have IDs: for
/// each order, from the blanks that each has. It may ask the register, which holds them by then.
using PlansOfIssued = std::function<std::vector<std::string>(std::span<const std::vector<BlankId>>)>;

/// Two orders whose ids differ only in case: they would share a folder.
struct OrderIdClash {
  std::string asked;
  std::string stored;
};

/// An entry that the register does not take, and why.
struct Rejected {
  std::size_t place;  ///< among the entries handed in
  Refusal refusal;
};

/// Which blank went to which order, and what happened to it: an SQLite file, or a database of a server. What is told
/// as done is on disk. The IDs that it gives out are a series of its own, from series() on.
///
/// Every function throws WorldError, with the place's name and the cause, when the register cannot be used (on a
/// server that is gone, a ConnectionLost), or when the clock, `now`, is outside the years of Zone; then nothing was
/// added. Each row bears a checksum: one that is not as it was written is named, and nothing is answered from it.
class Register {
 public:
  /// Opens for writing the register that is there, or makes one whose series begins with `series_if_new`. A file that
  /// is no register of ours (another program's, a newer format's, a damaged one) is refused and left as it is; of one
  /// of an older format a copy is kept. `wait`: how long to wait for another run that is writing.
  Register(const RegisterPlace& place, const BlankId& series_if_new,
           std::chrono::milliseconds wait = std::chrono::seconds{60});
  /// The same of a register that is there; throws where it is not.
  explicit Register(const RegisterPlace& place, std::chrono::milliseconds wait = std::chrono::seconds{60});

  /// Opens the register for questions only: no file is made or changed, unless it has an older format and is brought
  /// up to date first. None where there is no register yet.
  static std::optional<Register> open_to_read(const RegisterPlace& place,
                                              std::chrono::milliseconds wait = std::chrono::seconds{60});

  /// As long as it lives, answers are of one moment, whatever other runs enter meanwhile, and are found faster.
  /// Nothing can be added while it does; in a file other runs that add wait for its end.
  [[nodiscard]] Transaction as_it_stands() { return Transaction{db_, TransactionKind::read}; }

  /// Is there a register, or something else in its place? Not where there is no file, or an empty one.
  static bool is_there(const RegisterPlace& place);

  /// Was it made when it was opened, by this run and no other?
  bool is_new() const { return is_new_; }
  /// The first ID of its series.
  BlankId series();
  /// Those of these IDs that it never gave out.
  std::vector<BlankId> never_issued(std::span<const BlankId> ids);

  /// Gives the orders, in the order given, the blanks that they lack, and stores what they were compiled from; all of
  /// them or none. Blanks that an order has stay its own, also when it needs fewer now.
  /// The compile's moment `at_unix` is stored with each order; `now` is when the blanks are issued. Answers all the
  /// blanks that each has now, as issued_to() does.
  tl::expected<std::vector<std::vector<BlankId>>, OrderIdClash> issue(std::span<const OrderToIssue> orders,
                                                                      std::int64_t at_unix, Instant now,
                                                                      const PlansOfIssued& more = {});

  /// What time it is for what is entered here: on a server the server's, so that all benches go by one clock;
  /// otherwise `machine`, what this machine's says.
  Instant now(Instant machine) { return db_.now(machine); }

  /// How a key that nobody else draws is drawn for what is added on a server. With it add() knows, once a broken
  /// connection is back, whether its entries came to be, and adds them again only where they did not.
  void draw_keys_by(std::function<std::string()> draw) { draw_key_ = std::move(draw); }
  /// Did the connection break in add(), and not come back, so that nobody knows whether the entries came to be?
  bool is_unsure() const { return unsure_.has_value(); }
  /// Asks whether they did, which settles it: these entries, or none. Precondition: is_unsure().
  std::optional<std::vector<Entry>> settle();

  /// In which units a refusal tells figures: metric, unless it is said otherwise.
  void speak_in(UnitSystem units) { units_ = units; }
  /// How it is read from a job's text whether its blanks are bathed and cured; until it is said, all are.
  void read_treatment_by(std::function<bool(const std::string& job)> treats) { treats_ = std::move(treats); }

  /// Adds entries, in the order given: all of them, or none where one is refused; then all that are refused are
  /// answered. An entry is refused when it is impossible (see refusal()) unless it is overridden, and in any case
  /// when it names a blank, an order or an entry that is not there. One whose time was not said happened now, or,
  /// where it stands in for another one, when that did. Answers them with their numbers. `now`: the machine's clock.
  tl::expected<std::vector<Entry>, std::vector<Rejected>> add(std::span<const Entry> entries, Instant now);

  /// The blanks that an order has: pieces, then witnesses, each in the order of issue, without those that were
  /// withdrawn; none where it was never compiled.
  std::vector<BlankId> issued_to(std::string_view order_id);
  /// How many of them are witnesses.
  int witnesses_of(std::string_view order_id);
  /// The job's text as it was last compiled; none where the order was never compiled.
  std::optional<std::string> stored_job(std::string_view order_id);
  /// The texts of job and shop that were in force at a moment: those of the newest print that was made by then, by
  /// the clock of the machine that made it; before the first one, those of the first. None where the order was never
  /// compiled.
  std::optional<TextsInForce> texts_in_force(std::string_view order_id, Instant when);
  /// An order's print of that number, or the newest where none is given; none where there is no such.
  std::optional<LastPrint> print_of_order(std::string_view order_id, std::optional<int> number = std::nullopt);
  /// What was planned for an order when it was printed last; empty where that was never, or was not kept.
  std::string newest_plan(std::string_view order_id);
  /// What was planned for it at each of its prints, the first one first.
  std::vector<PlannedThen> plans_of(std::string_view order_id);
  /// How many prints there are, of all orders: it is more once an order was compiled from other texts.
  std::int64_t print_count();
  /// The orders of which there is more than one.
  std::set<std::string> printed_again();
  /// The stored order id that differs from `order_id` in case alone, if there is one.
  std::optional<std::string> other_spelling(std::string_view order_id);
  /// The number of the last entry: what the register is "as of".
  EntryNumber last_entry();

  /// All orders, in the order of their ids.
  std::vector<StoredOrder> stored_orders();
  bool has_order(std::string_view order_id);
  /// Pieces that each order's client wants, by the order's id; without orders of which that is not known.
  std::map<std::string, int> quantities();
  /// A blank's state; none where the ID was never issued.
  std::optional<BlankState> blank(const BlankId& id);
  /// A blank's entries, replaced ones among them, in the order of their numbers.
  std::vector<Entry> entries_of(const BlankId& id);
  /// By what happened up to a moment.
  BathState bath(const std::string& name, Instant until = Instant::max());
  LoadState load(const std::string& name, Instant until = Instant::max());
  ResinState resin(const std::string& name);
  std::vector<Entry> entries_of_bath(const std::string& name);
  std::vector<Entry> entries_of_board(const std::string& name);
  std::vector<Entry> entries_of_resin(const std::string& name);
  std::vector<Entry> entries_of_load(const std::string& name);
  /// Does an entry that holds name a bath (a load, a board, a lot of resin, by the field) so?
  bool knows(Field field, std::string_view name);
  /// "the register has no bath B3x; did you mean B3?"
  std::string no_such(Field field, const std::string& name);
  /// What was entered, whenever it had happened, from a moment on and before another one; blanks are not entered but
  /// issued.
  std::vector<Entry> entered(Instant from, Instant before);
  /// The entry that stands in the place of that one, or takes it back.
  std::optional<EntryNumber> replaced_by(EntryNumber number);
  /// A row a blank, in the order of issue: of the whole shop; of those issued to an order or promised to it; of those
  /// sawn from a board.
  std::vector<KnownBlank> known_blanks();
  std::vector<KnownBlank> blanks_of_order(std::string_view order_id);
  std::vector<KnownBlank> blanks_of_board(std::string_view board);
  /// All entries, in the order of their numbers.
  std::vector<Entry> all_entries();
  /// One entry; none where there is no such number.
  std::optional<Entry> entry(EntryNumber number);

  /// All that it holds, as of one moment.
  RegisterContents contents();
  /// Fills an empty register with what another one held, entries with their numbers. Throws WorldError where this one
  /// is not empty, or what is handed in does not fit together.
  void fill(const RegisterContents& contents, Instant now);

 private:
  explicit Register(Database db) : db_{std::move(db)} {}
  /// Throws WorldError where the machine's clock is out of the question.
  void check_clock(Instant now) const;
  void begin_writing(const std::optional<BlankId>& series_if_new);
  std::vector<BlankId> issue_one(const OrderToIssue& order, Instant at, Instant now, RowWriter& rows);
  /// A print of each of these orders whose texts or program are not those of its last one.
  void add_prints(std::span<const OrderToIssue> orders, std::span<const std::string> plans, Instant at, Instant now);
  void fill_orders(const RegisterContents& contents, RowWriter& rows);
  void fill_entries(const RegisterContents& contents, RowWriter& rows, Instant now);
  tl::expected<std::vector<Entry>, std::vector<Rejected>> add_once(std::span<const Entry> entries, Instant now,
                                                                   const std::string& key);
  [[noreturn]] void does_not_fit(std::string_view what) const;
  /// Blanks of an order beyond those it has, each with its entry.
  enum class IssuedAs { piece, witness };
  void add_blanks(const std::string& order_id, int count, IssuedAs what, Instant now, RowWriter& rows);
  bool has_blank(const BlankId& id);
  void set_time(Entry& entry, Instant now, States& states);
  std::optional<Refusal> refused(const Entry& entry, Instant now, States& states);
  std::optional<Refusal> unknown(const Entry& entry);
  std::optional<Refusal> wrong_time(const Entry& entry, Instant now);
  std::optional<Refusal> cannot_replace(const Entry& entry);
  RefusedBy refused_by();
  std::optional<Refusal> out_of_turn(const Entry& entry, States& states);
  std::optional<Refusal> out_of_place(const Entry& entry);
  Database db_;
  bool is_new_ = false;
  std::function<std::string()> draw_key_;
  std::optional<std::string> unsure_;  ///< the key of what was sent when the connection broke
  UnitSystem units_ = UnitSystem::metric;
  std::function<bool(const std::string& job)> treats_;
  std::map<std::string, bool> treated_;  ///< by orders, while entries are added
};

}  // namespace blankwright

#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "entries/blank_id.h"
#include "entries/entry.h"
#include "register/sqlite.h"

namespace blankwright {

/// What a compile of one order depends on, beside the register and the moment.
struct CompileInputs {
  std::string job_text;
  std::string shop_text;
  std::string template_text;
  std::string program_version;
  bool operator==(const CompileInputs&) const = default;
};

struct OrderToIssue {
  std::string order_id;  ///< a valid one (order_id_problem)
  int pieces = 0;        ///< how many blanks the order needs in all, >= 0
  CompileInputs inputs;
};

/// Two orders whose ids differ only in case: they would share a folder.
struct OrderIdClash {
  std::string asked;
  std::string stored;
};

/// Which blank went to which order: one SQLite file beside the shop file. What is told as done is on disk.
///
/// Every function throws WorldError, with the file's path and the cause, when the file cannot be used; then nothing
/// was added.
class Register {
 public:
  /// Opens the register for writing, and makes it on first use. A file that is no register of ours (another
  /// program's, a newer format's, a damaged one) is refused and left as it is. `wait`: how long to wait for another
  /// run that is writing.
  explicit Register(const std::string& path, std::chrono::milliseconds wait = std::chrono::seconds{60});

  /// Opens the register for questions only: no file is made or changed. None where there is no register yet.
  static std::optional<Register> open_to_read(const std::string& path,
                                              std::chrono::milliseconds wait = std::chrono::seconds{60});

  /// Gives the orders, in the order given, the blanks that they lack, and stores what they were compiled from; all of
  /// them or none. Blanks that an order has stay its own, also when it needs fewer now.
  /// The moment `at_unix` is stored with each order, and with the entries. Answers all the blanks that each has now,
  /// in the order of issue.
  tl::expected<std::vector<std::vector<BlankId>>, OrderIdClash> issue(std::span<const OrderToIssue> orders,
                                                                      std::int64_t at_unix);

  /// The blanks that an order has, in the order of issue; empty where it was never compiled.
  std::vector<BlankId> issued_to(std::string_view order_id);
  /// The moment of the order's last compile, if that was made from exactly these inputs.
  std::optional<std::int64_t> kept_at(std::string_view order_id, const CompileInputs& inputs);
  /// The job's text as it was last compiled; none where the order was never compiled.
  std::optional<std::string> stored_job(std::string_view order_id);
  /// The stored order id that differs from `order_id` in case alone, if there is one.
  std::optional<std::string> other_spelling(std::string_view order_id);
  /// The number of the last entry: what the register is "as of".
  EntryNumber last_entry();

 private:
  explicit Register(Database db) : db_{std::move(db)} {}
  std::vector<BlankId> issue_one(const OrderToIssue& order, std::int64_t at_unix);
  void store(const OrderToIssue& order, std::int64_t at_unix);
  /// The blanks of an order beyond those it has, each with its entry.
  std::vector<BlankId> add_blanks(const std::string& order_id, std::size_t have, std::size_t want,
                                  std::int64_t at_unix);
  Database db_;
};

}  // namespace blankwright

#include "register/register.h"

#include <fmt/format.h>

#include <cstddef>
#include <utility>

#include "diagnose/failure.h"
#include "entries/order_id.h"
#include "register/schema.h"

namespace blankwright {
namespace {

/// EXTRA is FULL and more: the folder is synced too once the journal is gone, without which a power cut right after a
/// commit could bring the journal back and undo what was answered; the same IDs would then be issued twice. The
/// journal is SQLite's usual one, which is rolled back: after a run the register is one file that can be copied, and
/// reading it needs no permission to write beside it. A write-ahead log gives neither, and its speed is not needed
/// here.
constexpr const char* settings = "PRAGMA synchronous = EXTRA; PRAGMA foreign_keys = ON; PRAGMA temp_store = MEMORY;";

Database opened_to_write(const std::string& path, std::chrono::milliseconds wait) {
  static_cast<void>(look_at_register(path));  // before SQLite can touch a file that is not ours
  Database db{path, Database::Mode::write, wait};
  db.run(settings);
  check_soundness(db);
  bring_up_to_date(db);
  return db;
}

}  // namespace

Register::Register(const std::string& path, std::chrono::milliseconds wait) : Register{opened_to_write(path, wait)} {}

std::optional<Register> Register::open_to_read(const std::string& path, std::chrono::milliseconds wait) {
  if (look_at_register(path) == Found::nothing) return std::nullopt;
  Register opened{Database{path, Database::Mode::read, wait}};
  check_soundness(opened.db_);
  return opened;
}

tl::expected<std::vector<std::vector<BlankId>>, OrderIdClash> Register::issue(std::span<const OrderToIssue> orders,
                                                                              std::int64_t at_unix) {
  Transaction change{db_};
  std::vector<std::vector<BlankId>> issued;
  for (const OrderToIssue& order : orders) {
    BW_EXPECT(!order_id_problem(order.order_id) && order.pieces >= 0);
    if (const auto stored = other_spelling(order.order_id)) {
      return tl::make_unexpected(OrderIdClash{order.order_id, *stored});
    }
    issued.push_back(issue_one(order, at_unix));
  }
  change.commit();
  return issued;
}

std::vector<BlankId> Register::issue_one(const OrderToIssue& order, std::int64_t at_unix) {
  const auto pieces = static_cast<std::size_t>(order.pieces);
  std::vector<BlankId> blanks = issued_to(order.order_id);
  store(order, at_unix);
  const auto added = add_blanks(order.order_id, blanks.size(), pieces, at_unix);
  blanks.insert(blanks.end(), added.begin(), added.end());
  return blanks;
}

void Register::store(const OrderToIssue& order, std::int64_t at_unix) {
  const CompileInputs& in = order.inputs;
  Statement{db_,
            "INSERT INTO orders (id, folded_id, job_text, shop_text, template_text, program_version, at_unix_s) "
            "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7) ON CONFLICT (id) DO UPDATE SET job_text = ?3, shop_text = ?4, "
            "template_text = ?5, program_version = ?6, at_unix_s = ?7"}
      .with(order.order_id, folded_order_id(order.order_id), in.job_text, in.shop_text, in.template_text,
            in.program_version, at_unix)
      .run();
}

std::vector<BlankId> Register::add_blanks(const std::string& order_id, std::size_t have, std::size_t want,
                                          std::int64_t at_unix) {
  std::vector<BlankId> added;
  std::int64_t n = db_.number("SELECT coalesce(max(n) + 1, 0) FROM blanks");
  Statement add_blank{db_, "INSERT INTO blanks (n, id, order_id, seq) VALUES (?1, ?2, ?3, ?4)"};
  Statement add_entry{db_, "INSERT INTO entries (kind, at_unix_s, order_id, blank_id) VALUES (?1, ?2, ?3, ?4)"};
  for (std::size_t seq = have + 1; seq <= want; ++seq, ++n) {
    const BlankId blank = BlankId::nth(static_cast<std::uint32_t>(n));
    add_blank.with(n, blank.encoded(), order_id, static_cast<std::int64_t>(seq)).run();
    const Entry entry{.kind = EntryKind::issued, .at_unix = at_unix, .order_id = order_id, .blank = blank};
    add_entry.with(name_of(entry.kind), entry.at_unix, entry.order_id, entry.blank.encoded()).run();
    added.push_back(blank);
  }
  return added;
}

std::vector<BlankId> Register::issued_to(std::string_view order_id) {
  Statement ask{db_, "SELECT id FROM blanks WHERE order_id = ?1 ORDER BY seq"};
  std::vector<BlankId> blanks;
  for (ask.with(order_id); ask.step();) {
    const auto blank = BlankId::read(ask.text(0));
    if (!blank)
      throw WorldError{db_.path(), fmt::format("the register is damaged: \"{}\" is no blank's ID", ask.text(0))};
    blanks.push_back(*blank);
  }
  return blanks;
}

std::optional<std::int64_t> Register::kept_at(std::string_view order_id, const CompileInputs& inputs) {
  Statement ask{db_,
                "SELECT job_text, shop_text, template_text, program_version, at_unix_s FROM orders WHERE id = ?1"};
  if (!ask.with(order_id).step()) return std::nullopt;
  const CompileInputs stored{ask.text(0), ask.text(1), ask.text(2), ask.text(3)};
  return stored == inputs ? std::optional{ask.number(4)} : std::nullopt;
}

std::optional<std::string> Register::stored_job(std::string_view order_id) {
  Statement ask{db_, "SELECT job_text FROM orders WHERE id = ?1"};
  return ask.with(order_id).step() ? std::optional{ask.text(0)} : std::nullopt;
}

std::optional<std::string> Register::other_spelling(std::string_view order_id) {
  Statement ask{db_, "SELECT id FROM orders WHERE folded_id = ?1 AND id <> ?2"};
  return ask.with(folded_order_id(order_id), order_id).step() ? std::optional{ask.text(0)} : std::nullopt;
}

EntryNumber Register::last_entry() { return db_.number("SELECT coalesce(max(number), 0) FROM entries"); }

}  // namespace blankwright

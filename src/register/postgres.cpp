#include "register/postgres.h"

#include <fmt/format.h>
#include <libpq-fe.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <string_view>
#include <utility>
#include <vector>

#include "diagnose/failure.h"
#include "register/connection.h"
#include "register/format.h"

namespace blankwright {
namespace {

/// Who writes holds this lock, of this database; "BWrg".
constexpr std::int64_t writers_lock = 0x42577267;

// What columns and answers of ours are (PostgreSQL's pg_type: int8, int4, float8).
constexpr Oid whole_8 = 20;
constexpr Oid whole_4 = 23;
constexpr Oid floating = 701;

constexpr Dialect of_postgresql{
    "WITH RECURSIVE picked (number) AS (SELECT number FROM entries WHERE {} UNION SELECT n.number FROM picked p "
    "CROSS "
    "JOIN LATERAL (SELECT r.number FROM entries r WHERE r.replaces = p.number UNION ALL SELECT e.replaces FROM "
    "entries e "
    "WHERE e.number = p.number) n (number) WHERE n.number IS NOT NULL)",
    "picked p CROSS JOIN LATERAL (SELECT {} FROM entries WHERE number = p.number OFFSET 0) e LEFT JOIN LATERAL "
    "(SELECT * FROM entry_values WHERE number = e.number OFFSET 0) v ON TRUE",
    "INSERT INTO entry_values (number, field, figure, words) VALUES (?1, ?2, ?3, ?4)", "v.figure, v.words"};

struct Clear {
  void operator()(PGresult* result) const { PQclear(result); }
};
using Result = std::unique_ptr<PGresult, Clear>;

/// What libpq says is lines with an end; ours are one.
std::string in_one_line(std::string_view words) {
  std::string out;
  for (const char c : words.substr(0, words.find_last_not_of(" \n") + 1)) {
    const char shown = c == '\n' || c == '\t' ? ' ' : c;
    if (shown != ' ' || !out.ends_with(' ')) out += shown;
  }
  return out;
}

/// "?1" is "$1" there.
std::string with_dollars(std::string_view sql) {
  std::string out{sql};
  std::ranges::replace(out, '?', '$');
  return out;
}

using Values = std::vector<std::optional<std::string>>;

/// A connection to a server, made anew where it broke.
class Server final : public Engine {
 public:
  Server(const std::string& parameters, OpenMode mode, std::chrono::milliseconds wait)
      : parameters_{parameters}, mode_{mode}, wait_{wait} {
    connect();
  }

  const Dialect& dialect() const override { return of_postgresql; }
  std::unique_ptr<PreparedStatement> prepare(std::string_view sql) override;
  void run(const std::string& sql) override {
    alone_or_within([&] { return simple(sql); });
  }
  bool is_in_transaction() const override { return in_transaction_; }
  void begin(TransactionKind kind) override;
  void commit() override;
  void roll_back() noexcept override {
    in_transaction_ = false;
    static_cast<void>(simple("ROLLBACK"));  // where the connection broke, the server does it
  }
  void check_soundness() override {}  // its own business
  std::int64_t format() override;
  void set_format(std::int64_t format) override {
    run(fmt::format("UPDATE register_format SET format = {}", format));
  }
  void keep_old() override;
  Instant now(Instant) override {
    return Instant{std::chrono::seconds{number("SELECT floor(extract(epoch FROM clock_timestamp()))::bigint")}};
  }

  Result execute(const std::string& sql, const Values& values) {
    return alone_or_within([&] { return prepared(sql, values); });
  }
  [[noreturn]] void refuse(const std::string& why) const { throw WorldError{parameters_, why}; }

 private:
  void connect();
  void check_connection(PGconn* connection) const;
  Result simple(const std::string& sql) { return Result{PQexec(connection_.get(), sql.c_str())}; }
  Result prepared(const std::string& sql, const Values& values);
  bool is_lost(const PGresult* result) const;
  [[noreturn]] void fail(const PGresult* result) const;
  /// What a statement answers. Outside a transaction one whose connection broke is run again on a new one: such
  /// statements only read.
  template <class Run>
  Result alone_or_within(const Run& run);

  struct Finish {
    void operator()(PGconn* connection) const { PQfinish(connection); }
  };
  std::string parameters_;
  OpenMode mode_;
  std::chrono::milliseconds wait_;
  std::unique_ptr<PGconn, Finish> connection_;
  std::map<std::string, std::string, std::less<>>
      prepared_;  ///< in this connection: names of statements by their SQL
  bool in_transaction_ = false;
};

class ServerStatement final : public PreparedStatement {
 public:
  ServerStatement(Server& server, std::string_view sql) : server_{server}, sql_{with_dollars(sql)} {}
  void reset() override {
    result_.reset();
    row_ = -1;
  }
  void clear() override { values_.clear(); }
  void bind(int place, std::int64_t value) override { put(place, fmt::format("{}", value)); }
  void bind(int place, double value) override { put(place, fmt::format("{}", value)); }
  void bind(int place, std::string_view value) override {
    if (value.find('\0') != std::string_view::npos) server_.refuse("a text with a zero byte cannot be stored");
    put(place, std::string{value});
  }
  void bind_null(int place) override { put(place, std::nullopt); }
  bool step() override {
    if (!result_) result_ = server_.execute(sql_, values_);
    return ++row_ < PQntuples(result_.get());
  }
  CellKind held(int column) const override {
    if (PQgetisnull(result_.get(), row_, column) != 0) return CellKind::nothing;
    const Oid type = PQftype(result_.get(), column);
    if (type == whole_8 || type == whole_4) return CellKind::integer;
    return type == floating ? CellKind::real : CellKind::text;
  }
  std::int64_t number(int column) const override { return read<std::int64_t>(column); }
  double real(int column) const override { return read<double>(column); }
  std::string_view bytes(int column) const override {
    return {PQgetvalue(result_.get(), row_, column),
            static_cast<std::size_t>(PQgetlength(result_.get(), row_, column))};
  }

 private:
  void put(int place, std::optional<std::string> value) {
    const auto count = static_cast<std::size_t>(place);
    if (values_.size() < count) values_.resize(count);
    values_.at(count - 1) = std::move(value);
  }
  template <class Number>
  Number read(int column) const {
    const std::string_view text = bytes(column);
    Number value{};
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
  }
  Server& server_;
  std::string sql_;
  Values values_;
  Result result_;
  int row_ = -1;
};

void Server::connect() {
  in_transaction_ = false;
  prepared_.clear();
  // What stands before the parameters can be said otherwise there; a server that is gone is noticed in ten seconds.
  constexpr const char* end = nullptr;
  const std::array names{"connect_timeout",
                         "tcp_user_timeout",
                         "keepalives_idle",
                         "keepalives_interval",
                         "keepalives_count",
                         "fallback_application_name",
                         "dbname",
                         "client_encoding",
                         end};
  const std::array values{"10", "10000", "5", "5", "2", "blankwright", parameters_.c_str(), "UTF8", end};
  connection_.reset(PQconnectdbParams(names.data(), values.data(), 1));
  PGconn* connection = connection_.get();
  if (PQstatus(connection) != CONNECTION_OK) {
    throw ConnectionLost{parameters_,
                         fmt::format("the server cannot be reached ({})", in_one_line(PQerrorMessage(connection)))};
  }
  PQsetNoticeProcessor(
      connection, [](void*, const char*) {}, nullptr);
  check_connection(connection);
}

void Server::check_connection(PGconn* connection) const {
  const char* address = PQhostaddr(connection);
  const char* host = PQhost(connection);
  if (PQsslInUse(connection) == 0 && !stays_here(host == nullptr ? "" : host, address == nullptr ? "" : address)) {
    throw WorldError{parameters_,
                     "the connection leaves this machine and is not encrypted; set ssl = on at the server and "
                     "sslmode=verify-full among the connection parameters"};
  }
  // A bench that is cut off while it writes keeps the others waiting until the server has noticed: within 15 seconds.
  const std::string ask = fmt::format(
      "SELECT current_setting('fsync'), current_setting('full_page_writes'), current_setting('synchronous_commit'), "
      "current_setting('server_encoding'), set_config('lock_timeout', '{}', false), set_config('extra_float_digits', "
      "'3', false), set_config('default_transaction_read_only', '{}', false), set_config('jit', 'off', false), "
      "set_config('tcp_keepalives_idle', '5', false), set_config('tcp_keepalives_interval', '5', false), "
      "set_config('tcp_keepalives_count', '2', false)",
      wait_.count(), mode_ == OpenMode::read ? "on" : "off");
  const Result answer{PQexec(connection, ask.c_str())};
  if (PQresultStatus(answer.get()) != PGRES_TUPLES_OK) fail(answer.get());
  for (int column = 0; column < 3; ++column) {
    if (std::string_view{PQgetvalue(answer.get(), 0, column)} != "off") continue;
    throw WorldError{
        parameters_,
        fmt::format("this server may lose what it has answered: {} is off; set it on in its configuration",
                    column == 0   ? "fsync"
                    : column == 1 ? "full_page_writes"
                                  : "synchronous_commit")};
  }
  if (const std::string_view encoding = PQgetvalue(answer.get(), 0, 3); encoding != "UTF8") {
    throw WorldError{parameters_,
                     fmt::format("this database holds its texts as {}; make one with encoding UTF8 (createdb "
                                 "--encoding=UTF8 --template=template0)",
                                 encoding)};
  }
}

bool Server::is_lost(const PGresult* result) const {
  if (PQstatus(connection_.get()) != CONNECTION_OK) return true;
  const char* state = result == nullptr ? nullptr : PQresultErrorField(result, PG_DIAG_SQLSTATE);
  return state != nullptr && std::string_view{state}.starts_with("57P0");  // the server is being stopped
}

void Server::fail(const PGresult* result) const {
  if (is_lost(result)) {
    throw ConnectionLost{parameters_, fmt::format("the connection to the server broke ({})",
                                                  in_one_line(PQerrorMessage(connection_.get())))};
  }
  const char* state = PQresultErrorField(result, PG_DIAG_SQLSTATE);
  if (state != nullptr && std::string_view{state} == "55P03")
    throw WorldError{parameters_, "it is being written to by another run, which does not end"};
  const char* primary = PQresultErrorField(result, PG_DIAG_MESSAGE_PRIMARY);
  const std::string words = in_one_line(primary != nullptr ? primary : PQerrorMessage(connection_.get()));
  if (state != nullptr && std::string_view{state} == "42501") {
    refuse(fmt::format("its user {} has no right to that ({}); `blankwright manual register` says who may what",
                       PQuser(connection_.get()), words));
  }
  refuse(words);
}

template <class Run>
Result Server::alone_or_within(const Run& run) {
  const bool alone = !in_transaction_;
  if (alone && PQstatus(connection_.get()) != CONNECTION_OK) connect();
  Result result = run();
  if (alone && is_lost(result.get())) {
    connect();
    result = run();
  }
  const ExecStatusType status = PQresultStatus(result.get());
  if (status != PGRES_TUPLES_OK && status != PGRES_COMMAND_OK) fail(result.get());
  return result;
}

Result Server::prepared(const std::string& sql, const Values& values) {
  auto known = prepared_.find(sql);
  if (known == prepared_.end()) {
    const std::string name = fmt::format("s{}", prepared_.size());
    Result result{PQprepare(connection_.get(), name.c_str(), sql.c_str(), 0, nullptr)};
    if (PQresultStatus(result.get()) != PGRES_COMMAND_OK) return result;
    known = prepared_.emplace(sql, name).first;
  }
  std::vector<const char*> texts;
  for (const auto& value : values) texts.push_back(value ? value->c_str() : nullptr);
  return Result{PQexecPrepared(connection_.get(), known->second.c_str(), static_cast<int>(texts.size()), texts.data(),
                               nullptr, nullptr, 0)};
}

std::unique_ptr<PreparedStatement> Server::prepare(std::string_view sql) {
  return std::make_unique<ServerStatement>(*this, sql);
}

void Server::begin(TransactionKind kind) {
  try {
    run(kind == TransactionKind::read
            ? std::string{"BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY"}
            : fmt::format("BEGIN ISOLATION LEVEL READ COMMITTED; SELECT pg_advisory_xact_lock({})", writers_lock));
  } catch (const WorldError&) {  // begun all the same, and waited in vain
    roll_back();
    throw;
  }
  in_transaction_ = true;
}

void Server::commit() {
  const Result result = simple("COMMIT");
  in_transaction_ = false;
  if (PQresultStatus(result.get()) != PGRES_COMMAND_OK) fail(result.get());
  if (std::string_view{PQcmdStatus(result.get())} != "COMMIT") refuse("nothing was changed");
}

std::int64_t Server::format() {
  // By the table of tables: the name alone would be answered as it was when this transaction began to wait.
  if (number("SELECT count(*) FROM pg_class WHERE oid = to_regclass('register_format')") == 0) return 0;
  const std::int64_t format = number("SELECT format FROM register_format");
  check_format(parameters_, format);
  return format;
}

/// A schema beside its own, "public_format_6", whose tables nobody may write to. Where they stand on the search path,
/// the program of then can export them.
void Server::keep_old() {
  const Result owner = simple(
      "SELECT pg_get_userbyid(relowner), pg_has_role(relowner, 'USAGE') FROM pg_class WHERE oid = "
      "'register_format'::regclass");
  if (PQresultStatus(owner.get()) != PGRES_TUPLES_OK) fail(owner.get());
  if (std::string_view{PQgetvalue(owner.get(), 0, 1)} != "t") {
    refuse(
        fmt::format("the register is of an earlier version; whoever owns it ({}) brings it to this one's format by "
                    "any command",
                    PQgetvalue(owner.get(), 0, 0)));
  }
  run(R"sql(
DO $$
DECLARE
  old  text := nspname FROM pg_class c JOIN pg_namespace n ON n.oid = relnamespace
               WHERE c.oid = 'register_format'::regclass;
  base text := old || '_format_' || (SELECT format FROM register_format);
  kept text := base;
  name text;
BEGIN
  FOR n IN 2 .. 1000 LOOP
    EXIT WHEN NOT EXISTS (SELECT 1 FROM pg_namespace WHERE nspname = kept);
    kept := base || '_' || n;
  END LOOP;
  EXECUTE format('CREATE SCHEMA %I', kept);
  FOR name IN SELECT tablename FROM pg_tables WHERE schemaname = old AND pg_has_role(tableowner, 'USAGE') LOOP
    EXECUTE format('CREATE TABLE %I.%I (LIKE %I.%I INCLUDING ALL)', kept, name, old, name);
    EXECUTE format('INSERT INTO %I.%I SELECT * FROM %I.%I', kept, name, old, name);
  END LOOP;
  EXECUTE format('REVOKE INSERT, UPDATE, DELETE, TRUNCATE ON ALL TABLES IN SCHEMA %I FROM CURRENT_USER', kept);
END $$)sql");
}

}  // namespace

std::unique_ptr<Engine> open_postgres(const std::string& parameters, OpenMode mode, std::chrono::milliseconds wait) {
  return std::make_unique<Server>(parameters, mode, wait);
}

bool stays_here(std::string_view host, std::string_view address) {
  return host.starts_with('/') || host.starts_with('@') || address.starts_with("127.") || address == "::1";
}

std::optional<ConnectionFault> connection_fault(const std::string& parameters) {
  char* words = nullptr;
  PQconninfoOption* const options = PQconninfoParse(parameters.c_str(), &words);
  if (options == nullptr) {
    ConnectionFault fault{ConnectionFault::Kind::unreadable, words == nullptr ? "out of memory" : in_one_line(words)};
    PQfreemem(words);
    return fault;
  }
  bool has_password = false;
  for (const PQconninfoOption* option = options; option->keyword != nullptr; ++option) {
    const std::string_view name = option->keyword;
    has_password = has_password || (option->val != nullptr && (name == "password" || name == "sslpassword"));
  }
  PQconninfoFree(options);
  return has_password ? std::optional{ConnectionFault{ConnectionFault::Kind::password}} : std::nullopt;
}

}  // namespace blankwright

// How a register on a server of an older format comes to a newer one.

#include <doctest/doctest.h>

#include <array>
#include <chrono>
#include <string>
#include <vector>

#include "../entries/entries_for_test.h"
#include "../test_server.h"
#include "diagnose/failure.h"
#include "register/postgres.h"
#include "register/register.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

/// A register in a schema that belongs to an ordinary user, as one belongs to whom the manual names; the test's own
/// user may do everything.
struct OrdinarilyOwned {
  std::string schema, parameters;
  explicit OrdinarilyOwned(const std::string& owner) {
    const std::string all = TestServer::get().new_database();
    schema = all.substr(all.find("search_path=") + 12);
    TestServer::run(all, "CREATE ROLE " + owner + " LOGIN");
    TestServer::run(all, "CREATE ROLE " + owner + "s_bench LOGIN");
    TestServer::run(all, "GRANT CREATE ON DATABASE postgres TO " + owner);
    TestServer::run(all, "ALTER SCHEMA " + schema + " OWNER TO " + owner);
    parameters = all;
    as(owner);
    std::vector<OrderToIssue> orders{{"T-1", 3, {"job", "shop", "template", "0.1.0"}, {}}};
    orders.front().plan = "what was planned";
    Register reg{place(), BlankId::nth(0)};
    const auto blanks = reg.issue(orders, 0, EntriesForTest::start).value().front();
    Entry dry;
    dry.kind = EntryKind::weighed;
    dry.at = EntriesForTest::start;
    dry.blank = blanks.at(1);
    dry.set(Field::mass, 0.1234);
    static_cast<void>(reg.add(std::array{dry}, EntriesForTest::start + 1h).value());
    for (const std::string& right : {"USAGE ON SCHEMA " + schema, "SELECT ON ALL TABLES IN SCHEMA " + schema})
      TestServer::run(parameters, "GRANT " + right + " TO " + owner + "s_bench");
  }
  void as(const std::string& user) {
    const auto begins = parameters.find("user=") + 5;
    parameters.replace(begins, parameters.find(' ', begins) - begins, user);
  }
  RegisterPlace place() const { return RegisterPlace::on_server(parameters); }
  /// As it says of itself, 5, which no server ever had: what leads on from there makes tables that are there already.
  void set_format(int format) const {
    TestServer::run(parameters, "UPDATE register_format SET format = " + std::to_string(format));
  }
  /// The schemas in which it was kept.
  std::string kept() const {
    return TestServer::ask(parameters,
                           "SELECT coalesce(string_agg(nspname, ' ' ORDER BY nspname), '') FROM pg_namespace "
                           "WHERE nspname LIKE '" +
                               schema + "\\_format%'");
  }
};

}  // namespace

TEST_CASE("before a register on a server is changed it is kept in a schema beside it, to be read and not written") {
  OrdinarilyOwned shop{"keeper"};
  const RegisterContents before = Register::open_to_read(shop.place())->contents();
  const auto engine = open_postgres(shop.parameters, OpenMode::write, 1s);
  const auto kept_and = [&](const auto& end) {
    engine->begin(TransactionKind::write);
    engine->keep_old();
    end();
  };
  kept_and([&] { engine->roll_back(); });
  CHECK(shop.kept().empty());
  kept_and([&] { engine->commit(); });
  CHECK(shop.kept() == shop.schema + "_format_6");
  kept_and([&] { engine->commit(); });
  CHECK(shop.kept() == shop.schema + "_format_6 " + shop.schema + "_format_6_2");
  CHECK(Register::open_to_read(shop.place())->contents() == before);
  for (const std::string number : {"", "_2"}) {
    std::string old = shop.parameters;
    old += "_format_6" + number;
    CHECK(Register::open_to_read(RegisterPlace::on_server(old))->contents() == before);
    CHECK(TestServer::ask(old,
                          "SELECT string_agg(tablename, ' ' ORDER BY tablename) FROM pg_tables WHERE "
                          "schemaname = current_schema()") ==
          "blank_states blanks entries entry_values orders plans prints register_format sendings series texts");
    for (const std::string sql : {"UPDATE orders SET quantity = 9", "DELETE FROM entries", "TRUNCATE plans",
                                  "INSERT INTO series VALUES (2, 'NG732GX')"}) {
      CAPTURE(sql);
      CHECK(what_fails([&] { TestServer::run(old, sql); }).find("permission denied") != std::string::npos);
    }
  }
}

TEST_CASE("only its owner brings a register on a server to a newer format, and one that cannot be stays as it was") {
  OrdinarilyOwned shop{"upgrader"};
  const RegisterContents before = Register::open_to_read(shop.place())->contents();
  shop.set_format(5);
  const auto opened = [&] { Register{shop.place()}; };
  const auto read = [&] { static_cast<void>(Register::open_to_read(shop.place())); };
  shop.as("upgraders_bench");
  const std::string owners = shop.parameters +
                             ": the register is of an earlier version; whoever owns it (upgrader) brings it to this "
                             "one's format by any command";
  CHECK(what_fails(opened) == owners);
  CHECK(what_fails(read) == owners);
  shop.as("upgrader");
  for (int time = 1; time <= 2; ++time) {
    CHECK(what_fails(opened) == shop.parameters + ": relation \"register_format\" already exists");
    CHECK(shop.kept().empty());
  }
  shop.set_format(6);
  CHECK(Register::open_to_read(shop.place())->contents() == before);
}

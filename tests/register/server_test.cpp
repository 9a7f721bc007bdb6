// What only a register on a server can show: connections that break, servers that are gone, rights.

#include <doctest/doctest.h>

#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <functional>
#include <set>
#include <string>
#include <thread>
#include <vector>

#include "../child_process.h"
#include "../cutting_proxy.h"
#include "../entries/entries_for_test.h"
#include "../paper.h"
#include "../test_server.h"
#include "diagnose/failure.h"
#include "register/postgres.h"
#include "register/register.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

constexpr Instant morning = EntriesForTest::start;

std::vector<BlankId> with_blanks(const RegisterPlace& place, int pieces) {
  const std::vector orders{OrderToIssue{"T-1", pieces, {"job", "shop", "template", "0.1.0"}, {}}};
  return Register{place, BlankId::nth(0)}.issue(orders, 0, morning).value().front();
}

Entry scale_entry(const BlankId& blank, int n) {
  Entry entry;
  entry.kind = EntryKind::weighed;
  entry.at = morning + std::chrono::seconds{n};
  entry.blank = blank;
  entry.set(Field::mass, 0.1 + 0.0001 * n);
  return entry;
}

/// A register at a bench, with keys that nobody else draws.
Register bench_at(const RegisterPlace& place) {
  static std::atomic<int> drawn{0};
  Register reg{place};
  reg.draw_keys_by([] { return "key " + std::to_string(++drawn); });
  return reg;
}

/// A port that nobody has.
int free_port() {
  const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in any{};
  any.sin_family = AF_INET;
  any.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof any;
  ::bind(socket, reinterpret_cast<sockaddr*>(&any), size);
  ::getsockname(socket, reinterpret_cast<sockaddr*>(&any), &size);
  ::close(socket);
  return ntohs(any.sin_port);
}

/// The test's server with a certificate, reached through the network as long as this is there. By 0.0.0.0, which
/// Linux takes for this machine and which is none of the addresses by which it calls itself: so it counts as
/// another's.
class EncryptedServer {
 public:
  /// `certificate` and its key, without ".crt" and ".key".
  explicit EncryptedServer(const std::string& certificate)
      : database_{TestServer::get().new_database()}, port_{free_port()} {
    TestServer::get().stop();
    TestServer::get().start({"listen_addresses=127.0.0.1", "ssl=on", "ssl_cert_file=" + certificate + ".crt",
                             "ssl_key_file=" + certificate + ".key"},
                            port_);
  }
  ~EncryptedServer() {
    TestServer::get().stop();
    TestServer::get().start();
  }
  EncryptedServer(const EncryptedServer&) = delete;
  EncryptedServer& operator=(const EncryptedServer&) = delete;
  std::string database() const {
    return "host=0.0.0.0 port=" + std::to_string(port_) + database_.substr(database_.find(" user="));
  }

 private:
  std::string database_;
  int port_;
};

}  // namespace

TEST_CASE("of eight benches and a compile at once no entry is lost, doubled or out of order, and no ID given twice") {
  const char* asked = std::getenv("ENTRIES_AT_ONCE");
  constexpr int benches = 8, gates = 20, compiles = 10;
  const int each = (asked == nullptr ? 960 : std::atoi(asked)) / benches;
  const RegisterPlace place = RegisterPlace::on_server(TestServer::get().new_database());
  const auto blanks = with_blanks(place, benches + gates);
  std::atomic<int> taken{0}, faults{0};
  std::vector<std::vector<EntryNumber>> answered(benches);
  std::vector<std::thread> all;
  for (std::size_t b = 0; b < benches; ++b) {
    all.emplace_back([&, b] {
      try {
        Register reg = bench_at(place);
        for (int n = 1; n <= each; ++n) {
          const auto added = reg.add(std::array{scale_entry(blanks.at(b), n)}, morning + 1h);
          answered.at(b).push_back(added.value().front().number);
        }
        // One bath is begun with each of these, and whoever comes later finds it in a bath.
        for (std::size_t g = 0; g < gates; ++g) {
          Entry into = scale_entry(blanks.at(benches + g), 0);
          into.kind = EntryKind::into_bath;
          into.values.clear();
          into.set(Field::bath, "B" + std::to_string(b));
          into.set(Field::vessel, std::string{"pot"});
          taken += reg.add(std::array{into}, morning + 1h).has_value() ? 1 : 0;
        }
      } catch (const std::exception&) {
        ++faults;
      }
    });
  }
  all.emplace_back([&] {
    for (int k = 0; k < compiles; ++k) {
      const std::string id = "C-" + std::to_string(k);
      const std::vector orders{OrderToIssue{id, 3, {"job", "shop", "template", "0.1.0"}, {}}};
      if (!Register{place}.issue(orders, 0, morning + 1h)) ++faults;
    }
  });
  for (std::thread& one : all) one.join();
  CHECK(faults == 0);
  CHECK(taken == gates);
  Register reg{place};
  const auto entries = reg.all_entries();
  REQUIRE(std::ssize(entries) == benches + gates + benches * each + gates + 3 * compiles);
  std::set<BlankId> issued;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    CHECK(entries.at(i).number == static_cast<EntryNumber>(i) + 1);
    if (entries.at(i).kind == EntryKind::issued) CHECK(issued.insert(*entries.at(i).blank).second);
  }
  CHECK(issued.size() == benches + gates + 3 * compiles);
  for (std::size_t b = 0; b < benches; ++b) {
    REQUIRE(std::ssize(answered.at(b)) == each);
    for (int n = 1; n <= each; ++n) {
      Entry said = scale_entry(blanks.at(b), n);
      said.number = answered.at(b).at(static_cast<std::size_t>(n) - 1);
      CHECK(entries.at(static_cast<std::size_t>(said.number) - 1) == said);
      if (n > 1) CHECK(said.number > answered.at(b).at(static_cast<std::size_t>(n) - 2));
    }
  }
}

TEST_CASE("whichever message a broken connection swallows, the entry is there once") {
  constexpr int most = 300;
  const std::string parameters = TestServer::get().new_database();
  const RegisterPlace place = RegisterPlace::on_server(parameters);
  const auto blanks = with_blanks(place, most);  // one an entry, so that each takes as many messages
  CuttingProxy proxy{TestServer::get().folder()};
  Register reg = bench_at(RegisterPlace::on_server(proxy.instead_of(TestServer::get().folder(), parameters)));
  Register direct{place};
  EntryNumber last = most;
  int cuts = 0;
  for (bool cut = true; cut; ++cuts) {
    CAPTURE(cuts);
    REQUIRE(cuts < most);
    proxy.cut_at(cuts + 1);
    const auto added = reg.add(std::array{scale_entry(blanks.at(static_cast<std::size_t>(cuts)), 1)}, morning + 1h);
    cut = proxy.left() <= 0;
    REQUIRE(added.has_value());
    CHECK(added->front().number == last + 1);
    REQUIRE(direct.last_entry() == last + 1);
    ++last;
  }
  CHECK(cuts > 50);
  MESSAGE("an entry takes " << cuts - 1 << " messages");
}

TEST_CASE("a server that may lose what it has answered is refused") {
  TestServer& server = TestServer::get();
  const std::string parameters = server.new_database();
  const RegisterPlace place = RegisterPlace::on_server(parameters);
  with_blanks(place, 1);
  const auto refusal = [&](const RegisterPlace& at) { return what_fails([&] { Register{at}; }); };
  const auto said = [&](const RegisterPlace& at, const std::string& setting) {
    return at.name + ": this server may lose what it has answered: " + setting +
           " is off; set it on in its configuration";
  };
  std::string with_option = parameters;
  with_option.replace(with_option.find("options="), 8, "options='-csynchronous_commit=off ").append("'");
  const RegisterPlace asynchronous = RegisterPlace::on_server(with_option);
  CHECK(refusal(asynchronous) == said(asynchronous, "synchronous_commit"));
  const auto set = [&](const std::string& setting, const std::string& to) {
    TestServer::run(parameters, "ALTER SYSTEM SET " + setting + " = " + to);
    TestServer::run(parameters, "SELECT pg_reload_conf()");
    while (TestServer::ask(parameters, "SHOW " + setting) != to) std::this_thread::sleep_for(10ms);
  };
  for (const std::string setting : {"fsync", "full_page_writes"}) {
    set(setting, "off");
    CHECK(refusal(place) == said(place, setting));
    CHECK(what_fails([&] { static_cast<void>(Register::open_to_read(place)); }) == said(place, setting));
    set(setting, "on");
  }
  CHECK(refusal(place).empty());
  std::string latin = parameters.substr(0, parameters.find("dbname="));
  TestServer::run(parameters, "CREATE DATABASE latin ENCODING 'LATIN1' TEMPLATE template0");
  CHECK(refusal(RegisterPlace::on_server(latin + "dbname=latin")).find("holds its texts as LATIN1") !=
        std::string::npos);
}

TEST_CASE("while the server is gone nothing is entered, and what follows is entered when it is back") {
  TestServer& server = TestServer::get();
  const RegisterPlace place = RegisterPlace::on_server(server.new_database());
  const BlankId blank = with_blanks(place, 1).front();
  Register reg = bench_at(place);
  server.stop();
  CHECK_THROWS_AS(static_cast<void>(reg.last_entry()), ConnectionLost);
  CHECK_THROWS_AS(static_cast<void>(reg.add(std::array{scale_entry(blank, 1)}, morning + 1h)), ConnectionLost);
  CHECK(reg.is_unsure());
  CHECK_THROWS_AS(static_cast<void>(reg.settle()), ConnectionLost);
  CHECK(reg.is_unsure());
  server.start();
  CHECK_FALSE(reg.settle().has_value());
  CHECK_FALSE(reg.is_unsure());
  CHECK(reg.add(std::array{scale_entry(blank, 2)}, morning + 1h).value().front().number == 2);
}

TEST_CASE("a bench that gets no answer learns when the server is back whether its entry came to be") {
  const std::string parameters = TestServer::get().new_database();
  const RegisterPlace place = RegisterPlace::on_server(parameters);
  const auto blanks = with_blanks(place, 20);  // one an entry, so that each takes as many messages
  CuttingProxy proxy{TestServer::get().folder()};
  Register bench = bench_at(RegisterPlace::on_server(proxy.instead_of(TestServer::get().folder(), parameters)));
  std::size_t next = 0;
  const auto one_more = [&] { return scale_entry(blanks.at(next++), 1); };
  static_cast<void>(bench.add(std::array{one_more()}, morning + 1h).value());
  proxy.cut_at(1'000'000);
  static_cast<void>(bench.add(std::array{one_more()}, morning + 1h).value());
  const int messages = 1'000'000 - proxy.left();
  int came = 0, absent = 0;
  for (int n = messages - 5; n <= messages; ++n) {
    CAPTURE(messages - n);
    const Entry said = one_more();
    const EntryNumber before = Register{place}.last_entry();
    proxy.cut_at(n, CuttingProxy::Then::gone);
    CHECK_THROWS_AS(static_cast<void>(bench.add(std::array{said}, morning + 1h)), ConnectionLost);
    REQUIRE(bench.is_unsure());
    proxy.is_back();
    const auto settled = bench.settle();
    (settled ? came : absent) += 1;
    CHECK(Register{place}.last_entry() == before + (settled ? 1 : 0));
    if (settled) CHECK(settled->front().blank == said.blank);
    // Once more, so that its statements are prepared again.
    static_cast<void>(bench.add(std::array{one_more()}, morning + 1h).value());
  }
  CHECK(came >= 2);
  CHECK(absent >= 2);
}

TEST_CASE("who may enter cannot issue, who may issue cannot change or remove, and neither can the owner") {
  const std::string all = TestServer::get().new_database(), schema = all.substr(all.find("search_path=") + 12);
  for (const std::string role : {"bench", "office", "holder"}) TestServer::run(all, "CREATE ROLE " + role + " LOGIN");
  TestServer::run(all, "ALTER SCHEMA " + schema + " OWNER TO holder");
  const auto as = [&](const std::string& role) {
    std::string mine = all;
    return mine.replace(mine.find("user=owner"), 10, "user=" + role);
  };
  const std::string parameters = as("holder");
  const RegisterPlace place = RegisterPlace::on_server(parameters);
  const BlankId blank = with_blanks(place, 1).front();
  const std::string manual = bytes_of(BLANKWRIGHT_SOURCE_DIR "/src/install/manual/register.md");
  const auto begins = manual.find("```sql\n") + 7;
  std::string rights = manual.substr(begins, manual.find("```", begins) - begins);
  rights.replace(rights.find("SCHEMA public"), 13, "SCHEMA " + schema);
  TestServer::run(parameters, rights);
  TestServer::run(parameters, "GRANT USAGE ON SCHEMA " + schema + " TO bench, office");
  Register bench = bench_at(RegisterPlace::on_server(as("bench")));
  CHECK(bench.add(std::array{scale_entry(blank, 1)}, morning + 1h).has_value());
  const std::vector orders{OrderToIssue{"T-2", 1, {"job", "shop", "template", "0.1.0"}, {}}};
  CHECK(what_fails([&] { static_cast<void>(bench.issue(orders, 0, morning + 1h)); }) ==
        as("bench") +
            ": its user bench has no right to that (permission denied for table orders); `blankwright "
            "manual register` says who may what");
  Register office = bench_at(RegisterPlace::on_server(as("office")));
  CHECK(office.issue(orders, 0, morning + 1h).has_value());
  CHECK(office.add(std::array{scale_entry(blank, 2)}, morning + 1h).has_value());
  for (const std::string table :
       {"entries", "entry_values", "sendings", "blanks", "texts", "prints", "plans", "series", "register_format"}) {
    CAPTURE(table);
    for (const std::string role : {"bench", "office"}) {
      for (const std::string& sql :
           {"DELETE FROM " + table, "TRUNCATE " + table + " CASCADE", "DROP TABLE " + table + " CASCADE",
            "ALTER TABLE " + table + " DISABLE TRIGGER ALL"}) {
        CAPTURE(sql);
        CHECK(what_fails([&] { TestServer::run(as(role), sql); }).find("ERROR") != std::string::npos);
      }
    }
    if (table == "register_format") continue;
    // The triggers hold for the owner, too.
    for (const std::string& sql : {"DELETE FROM " + table, "TRUNCATE " + table + " CASCADE"})
      CHECK(what_fails([&] { TestServer::run(parameters, sql); }).find(" are never ") != std::string::npos);
  }
  for (const std::string role : {"bench", "office"}) {
    CHECK(what_fails([&] { TestServer::run(as(role), "UPDATE entries SET at_unix_s = 0"); }).find("permission") !=
          std::string::npos);
    CHECK(what_fails([&] { TestServer::run(as(role), "CREATE TABLE another (one int)"); }).find("permission") !=
          std::string::npos);
  }
  CHECK(what_fails([&] { TestServer::run(parameters, "UPDATE entries SET at_unix_s = 0"); }).find(" are never ") !=
        std::string::npos);
  CHECK(Register{place}.last_entry() == 4);
}

TEST_CASE("only what stays on this machine goes unencrypted") {
  CHECK(stays_here("/run/postgresql", ""));
  CHECK(stays_here("@blankwright", ""));
  CHECK(stays_here("localhost", "127.0.0.1"));
  CHECK(stays_here("localhost", "::1"));
  CHECK_FALSE(stays_here("office", "192.168.1.7"));
  CHECK_FALSE(stays_here("127.example", "10.127.0.1"));
  CHECK_FALSE(stays_here("localhost", ""));
}

TEST_CASE("a connection that leaves this machine is encrypted, or is none") {
  const TemporaryFolder folder;
  for (const std::string name : {"office", "other"}) {
    const int made = in_child([&] {
      become_ordinary_user();  // who the server runs as, and has to own its key
      return run_tool(
                 "openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -days 2 "
                 "-subj /CN=office -addext subjectAltName=IP:0.0.0.0 -keyout " +
                 folder / (name + ".key") + " -out " + folder / (name + ".crt"))
          .status;
    });
    REQUIRE(made == 0);
  }
  const EncryptedServer server{folder / "office"};
  const std::string database = server.database();
  const auto issued_over = [&](const std::string& how) {
    return what_fails([&] { with_blanks(RegisterPlace::on_server(database + how), 2); });
  };
  CHECK(issued_over(" sslmode=disable").find("leaves this machine and is not encrypted; set ssl = on") !=
        std::string::npos);
  CHECK(issued_over(" sslmode=verify-full sslrootcert=" + folder / "other.crt").find("certificate verify failed") !=
        std::string::npos);
  CHECK_FALSE(Register::is_there(RegisterPlace::on_server(database + " sslmode=require")));
  CHECK(issued_over(" sslmode=verify-full sslrootcert=" + folder / "office.crt").empty());
  CHECK(Register{RegisterPlace::on_server(database + " sslmode=require")}.last_entry() == 2);
}

TEST_CASE("connection parameters are looked at without connecting") {
  using Kind = ConnectionFault::Kind;
  CHECK_FALSE(connection_fault("host=office dbname=shop").has_value());
  CHECK_FALSE(connection_fault("service=shop").has_value());
  CHECK_FALSE(connection_fault("postgresql://bench@office/shop?sslmode=verify-full").has_value());
  CHECK(connection_fault("host=office password=x")->kind == Kind::password);
  CHECK(connection_fault("postgresql://bench:x@office/shop")->kind == Kind::password);
  CHECK(connection_fault("host=office dbname")->kind == Kind::unreadable);
  CHECK(connection_fault("hostess=office")->words.find("hostess") != std::string::npos);
}

TEST_CASE("what a server cannot hold is refused, and nothing of it is there") {
  const RegisterPlace place = RegisterPlace::on_server(TestServer::get().new_database());
  const BlankId blank = with_blanks(place, 1).front();
  Register reg = bench_at(place);
  Entry said = scale_entry(blank, 1);
  for (const std::string& remark : {std::string{"a\0b", 3}, std::string{"\xff"}}) {
    said.set(Field::remark, remark);
    CHECK_THROWS_AS(static_cast<void>(reg.add(std::array{said}, morning + 1h)), WorldError);
    CHECK_FALSE(reg.is_unsure());
    CHECK(reg.last_entry() == 1);
  }
}

#include "test_server.h"

#include <fcntl.h>
#include <libpq-fe.h>
#include <sys/prctl.h>

#include <chrono>
#include <filesystem>
#include <stdexcept>
#include <thread>
#include <vector>

#include "child_process.h"

namespace blankwright {
namespace {

/// The newest of PostgreSQL's program folders that Debian has.
std::string programs() {
  int newest = 0;
  for (const auto& entry : std::filesystem::directory_iterator{"/usr/lib/postgresql"}) {
    if (std::filesystem::exists(entry.path() / "bin/postgres"))
      newest = std::max(newest, std::stoi(entry.path().filename().string()));
  }
  if (newest == 0) throw std::runtime_error{"no PostgreSQL server is installed"};
  return "/usr/lib/postgresql/" + std::to_string(newest) + "/bin/";
}

/// Replaces this process, an ordinary user's from now on, by a program that ends with the test's.
[[noreturn]] void become(const std::string& program, std::vector<std::string> arguments, const std::string& log) {
  become_ordinary_user();
  ::prctl(PR_SET_PDEATHSIG, SIGQUIT);
  const int file = ::open(log.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0644);
  ::dup2(file, 1);
  ::dup2(file, 2);
  ::close(0);
  std::vector<char*> given{const_cast<char*>(program.c_str())};
  for (std::string& argument : arguments) given.push_back(argument.data());
  given.push_back(nullptr);
  ::execv(program.c_str(), given.data());
  ::_exit(98);
}

struct Connection {
  explicit Connection(const std::string& parameters) : open{PQconnectdb(parameters.c_str())} {
    PQsetNoticeProcessor(
        open, [](void*, const char*) {}, nullptr);
  }
  ~Connection() { PQfinish(open); }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  PGconn* open;
};

}  // namespace

TestServer& TestServer::get() {
  static TestServer server;
  return server;
}

TestServer::TestServer() {
  const std::string data = folder_ / "data", log = folder_ / "log";
  const pid_t made = start_child([&]() -> int {
    become(programs() + "initdb", {"-D", data, "-U", "owner", "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync"},
           log);
  });
  if (end_of(made) != 0) throw std::runtime_error{"initdb: " + bytes_of(log)};
  start();
}

TestServer::~TestServer() { stop(); }

void TestServer::start(const std::vector<std::string>& settings, int port) {
  const std::string log = folder_ / "log", by = std::to_string(port);
  process_ = start_child([&]() -> int {
    std::vector<std::string> arguments{"-D", folder_ / "data", "-k", folder_.path(), "-p", by};
    for (const char* setting : {"listen_addresses=", "shared_buffers=16MB", "max_connections=40"})
      arguments.insert(arguments.end(), {"-c", setting});
    for (const std::string& setting : settings) arguments.insert(arguments.end(), {"-c", setting});
    become(programs() + "postgres", arguments, log);
  });
  for (int tries = 0; tries < 1000; ++tries) {
    const Connection connection{"host=" + folder_.path() + " port=" + by + " user=owner dbname=postgres"};
    if (PQstatus(connection.open) == CONNECTION_OK) return;
    std::this_thread::sleep_for(std::chrono::milliseconds{20});
  }
  throw std::runtime_error{"the server does not start: " + bytes_of(log)};
}

void TestServer::stop() {
  if (process_ == 0) return;
  ::kill(process_, SIGINT);
  end_of(process_);
  process_ = 0;
}

std::string TestServer::new_database() {
  const std::string name = "shop" + std::to_string(++databases_);
  const std::string server = "host=" + folder_.path() + " user=owner dbname=postgres";
  run(server, "CREATE SCHEMA " + name);
  return server + " options=-csearch_path=" + name;
}

void TestServer::run(const std::string& parameters, const std::string& sql) {
  static_cast<void>(ask(parameters, sql));
}

std::string TestServer::ask(const std::string& parameters, const std::string& sql) {
  const Connection connection{parameters};
  PGresult* result = PQexec(connection.open, sql.c_str());
  const ExecStatusType status = PQresultStatus(result);
  const std::string value = PQntuples(result) > 0 ? PQgetvalue(result, 0, 0) : "";
  PQclear(result);
  if (status != PGRES_COMMAND_OK && status != PGRES_TUPLES_OK)
    throw std::runtime_error{PQerrorMessage(connection.open)};
  return value;
}

std::string what_fails(const std::function<void()>& work) {
  try {
    work();
  } catch (const std::exception& error) {
    return error.what();
  }
  return {};
}

}  // namespace blankwright

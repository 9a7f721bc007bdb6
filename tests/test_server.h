#pragma once

#include <sys/types.h>

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "register/register_place.h"
#include "temporary_folder.h"

namespace blankwright {

/// A PostgreSQL server of this test program's own, run by an ordinary user and reached by a socket in a temporary
/// folder. It starts when it is first asked for and is stopped with the program. Where it cannot start, this throws.
class TestServer {
 public:
  static TestServer& get();
  ~TestServer();
  TestServer(const TestServer&) = delete;
  TestServer& operator=(const TestServer&) = delete;

  /// Connection parameters of a place where nothing is: a schema of its own, which is made faster than a database.
  std::string new_database();
  /// Where its socket is.
  std::string folder() const { return folder_.path(); }
  /// Runs SQL as the owner of all. Throws what the server says where it refuses.
  static void run(const std::string& parameters, const std::string& sql);
  /// One value as text.
  static std::string ask(const std::string& parameters, const std::string& sql);

  void stop();  ///< as when the machine is switched off: all connections break
  /// Again; also with settings such as "ssl=on", and by another port.
  void start(const std::vector<std::string>& settings = {}, int port = 5432);

 private:
  TestServer();
  TemporaryFolder folder_;
  pid_t process_ = 0;
  int databases_ = 0;
};

/// What work fails with; empty where it does not.
std::string what_fails(const std::function<void()>& work);

/// Where a register stands that a test makes: each test of both runs with each of these.
struct InFile {
  static RegisterPlace place(const TemporaryFolder& folder, const std::string& name) { return folder / name; }
};
struct OnServer {
  static RegisterPlace place(const TemporaryFolder&, const std::string&) {
    return RegisterPlace::on_server(TestServer::get().new_database());
  }
};

}  // namespace blankwright

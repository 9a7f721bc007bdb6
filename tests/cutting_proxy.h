#pragma once

#include <atomic>
#include <string>
#include <thread>
#include <vector>

#include "temporary_folder.h"

namespace blankwright {

/// Stands between a bench and the tests' server, at a socket of its own, and breaks the connection once, in place of
/// passing on the n-th message, of whichever side.
class CuttingProxy {
 public:
  /// `server`: the folder of the server's socket.
  explicit CuttingProxy(std::string server);
  ~CuttingProxy();
  CuttingProxy(const CuttingProxy&) = delete;
  CuttingProxy& operator=(const CuttingProxy&) = delete;
  /// Connection parameters that lead to the server, leading here.
  std::string instead_of(const std::string& server, std::string parameters) const {
    return parameters.replace(parameters.find(server), server.size(), folder_.path());
  }

  enum class Then { back, gone };
  /// The n-th message from now on is not passed on; then nobody is let in, if `gone`, until is_back().
  void cut_at(int n, Then then = Then::back) {
    then_ = then;
    left_ = n;
  }
  void is_back() { is_gone_ = false; }
  /// How many messages are still to be passed on.
  int left() const { return left_; }

 private:
  void accept_all();
  void pass_on(int bench);
  TemporaryFolder folder_;
  std::string server_;
  int listening_ = -1;
  std::atomic<int> left_{1'000'000};
  std::atomic<Then> then_ = Then::back;
  std::atomic<bool> is_gone_ = false;
  std::atomic<bool> ends_ = false;
  std::vector<std::thread> connections_;
  std::thread accepting_;
};

}  // namespace blankwright

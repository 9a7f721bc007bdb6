#include "cutting_proxy.h"

#include <poll.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <array>
#include <cstdint>
#include <cstring>
#include <stdexcept>
#include <utility>

namespace blankwright {
namespace {

sockaddr_un address_in(const std::string& folder) {
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  const std::string path = folder + "/.s.PGSQL.5432";
  if (path.size() >= sizeof address.sun_path) throw std::runtime_error{"too long for a socket's path: " + path};
  std::memcpy(address.sun_path, path.c_str(), path.size() + 1);
  return address;
}

/// One direction of a connection: bytes until they are a message.
struct Way {
  int from, to;
  bool has_type;  ///< the first message of a client has none (PostgreSQL's manual, 55.7, "Message Formats")
  std::string bytes{};

  /// The length of the message that is whole at the beginning; 0 where none is.
  std::size_t message() const {
    const std::size_t head = has_type ? 1 : 0;
    if (bytes.size() < head + 4) return 0;
    std::uint32_t length = 0;
    for (std::size_t i = head; i < head + 4; ++i) length = length << 8U | static_cast<unsigned char>(bytes.at(i));
    return bytes.size() < head + length ? 0 : head + length;
  }
};

bool send_all(int to, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(to, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

}  // namespace

CuttingProxy::CuttingProxy(std::string server)
    : server_{std::move(server)}, listening_{::socket(AF_UNIX, SOCK_STREAM, 0)} {
  const sockaddr_un address = address_in(folder_.path());
  if (::bind(listening_, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0 ||
      ::listen(listening_, 16) != 0)
    throw std::runtime_error{"no socket for the proxy"};
  accepting_ = std::thread{[this] { accept_all(); }};
}

CuttingProxy::~CuttingProxy() {
  ends_ = true;
  accepting_.join();
  for (std::thread& connection : connections_) connection.join();
  ::close(listening_);
}

void CuttingProxy::accept_all() {
  while (!ends_) {
    pollfd waits{listening_, POLLIN, 0};
    if (::poll(&waits, 1, 20) != 1) continue;
    const int bench = ::accept(listening_, nullptr, nullptr);
    if (is_gone_) {
      ::close(bench);
    } else {
      connections_.emplace_back([this, bench] { pass_on(bench); });
    }
  }
}

void CuttingProxy::pass_on(int bench) {
  const int server = ::socket(AF_UNIX, SOCK_STREAM, 0);
  const sockaddr_un address = address_in(server_);
  bool open = ::connect(server, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  std::array ways{Way{bench, server, false}, Way{server, bench, true}};
  while (open && !ends_) {
    std::array<pollfd, 2> waits{pollfd{bench, POLLIN, 0}, pollfd{server, POLLIN, 0}};
    ::poll(waits.data(), waits.size(), 20);
    for (std::size_t i = 0; i < ways.size(); ++i) {
      if ((waits.at(i).revents & (POLLIN | POLLHUP | POLLERR)) == 0) continue;
      Way& way = ways.at(i);
      std::array<char, 65536> read{};
      const ssize_t size = ::recv(way.from, read.data(), read.size(), 0);
      open = open && size > 0;
      if (size > 0) way.bytes.append(read.data(), static_cast<std::size_t>(size));
      for (std::size_t length = way.message(); open && length > 0; length = way.message()) {
        if (--left_ == 0) {
          is_gone_ = then_ == Then::gone;
          open = false;
        }
        open = open && send_all(way.to, std::string_view{way.bytes}.substr(0, length));
        way.bytes.erase(0, length);
        way.has_type = true;
      }
    }
  }
  ::close(server);
  ::close(bench);
}

}  // namespace blankwright

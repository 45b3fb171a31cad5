#pragma once
// A client that can misbehave: raw bytes over a socket of this machine.

#include <arpa/inet.h>
#include <chrono>
#include <netinet/in.h>
#include <poll.h>
#include <string>
#include <string_view>
#include <sys/socket.h>
#include <unistd.h>
#include <utility>

namespace cotter::serve {

class Client {
 public:
  explicit Client(unsigned short port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    connected_ = ::connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  }
  Client(Client&& other) noexcept : socket_(std::exchange(other.socket_, -1)), connected_(other.connected_) {}
  Client& operator=(Client&&) = delete;
  ~Client() {
    if (socket_ >= 0) ::close(socket_);
  }

  bool connected() const { return connected_; }

  /// Whether all bytes were taken.
  bool send(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }

  /// Whether something, or the end, can be read within `patience`.
  bool readable(std::chrono::milliseconds patience) const {
    pollfd entry{.fd = socket_, .events = POLLIN, .revents = 0};
    return ::poll(&entry, 1, static_cast<int>(patience.count())) > 0;
  }

  /// Everything until the server closes, or until nothing came for `patience`.
  std::string read_all(std::chrono::milliseconds patience = std::chrono::seconds(20)) {
    std::string text;
    while (read_some(text, patience)) continue;
    return text;
  }

  /// Until `count` heads and `tail` at the end have come, for connections that stay open.
  std::string read_until(std::string_view tail) {
    std::string text;
    while (!text.ends_with(tail) && read_some(text, std::chrono::seconds(20))) continue;
    return text;
  }

  /// The server has closed: the end, or a reset.
  bool closed(std::chrono::milliseconds patience) {
    std::string ignored;
    return readable(patience) && !read_some(ignored, patience);
  }

 private:
  bool read_some(std::string& text, std::chrono::milliseconds patience) const {
    if (!readable(patience)) return false;
    char bytes[65536];
    const ssize_t got = ::recv(socket_, bytes, sizeof bytes, 0);
    if (got <= 0) return false;
    text.append(bytes, static_cast<std::size_t>(got));
    return true;
  }

  int socket_;
  bool connected_ = false;
};

}  // namespace cotter::serve

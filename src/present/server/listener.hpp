#pragma once
#include <optional>
#include <string>

namespace stillheap::server {

/// A socket that browsers connect to, and a way to end waiting on it.
class Listener {
 public:
  /// Binds and listens. `port` 0: any free one. Throws InputError when it cannot.
  Listener(const char* address, int port);
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;
  ~Listener();

  struct Caller {
    int socket = -1;
    std::string address;
    int port = 0;
  };
  /// The next one who connects, one without a socket when nobody did for a quarter of a second; nothing once close()
  /// was called, also before.
  [[nodiscard]] std::optional<Caller> next();
  /// From any thread or signal handler.
  void close() noexcept;
  [[nodiscard]] int port() const noexcept { return port_; }

 private:
  int socket_ = -1;
  int ended_ = -1;  ///< readable once it is over
  int port_ = 0;
};

}  // namespace stillheap::server

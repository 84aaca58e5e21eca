#pragma once
#include <functional>
#include <memory>
#include <string>

#include "present/server/house.hpp"
#include "present/server/static_files.hpp"

namespace stillheap::server {

struct Listen {
  int port = 0;                            ///< 0: any free one
  std::filesystem::path certificate, key;  ///< PEM; both or none
};

/// Answers one request, safety first: host, origin, session, size, then the route or the page's file.
[[nodiscard]] Response respond(House& house, const StaticFiles& page, const Request& ask);
/// The answer that needs no body: every refusal, and that there is nothing here.
[[nodiscard]] std::optional<Response> respond_early(House& house, const StaticFiles& page, const Request& ask);

/// A server on loopback, or on all addresses of the machine when the door's `safety.lan` is set.
class Server {
 public:
  /// Binds the port. Throws InputError when it cannot, or the certificate cannot be read.
  Server(House& house, const StaticFiles& page, const Listen& listen);
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  ~Server();
  [[nodiscard]] int port() const noexcept;
  /// Serves until stop().
  void run();
  /// From any thread, also before run(). Requests that were taken are answered still.
  void stop();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace stillheap::server

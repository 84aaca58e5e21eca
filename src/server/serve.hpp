#pragma once
#include <functional>
#include <memory>
#include <string>

#include "server/house.hpp"
#include "server/static_files.hpp"

/// With connection.hpp, all that knows the web library.
namespace stillheap::server {

struct Listen {
  int port = 0;                            ///< 0: any free one
  std::filesystem::path certificate, key;  ///< PEM; both or none
};

/// Answers one request, safety first: host, origin, session, size, then the route or the page's file.
[[nodiscard]] Answer respond(House& house, const StaticFiles& page, const Ask& ask);
/// The refusal that can be told before the body is read.
[[nodiscard]] std::optional<Answer> respond_early(House& house, const Ask& ask);

/// A server on loopback, or on all addresses of the machine when `house.safety.lan` is set.
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
  /// From any thread.
  void stop();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace stillheap::server

#pragma once
#include <openssl/ssl.h>

#include <array>
#include <memory>

#include "present/server/byte_stream.hpp"

/// One connection of a browser, and how long it may keep a thread waiting.
namespace stillheap::server {

/// Whoever sends or takes less is cut off: a thread stands behind every open connection. All chosen.
struct Pace {
  double silence_s = 5.0;      ///< without a single byte
  double head_start_s = 15.0;  ///< waited in all for one request and its answer, however small ...
  double least_byte_s = 8192;  ///< ... and a second more for so many bytes; no work radio is slower
};

/// What requests are read from and answers written to. Only time spent waiting for the other side counts
/// against its pace, not what an answer takes to make.
class Connection final : public ByteStream {
 public:
  /// Takes the socket over. `context`: null without TLS.
  Connection(int socket, SSL_CTX* context, const Pace& pace);
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  /// Says goodbye and closes the socket.
  ~Connection() override;

  /// The TLS handshake; true at once without TLS.
  [[nodiscard]] bool shake_hands();
  /// Waits for the first byte of the next request, and begins to count anew. False too after a fault or one who was too
  /// slow: what still comes is the rest of that request.
  /// `came_already`: bytes of it were read with the last one.
  [[nodiscard]] bool next_request(bool came_already, double within_s);

  [[nodiscard]] ssize_t read(char* to, size_t size) override;
  [[nodiscard]] bool write(const char* from, size_t size) override;
  [[nodiscard]] bool is_left() override;
  /// Takes and throws away what still comes, for a short while: a socket closed with unread bytes takes the answer back
  /// from whoever has not read it yet.
  void linger();

 private:
  [[nodiscard]] bool is_readable() const;
  [[nodiscard]] bool wait_for(short events, double at_most_s);
  [[nodiscard]] bool wait_for_more(int tls_result);
  [[nodiscard]] bool wait_in_pace(short events);
  [[nodiscard]] ssize_t fail();
  template <class ByTls, class Plainly>
  [[nodiscard]] ssize_t move_some(short events, const ByTls& by_tls, const Plainly& plainly);
  [[nodiscard]] ssize_t receive(char* to, size_t size);
  [[nodiscard]] ssize_t send_some(const char* from, size_t size);

  int socket_;
  Pace pace_;
  std::unique_ptr<SSL, void (*)(SSL*)> tls_;
  bool broken_ = false;    ///< TLS forbids a goodbye after a fault
  bool over_ = false;      ///< a fault, or one who was too slow
  double waited_s_ = 0.0;  ///< for this request
  double moved_byte_ = 0.0;
};

}  // namespace stillheap::server

#pragma once
#include <httplib.h>

#include <array>
#include <map>
#include <memory>
#include <mutex>
#include <string>

/// One connection of a browser, and how long it may keep a thread waiting.
namespace stillheap::server {

/// Whoever sends or takes less is cut off: a thread stands behind every open connection. All chosen.
struct Pace {
  double silence_s = 5.0;      ///< without a single byte
  double head_start_s = 15.0;  ///< waited in all for one request and its answer, however small ...
  double least_byte_s = 8192;  ///< ... and a second more for so many bytes; no work radio is slower
};

/// What the web library reads requests from and writes answers to. Only time spent waiting for the other side counts
/// against its pace, not what an answer takes to make.
class Connection final : public httplib::Stream {
 public:
  /// Takes the socket over. `context`: null without TLS.
  Connection(socket_t socket, SSL_CTX* context, const Pace& pace);
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  /// Says goodbye and closes the socket.
  ~Connection() override;

  /// The TLS handshake; true at once without TLS.
  [[nodiscard]] bool shake_hands();
  /// Waits for the first byte of the next request, and begins to count anew. False too after a fault or one who was too
  /// slow: what still comes is the rest of that request.
  [[nodiscard]] bool next_request(double within_s);

  [[nodiscard]] bool is_readable() const override;
  [[nodiscard]] bool is_writable() const override;
  ssize_t read(char* to, size_t size) override;
  using Stream::write;
  ssize_t write(const char* from, size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;
  [[nodiscard]] socket_t socket() const override { return socket_; }

 private:
  [[nodiscard]] bool wait_for(short events, double at_most_s);
  [[nodiscard]] bool wait_for_more(int tls_result);
  [[nodiscard]] bool wait_in_pace(short events);
  [[nodiscard]] ssize_t fail();
  template <class ByTls, class Plainly>
  [[nodiscard]] ssize_t move_some(short events, const ByTls& by_tls, const Plainly& plainly);
  [[nodiscard]] ssize_t receive(char* to, size_t size);
  [[nodiscard]] ssize_t send_some(const char* from, size_t size);

  socket_t socket_;
  Pace pace_;
  std::unique_ptr<SSL, void (*)(SSL*)> tls_;
  bool broken_ = false;    ///< TLS forbids a goodbye after a fault
  bool over_ = false;      ///< a fault, or one who was too slow
  double waited_s_ = 0.0;  ///< for this request
  double moved_byte_ = 0.0;
  std::array<char, 4096> taken_{};  ///< read ahead: the web library asks byte by byte
  size_t taken_from_ = 0, taken_to_ = 0;
};

/// How many connections each address has open, so that no machine of the network takes all threads.
class ConnectionLimiter {
 public:
  explicit ConnectionLimiter(int most_of_one) : most_of_one_(most_of_one) {}

  /// One connection of an address, for as long as it lives.
  class Visit {
   public:
    Visit(ConnectionLimiter& guests, const Connection& connection);
    Visit(const Visit&) = delete;
    Visit& operator=(const Visit&) = delete;
    ~Visit();
    /// False when the address had its share already. This machine's own may open any number.
    [[nodiscard]] bool welcome() const noexcept { return welcome_; }

   private:
    ConnectionLimiter& guests_;
    std::string address_;
    bool welcome_ = true;
  };

 private:
  int most_of_one_;
  std::mutex mutex_;
  std::map<std::string, int> open_;
};

}  // namespace stillheap::server

#include "present/server/connection.hpp"

#include <arpa/inet.h>
#include <fcntl.h>
#include <netinet/in.h>
#include <openssl/err.h>
#include <openssl/ssl.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <climits>
#include <cmath>

namespace stillheap::server {
namespace {

using Clock = std::chrono::steady_clock;
constexpr const char* this_machine = "127.0.0.1";

double seconds_since(Clock::time_point begun) { return std::chrono::duration<double>(Clock::now() - begun).count(); }

SSL* tls_on(socket_t socket, SSL_CTX* context) {
  if (context == nullptr) return nullptr;
  SSL* const tls = SSL_new(context);
  if (tls == nullptr) return nullptr;
  // What is written again after a wait may lie elsewhere, and part of it may have gone.
  SSL_set_mode(tls, SSL_MODE_ACCEPT_MOVING_WRITE_BUFFER | SSL_MODE_ENABLE_PARTIAL_WRITE);
  SSL_set_fd(tls, socket);
  return tls;
}

void get_address(const sockaddr_storage& from, std::string& ip, int& port) {
  if (from.ss_family != AF_INET) return;  // the only kind that is listened on
  const auto& four = reinterpret_cast<const sockaddr_in&>(from);
  std::array<char, INET_ADDRSTRLEN> text{};
  if (::inet_ntop(AF_INET, &four.sin_addr, text.data(), text.size()) == nullptr) return;
  ip = text.data();
  port = ntohs(four.sin_port);
}

int length_of(size_t size) { return static_cast<int>(std::min<size_t>(size, INT_MAX)); }

}  // namespace

Connection::Connection(socket_t socket, SSL_CTX* context, const Pace& pace)
    : socket_(socket), pace_(pace), tls_(tls_on(socket, context), &SSL_free) {
  broken_ = context != nullptr && tls_ == nullptr;
  ::fcntl(socket_, F_SETFL, ::fcntl(socket_, F_GETFL, 0) | O_NONBLOCK);
}

Connection::~Connection() {
  if (tls_ != nullptr && !broken_) SSL_shutdown(tls_.get());
  ::shutdown(socket_, SHUT_RDWR);
  ::close(socket_);
}

bool Connection::wait_for(short events, double at_most_s) {
  if (at_most_s <= 0.0) return false;
  const auto begun = Clock::now();
  double left_s = at_most_s;
  int ready = 0;
  do {
    pollfd one{socket_, events, 0};
    ready = ::poll(&one, 1, static_cast<int>(std::ceil(left_s * 1000.0)));
    left_s = at_most_s - seconds_since(begun);
  } while (ready < 0 && errno == EINTR && left_s > 0.0);
  waited_s_ += at_most_s - left_s;
  return ready > 0;
}

bool Connection::wait_in_pace(short events) {
  const double allowed_s = pace_.head_start_s + moved_byte_ / pace_.least_byte_s;
  return wait_for(events, std::min(pace_.silence_s, allowed_s - waited_s_));
}

/// After a call of the TLS library that could not go on.
bool Connection::wait_for_more(int tls_result) {
  switch (SSL_get_error(tls_.get(), tls_result)) {
    case SSL_ERROR_WANT_READ:
      return wait_in_pace(POLLIN);
    case SSL_ERROR_WANT_WRITE:
      return wait_in_pace(POLLOUT);
    case SSL_ERROR_ZERO_RETURN:
      return false;
    default:
      broken_ = true;
      return false;
  }
}

bool Connection::shake_hands() {
  if (tls_ == nullptr) return !broken_;
  for (;;) {
    ERR_clear_error();
    const int result = SSL_accept(tls_.get());
    if (result == 1) return true;
    if (!wait_for_more(result)) {
      broken_ = true;
      return false;
    }
  }
}

bool Connection::next_request(double within_s) {
  if (over_) return false;
  const bool there = is_readable() || wait_for(POLLIN, within_s);
  waited_s_ = 0.0;
  moved_byte_ = 0.0;
  return there;
}

bool Connection::is_readable() const {
  if (taken_from_ < taken_to_ || (tls_ != nullptr && SSL_pending(tls_.get()) > 0)) return true;
  pollfd one{socket_, POLLIN, 0};
  return ::poll(&one, 1, 0) > 0;
}

bool Connection::is_writable() const {
  pollfd one{socket_, POLLOUT, 0};
  return !broken_ && ::poll(&one, 1, 0) > 0;
}

ssize_t Connection::fail() {
  over_ = true;
  return -1;
}

/// Bytes moved by the TLS library or plainly, 0 at the end, -1 for a fault or one who is too slow.
template <class ByTls, class Plainly>
ssize_t Connection::move_some(short events, const ByTls& by_tls, const Plainly& plainly) {
  for (;;) {
    if (tls_ != nullptr) {
      ERR_clear_error();
      const int moved = by_tls();
      if (moved > 0) return moved;
      if (!wait_for_more(moved)) return fail();
    } else {
      const ssize_t moved = plainly();
      if (moved >= 0) return moved;
      if (errno == EINTR) continue;
      if ((errno != EAGAIN && errno != EWOULDBLOCK) || !wait_in_pace(events)) return fail();
    }
  }
}

ssize_t Connection::receive(char* to, size_t size) {
  return move_some(
      POLLIN, [&] { return SSL_read(tls_.get(), to, length_of(size)); }, [&] { return ::recv(socket_, to, size, 0); });
}

ssize_t Connection::read(char* to, size_t size) {
  if (taken_from_ == taken_to_) {
    const ssize_t got = receive(taken_.data(), taken_.size());
    if (got <= 0) return got;
    moved_byte_ += static_cast<double>(got);
    taken_from_ = 0;
    taken_to_ = static_cast<size_t>(got);
  }
  const size_t count = std::min(size, taken_to_ - taken_from_);
  std::copy_n(taken_.data() + taken_from_, count, to);
  taken_from_ += count;
  return static_cast<ssize_t>(count);
}

ssize_t Connection::send_some(const char* from, size_t size) {
  return move_some(
      POLLOUT, [&] { return SSL_write(tls_.get(), from, length_of(size)); },
      [&] { return ::send(socket_, from, size, MSG_NOSIGNAL); });
}

ssize_t Connection::write(const char* from, size_t size) {
  for (size_t done = 0; done < size;) {
    const ssize_t sent = send_some(from + done, size - done);
    if (sent <= 0) return -1;
    moved_byte_ += static_cast<double>(sent);
    done += static_cast<size_t>(sent);
  }
  return static_cast<ssize_t>(size);
}

void Connection::get_remote_ip_and_port(std::string& ip, int& port) const {
  sockaddr_storage from{};
  socklen_t length = sizeof from;
  if (::getpeername(socket_, reinterpret_cast<sockaddr*>(&from), &length) == 0) get_address(from, ip, port);
}

void Connection::get_local_ip_and_port(std::string& ip, int& port) const {
  sockaddr_storage from{};
  socklen_t length = sizeof from;
  if (::getsockname(socket_, reinterpret_cast<sockaddr*>(&from), &length) == 0) get_address(from, ip, port);
}

ConnectionLimiter::Visit::Visit(ConnectionLimiter& guests, const Connection& connection) : guests_(guests) {
  int port = 0;
  connection.get_remote_ip_and_port(address_, port);
  if (address_ == this_machine) return;
  const std::lock_guard lock(guests_.mutex_);
  int& open = guests_.open_[address_];
  welcome_ = open < guests_.most_of_one_;
  if (welcome_) ++open;
}

ConnectionLimiter::Visit::~Visit() {
  if (!welcome_ || address_ == this_machine) return;
  const std::lock_guard lock(guests_.mutex_);
  const auto found = guests_.open_.find(address_);
  if (found != guests_.open_.end() && --found->second == 0) guests_.open_.erase(found);
}

}  // namespace stillheap::server

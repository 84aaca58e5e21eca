#include "present/server/connection.hpp"

#include <fcntl.h>
#include <openssl/err.h>
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
constexpr double linger_s = 2.0;                     // chosen: a radio's worst round trip
constexpr std::size_t most_thrown_away = 4U << 20U;  // chosen

double seconds_since(Clock::time_point begun) { return std::chrono::duration<double>(Clock::now() - begun).count(); }

SSL* tls_on(int socket, SSL_CTX* context) {
  if (context == nullptr) return nullptr;
  SSL* const tls = SSL_new(context);
  if (tls == nullptr) return nullptr;
  // What is written again after a wait may lie elsewhere, and part of it may have gone.
  SSL_set_mode(tls, SSL_MODE_ACCEPT_MOVING_WRITE_BUFFER | SSL_MODE_ENABLE_PARTIAL_WRITE);
  SSL_set_fd(tls, socket);
  return tls;
}

int length_of(size_t size) { return static_cast<int>(std::min<size_t>(size, INT_MAX)); }

}  // namespace

Connection::Connection(int socket, SSL_CTX* context, const Pace& pace)
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

bool Connection::next_request(bool came_already, double within_s) {
  if (over_) return false;
  const bool there = came_already || is_readable() || wait_for(POLLIN, within_s);
  waited_s_ = 0.0;
  moved_byte_ = 0.0;
  return there;
}

bool Connection::is_readable() const {
  if (tls_ != nullptr && SSL_pending(tls_.get()) > 0) return true;
  pollfd one{socket_, POLLIN, 0};
  return ::poll(&one, 1, 0) > 0;
}

bool Connection::is_left() {
  pollfd one{socket_, POLLRDHUP, 0};
  return over_ || broken_ || (::poll(&one, 1, 0) > 0 && (one.revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0);
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
  const ssize_t got = receive(to, size);
  if (got > 0) moved_byte_ += static_cast<double>(got);
  return got;
}

ssize_t Connection::send_some(const char* from, size_t size) {
  return move_some(
      POLLOUT, [&] { return SSL_write(tls_.get(), from, length_of(size)); },
      [&] { return ::send(socket_, from, size, MSG_NOSIGNAL); });
}

bool Connection::write(const char* from, size_t size) {
  for (size_t done = 0; done < size;) {
    const ssize_t sent = send_some(from + done, size - done);
    if (sent <= 0) return false;
    moved_byte_ += static_cast<double>(sent);
    done += static_cast<size_t>(sent);
  }
  return true;
}

void Connection::linger() {
  if (over_ || broken_) return;
  if (tls_ != nullptr) SSL_shutdown(tls_.get());
  ::shutdown(socket_, SHUT_WR);
  std::array<char, 16384> nowhere{};
  const auto begun = Clock::now();
  for (std::size_t thrown = 0; thrown < most_thrown_away;) {
    if (!wait_for(POLLIN, linger_s - seconds_since(begun))) return;
    const ssize_t got = ::recv(socket_, nowhere.data(), nowhere.size(), 0);  // of TLS too: nobody reads it any more
    if (got <= 0) return;
    thrown += static_cast<std::size_t>(got);
  }
}

}  // namespace stillheap::server

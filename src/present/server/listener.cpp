#include "present/server/listener.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdint>

#include "core/base/error.hpp"

namespace stillheap::server {
namespace {

constexpr int most_at_the_door = 256;  // chosen: connections that the system keeps until they are taken
constexpr int quiet_ms = 250;          // chosen
constexpr int out_of_files_ms = 50;    // chosen: until another try when no file can be opened

int bound_socket(const char* address, int port) {
  const int made = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
  const int yes = 1;
  ::setsockopt(made, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  sockaddr_in at{};
  at.sin_family = AF_INET;
  at.sin_port = htons(static_cast<std::uint16_t>(port));
  ::inet_pton(AF_INET, address, &at.sin_addr);
  if (::bind(made, reinterpret_cast<const sockaddr*>(&at), sizeof at) == 0 && ::listen(made, most_at_the_door) == 0) {
    return made;
  }
  ::close(made);
  throw InputError("--port", "= " + std::to_string(port) + " is taken or not allowed", "choose another");
}

int port_of(int socket) {
  sockaddr_in at{};
  socklen_t size = sizeof at;
  return ::getsockname(socket, reinterpret_cast<sockaddr*>(&at), &size) == 0 ? ntohs(at.sin_port) : 0;
}

}  // namespace

Listener::Listener(const char* address, int port)
    : socket_(bound_socket(address, port)), ended_(::eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK)), port_(port_of(socket_)) {
  if (ended_ < 0) throw RunError("server", "cannot open another file", "end other programs, or raise ulimit -n");
}

Listener::~Listener() {
  ::close(socket_);
  ::close(ended_);
}

std::optional<Listener::Caller> Listener::next() {
  while (true) {
    std::array<pollfd, 2> both{pollfd{socket_, POLLIN, 0}, pollfd{ended_, POLLIN, 0}};
    const int ready = ::poll(both.data(), both.size(), quiet_ms);
    if (ready > 0 && both[1].revents != 0) return std::nullopt;
    if (ready <= 0) return Caller{};
    sockaddr_in from{};
    socklen_t size = sizeof from;
    const int taken = ::accept4(socket_, reinterpret_cast<sockaddr*>(&from), &size, SOCK_CLOEXEC | SOCK_NONBLOCK);
    if (taken < 0) {
      if (errno == EMFILE || errno == ENFILE || errno == ENOMEM) (void)::poll(&both[1], 1, out_of_files_ms);
      continue;
    }
    const int yes = 1;
    ::setsockopt(taken, IPPROTO_TCP, TCP_NODELAY, &yes, sizeof yes);
    std::array<char, INET_ADDRSTRLEN> text{};
    (void)::inet_ntop(AF_INET, &from.sin_addr, text.data(), text.size());
    return Caller{taken, text.data(), ntohs(from.sin_port)};
  }
}

void Listener::close() noexcept {
  const std::uint64_t one = 1;
  (void)!::write(ended_, &one, sizeof one);
}

}  // namespace stillheap::server

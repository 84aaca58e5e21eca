#include "present/server/guests.hpp"

#include <sys/socket.h>

#include <algorithm>

namespace stillheap::server {
namespace {

bool of_this_machine(const std::string& address) { return address == "127.0.0.1"; }

}  // namespace

Guests::Entry Guests::admit(int socket, const std::string& address) {
  const std::lock_guard lock(mutex_);
  std::size_t& of_this = of_one_[address];
  if (!of_this_machine(address) && of_this >= limits_.most_of_one) return guests_.end();
  if (guests_.size() >= limits_.served_at_once) {
    const bool made_room = send_one_off() || (guests_.size() >= limits_.most && send_one_off_of_the_most());
    // Whoever was sent off still counts until a thread has seen it.
    if (guests_.size() >= 2 * limits_.most || (guests_.size() >= limits_.most && !made_room)) {
      if (of_this == 0) of_one_.erase(address);
      return guests_.end();
    }
  }
  ++of_this;
  return guests_.insert(guests_.end(), Guest{socket, address, Clock::now(), false, false});
}

void Guests::make_room(std::size_t count) {
  const std::lock_guard lock(mutex_);
  for (; count > 0 && send_one_off(); --count) {
  }
}

bool Guests::send_one_off() {
  const auto longest = Clock::now() - patience;
  auto oldest = guests_.end();
  for (auto one = guests_.begin(); one != guests_.end(); ++one) {
    if (one->trusted || one->sent_off || one->since > longest) continue;
    if (oldest == guests_.end() || one->since < oldest->since) oldest = one;
  }
  return cut(oldest);
}

bool Guests::send_one_off_of_the_most() {
  auto chosen = guests_.end();
  std::size_t most = 1;  // whoever has one connection alone is left in peace
  for (auto one = guests_.begin(); one != guests_.end(); ++one) {
    const std::size_t of_this = of_one_.at(one->address);
    if (one->trusted || one->sent_off || of_this <= most) continue;
    most = of_this;
    chosen = one;  // the first of its address is its oldest
  }
  return cut(chosen);
}

bool Guests::cut(Entry guest) {
  if (guest == guests_.end()) return false;
  guest->sent_off = true;
  ::shutdown(guest->socket, SHUT_RDWR);  // whoever serves it sees its end
  return true;
}

void Guests::leave(Entry guest) {
  const std::lock_guard lock(mutex_);
  const auto counted = of_one_.find(guest->address);
  if (counted != of_one_.end() && --counted->second == 0) of_one_.erase(counted);
  guests_.erase(guest);
}

void Guests::begin(Entry guest) {
  const std::lock_guard lock(mutex_);
  guest->since = Clock::now();
  guest->trusted = false;
}

void Guests::trust(Entry guest) {
  const std::lock_guard lock(mutex_);
  guest->trusted = true;
}

void Guests::send_all_off(bool at_once) {
  const std::lock_guard lock(mutex_);
  for (Guest& one : guests_) {
    one.sent_off = true;
    ::shutdown(one.socket, at_once ? SHUT_RDWR : SHUT_RD);
  }
}

bool Guests::empty() {
  const std::lock_guard lock(mutex_);
  return guests_.empty();
}

}  // namespace stillheap::server

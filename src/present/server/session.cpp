#include "present/server/session.hpp"

#include <sodium.h>

#include <algorithm>
#include <array>

#include "yard/record/ident.hpp"

namespace stillheap::server {

std::string Sessions::open(Clock::time_point now) {
  std::array<unsigned char, 32> random{};
  randombytes_buf(random.data(), random.size());
  std::array<char, 65> text{};
  sodium_bin2hex(text.data(), text.size(), random.data(), random.size());
  std::string token(text.data());
  const std::lock_guard lock(mutex_);
  std::erase_if(ends_, [&](const auto& one) { return one.second <= now; });
  if (ends_.size() >= most) {
    ends_.erase(
        std::min_element(ends_.begin(), ends_.end(), [](const auto& a, const auto& b) { return a.second < b.second; }));
  }
  ends_[record::sha256_hex(token)] = now + longest;
  return token;
}

bool Sessions::holds(const std::string& token, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  const auto found = ends_.find(record::sha256_hex(token));
  return found != ends_.end() && found->second > now;
}

void Sessions::close(const std::string& token) {
  const std::lock_guard lock(mutex_);
  ends_.erase(record::sha256_hex(token));
}

bool LoginLimit::take(const std::string& address, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  std::erase_if(by_address_, [&](const auto& one) { return now - one.second.since >= window; });
  if (by_address_.size() >= most_addresses && !by_address_.contains(address)) {
    by_address_.erase(std::min_element(by_address_.begin(), by_address_.end(),
                                       [](const auto& a, const auto& b) { return a.second.since < b.second.since; }));
  }
  const auto [count, is_new] = by_address_.try_emplace(address, Count{0, now});
  if (count->second.guesses >= most_guesses) return false;
  ++count->second.guesses;
  return true;
}

void LoginLimit::was_right(const std::string& address) {
  const std::lock_guard lock(mutex_);
  by_address_.erase(address);
}

}  // namespace stillheap::server

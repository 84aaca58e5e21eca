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

void LoginLimit::age(Count& count, Clock::time_point now) {
  if (count.failures > 0 && now - count.since >= window) count = {};
}

bool LoginLimit::allows(const std::string& address, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  for (auto& [one, count] : by_address_) age(count, now);
  std::erase_if(by_address_, [](const auto& one) { return one.second.failures == 0; });
  age(all_, now);
  const auto found = by_address_.find(address);
  return all_.failures < most_failures_all && (found == by_address_.end() || found->second.failures < most_failures);
}

void LoginLimit::failed(const std::string& address, Clock::time_point now) {
  const std::lock_guard lock(mutex_);
  for (Count* count : {&by_address_[address], &all_}) {
    if (count->failures++ == 0) count->since = now;
  }
}

}  // namespace stillheap::server

#include "present/server/addresses.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>

#include <array>
#include <memory>

namespace stillheap::server {

std::vector<std::string> network_addresses() {
  ifaddrs* first = nullptr;
  if (getifaddrs(&first) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&freeifaddrs)> owner(first, &freeifaddrs);
  std::vector<std::string> found;
  for (const ifaddrs* one = first; one != nullptr; one = one->ifa_next) {
    const bool up = (one->ifa_flags & IFF_UP) != 0U && (one->ifa_flags & IFF_LOOPBACK) == 0U;
    if (!up || one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    std::array<char, INET_ADDRSTRLEN> text{};
    const auto* address = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
    if (inet_ntop(AF_INET, &address->sin_addr, text.data(), text.size()) != nullptr) found.emplace_back(text.data());
  }
  return found;
}

std::vector<std::string> phone_addresses(const Safety& safety, int port) {
  if (!safety.lan) return {};
  std::vector<std::string> hosts = network_addresses();
  if (!safety.machine_name.empty()) hosts.push_back(safety.machine_name);
  for (std::string& one : hosts) one = (safety.tls ? "https://" : "http://") + one + ":" + std::to_string(port);
  return hosts;
}

}  // namespace stillheap::server

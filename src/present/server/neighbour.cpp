#include "present/server/neighbour.hpp"

#include <unistd.h>

#include <fstream>
#include <sstream>

namespace stillheap::server {
namespace {

/// Port of "0100007F:1F90"; -1 when it is none.
int port_in(const std::string& address) {
  const std::size_t colon = address.find(':');
  if (colon == std::string::npos) return -1;
  try {
    return std::stoi(address.substr(colon + 1), nullptr, 16);
  } catch (const std::exception&) {
    return -1;
  }
}

}  // namespace

std::optional<unsigned> user_of(std::istream& table, int their_port, int our_port) {
  std::string line;
  while (std::getline(table, line)) {
    std::istringstream words(line);
    std::string number, local, remote, state, queues, timer, retransmits;
    unsigned user = 0;
    if (!(words >> number >> local >> remote >> state >> queues >> timer >> retransmits >> user)) continue;
    if (port_in(local) == their_port && port_in(remote) == our_port) return user;
  }
  return std::nullopt;
}

bool is_same_user(int their_port, int our_port) {
  for (const char* const name : {"/proc/net/tcp", "/proc/net/tcp6"}) {  // the second: IPv4 by a socket of version 6
    std::ifstream table(name);
    const auto user = user_of(table, their_port, our_port);
    if (user) return *user == ::geteuid() || *user == 0;
  }
  return false;
}

}  // namespace stillheap::server

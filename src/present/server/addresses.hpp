#pragma once
#include <string>
#include <vector>

#include "present/server/server_context.hpp"

namespace stillheap::server {

/// IPv4 addresses by which other machines of the network reach this one, in the order of its interfaces; those of the
/// machine itself and of interfaces that are down are left out. Empty when the system does not tell.
[[nodiscard]] std::vector<std::string> network_addresses();

/// Where a phone finds the page, as it stands in a browser: by the machine's addresses, then by its name. Nowhere
/// unless the network may ask.
[[nodiscard]] std::vector<std::string> phone_addresses(const Safety& safety, int port);

}  // namespace stillheap::server

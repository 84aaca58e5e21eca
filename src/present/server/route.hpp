#pragma once
#include <optional>
#include <span>
#include <string_view>
#include <variant>

#include "present/server/message.hpp"

namespace stillheap::server {

class House;
struct ServerContext;

using OfYard = Response (*)(ServerContext&, const Request&);  ///< asks the yard: there is none before its site file
using OfHouse = Response (*)(House&, const Request&);         ///< can be asked before

/// One thing that can be asked. docs/openapi.json says the same in full; a test holds the two together.
struct Route {
  std::string_view method;
  std::string_view pattern;  ///< "/api/fills/{fill}/readings"
  std::variant<OfYard, OfHouse> handle;
  std::size_t most_bytes = 64U << 10U;  ///< of the body; chosen for everything typed by hand
  bool without_session = false;         ///< may be asked before the passphrase was given
};

/// Every route there is.
[[nodiscard]] std::span<const Route> routes() noexcept;

/// The parts of a path that a pattern names, or nothing when the path does not follow it.
[[nodiscard]] std::optional<std::map<std::string, std::string>> match(std::string_view pattern, std::string_view path);

struct Found {
  const Route* route = nullptr;  ///< null: nothing here
  std::map<std::string, std::string> named;
  bool other_method = false;  ///< the path is there, but not for this method
};
[[nodiscard]] Found find_route(std::string_view method, std::string_view path);

}  // namespace stillheap::server

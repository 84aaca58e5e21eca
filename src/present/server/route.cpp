#include "present/server/route.hpp"

namespace stillheap::server {
namespace {

/// Cuts the next part off a path: "a/b/c" -> "a", leaving "b/c".
std::string_view next_part(std::string_view& rest) {
  const std::size_t slash = rest.find('/');
  const std::string_view part = rest.substr(0, slash);
  rest = slash == std::string_view::npos ? std::string_view{} : rest.substr(slash + 1);
  return part;
}

}  // namespace

std::optional<std::map<std::string, std::string>> match(std::string_view pattern, std::string_view path) {
  std::map<std::string, std::string> named;
  while (!pattern.empty() && !path.empty()) {
    const std::string_view wanted = next_part(pattern);
    const std::string_view given = next_part(path);
    if (wanted.starts_with('{')) {
      if (given.empty()) return std::nullopt;
      named.emplace(wanted.substr(1, wanted.size() - 2), given);
    } else if (wanted != given) {
      return std::nullopt;
    }
  }
  if (!pattern.empty() || !path.empty()) return std::nullopt;
  return named;
}

Found find_route(std::string_view method, std::string_view path) {
  Found found;
  for (const Route& route : routes()) {
    auto named = match(route.pattern, path);
    if (!named) continue;
    if (route.method == method) return {&route, std::move(*named), false};
    found.other_method = true;
  }
  return found;
}

}  // namespace stillheap::server

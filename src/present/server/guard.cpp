#include "present/server/guard.hpp"

#include <arpa/inet.h>

#include <algorithm>
#include <charconv>

#include "core/base/ascii_low.hpp"
#include "present/server/json.hpp"

namespace stillheap::server {
namespace {

std::string text_of(const Request& ask, const std::string& header) {
  const auto found = ask.header.find(header);
  return found == ask.header.end() ? std::string{} : found->second;
}

/// "localhost:8090" -> "localhost", "[::1]:8090" -> "::1".
std::string_view without_port(std::string_view host) {
  if (host.starts_with('[')) return host.substr(1, std::min(host.find(']'), host.size()) - 1);
  return host.substr(0, host.find(':'));
}

bool is_address(const std::string& host) {
  in6_addr six{};
  in_addr four{};
  return inet_pton(AF_INET, host.c_str(), &four) == 1 || inet_pton(AF_INET6, host.c_str(), &six) == 1;
}

bool same_but_for_case(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return ascii_low(x) == ascii_low(y); });
}

std::optional<Response> refuse_body(const Request& ask, const Route& route) {
  const auto bytes = announced_bytes(ask);
  if (!bytes && ask.method != "POST") return std::nullopt;
  if (!bytes) return problem(411, "request", "does not say how long it is", "send Content-Length");
  if (*bytes > route.most_bytes) return problem(413, "request", "is too large", "send it in smaller parts");
  return std::nullopt;
}

}  // namespace

std::optional<std::size_t> announced_bytes(const Request& ask) {
  const std::string text = text_of(ask, "content-length");
  std::size_t bytes = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), bytes);
  if (text.empty() || read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
  return bytes;
}

bool host_is_ours(std::string_view host, bool lan, std::string_view machine_name) {
  const std::string_view name = without_port(host);
  if (same_but_for_case(name, "localhost") || name == "127.0.0.1" || name == "::1") return true;
  if (!lan || name.empty()) return false;
  if (is_address(std::string(name))) return true;
  return !machine_name.empty() &&
         (same_but_for_case(name, machine_name) || same_but_for_case(name, std::string(machine_name) + ".local"));
}

bool origin_is_ours(const Request& ask, bool tls) {
  return same_but_for_case(text_of(ask, "origin"), std::string(tls ? "https://" : "http://") + text_of(ask, "host"));
}

std::string cookie(const Request& ask, std::string_view name) {
  const std::string all = text_of(ask, "cookie");
  std::string_view rest = all;
  while (!rest.empty()) {
    const std::size_t end = rest.find(';');
    std::string_view one = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
    one.remove_prefix(std::min(one.find_first_not_of(' '), one.size()));
    if (one.size() > name.size() && one.starts_with(name) && one[name.size()] == '=') {
      return std::string(one.substr(name.size() + 1));
    }
  }
  return {};
}

bool comes_from_elsewhere(const Request& ask, bool tls) {
  const std::string site = text_of(ask, "sec-fetch-site");
  const bool opens_the_page = ask.method == "GET" && ask.path == "/" && text_of(ask, "sec-fetch-mode") == "navigate";
  if (!site.empty() && site != "same-origin" && site != "none" && !opens_the_page) return true;
  return ask.header.contains("origin") && !origin_is_ours(ask, tls);
}

bool may_ask(Door& door, const Request& ask) {
  return !door.safety.lan || door.sessions.holds(cookie(ask, session_cookie), Clock::now());
}

std::optional<Response> refuse_stranger(Door& door, const Request& ask) {
  if (may_ask(door, ask)) return std::nullopt;
  return problem(401, "session", "the passphrase was not given yet", "give it on the first page");
}

std::optional<Response> refuse(Door& door, const Request& ask, const Found& found) {
  const Safety& safety = door.safety;
  if (!host_is_ours(text_of(ask, "host"), safety.lan, safety.machine_name)) {
    return problem(421, "request", "is meant for another host", "open the address that the program printed");
  }
  if (comes_from_elsewhere(ask, safety.tls) || (!reads(ask) && !origin_is_ours(ask, safety.tls))) {
    return problem(403, "request", "does not come from this page", "open the page at the address it is sent to");
  }
  if (found.route == nullptr) return std::nullopt;
  if (!found.route->without_session) {
    if (auto stranger = refuse_stranger(door, ask)) return stranger;
  }
  return refuse_body(ask, *found.route);
}

void add_safety_headers(Response& answer, bool tls) {
  const std::pair<const char*, const char*> always[] = {
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; font-src 'self'; connect-src "
       "'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"X-Frame-Options", "DENY"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Permissions-Policy", "camera=(self), geolocation=(), microphone=(), payment=(), usb=()"}};
  for (const auto& [name, value] : always) answer.headers.emplace_back(name, value);
  if (tls) answer.headers.emplace_back("Strict-Transport-Security", "max-age=31536000");
  const auto has_cache = std::any_of(answer.headers.begin(), answer.headers.end(),
                                     [](const auto& one) { return one.first == "Cache-Control"; });
  if (!has_cache) answer.headers.emplace_back("Cache-Control", "no-store");
}

}  // namespace stillheap::server

#include "present/server/guard.hpp"
#include "present/server/handlers.hpp"
#include "present/server/json.hpp"
#include "present/server/passphrase.hpp"

namespace stillheap::server {
namespace {

std::string cookie_text(const std::string& value, long long seconds, bool tls) {
  return std::string(session_cookie) + "=" + value +
         "; Path=/; HttpOnly; SameSite=Strict; Max-Age=" + std::to_string(seconds) + (tls ? "; Secure" : "");
}

Response signed_in(House& house, bool in) {
  return answer(
      Json{{"needs_passphrase", house.door().safety.lan}, {"signed_in", in}, {"has_site", house.yard() != nullptr}});
}

}  // namespace

Response get_session(House& house, const Request& ask) { return signed_in(house, may_ask(house.door(), ask)); }

Response open_session(House& house, const Request& ask) {
  Door& door = house.door();
  if (!door.safety.lan) return signed_in(house, true);
  const Json json = body_json(ask);
  if (!json.is_object() || !json.contains("passphrase") || !json["passphrase"].is_string()) {
    throw InputError("passphrase", "is missing", "give it as a text");
  }
  const Clock::time_point now = Clock::now();
  if (!door.login_limit.take(ask.address, now)) {
    Response refused = problem(429, "passphrase", "was wrong too often", "wait a quarter of an hour");
    refused.headers.emplace_back("Retry-After", "900");
    return refused;
  }
  if (!is_passphrase(door.safety.passphrase_hash, json["passphrase"].get<std::string>())) {
    return problem(401, "passphrase", "is not the right one", "ask whoever started the server");
  }
  door.login_limit.was_right(ask.address);
  Response made = signed_in(house, true);
  const std::chrono::seconds longest = Sessions::longest;
  made.headers.emplace_back("Set-Cookie", cookie_text(door.sessions.open(now), longest.count(), door.safety.tls));
  return made;
}

Response close_session(House& house, const Request& ask) {
  Door& door = house.door();
  door.sessions.close(cookie(ask, session_cookie));
  Response made = signed_in(house, !door.safety.lan);
  made.headers.emplace_back("Set-Cookie", cookie_text("", 0, door.safety.tls));
  return made;
}

}  // namespace stillheap::server

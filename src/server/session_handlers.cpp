#include "server/guard.hpp"
#include "server/handlers.hpp"
#include "server/json.hpp"
#include "server/passphrase.hpp"

namespace stillheap::server {
namespace {

std::string cookie_text(const std::string& value, long long seconds, bool tls) {
  return std::string(session_cookie) + "=" + value +
         "; Path=/; HttpOnly; SameSite=Strict; Max-Age=" + std::to_string(seconds) + (tls ? "; Secure" : "");
}

Answer signed_in(bool lan, bool in) { return answer(Json{{"needs_passphrase", lan}, {"signed_in", in}}); }

}  // namespace

Answer tell_session(House& house, const Ask& ask) {
  const bool lan = house.safety.lan;
  return signed_in(lan, !lan || house.sessions.holds(cookie(ask, session_cookie), Clock::now()));
}

Answer open_session(House& house, const Ask& ask) {
  if (!house.safety.lan) return signed_in(false, true);
  const Clock::time_point now = Clock::now();
  if (!house.login_limit.allows(ask.address, now)) {
    Answer refused = problem(429, "passphrase", "was wrong too often", "wait a quarter of an hour");
    refused.headers.emplace_back("Retry-After", "900");
    return refused;
  }
  const Json json = body_json(ask);
  const bool text = json.is_object() && json.contains("passphrase") && json["passphrase"].is_string();
  if (!text || !is_passphrase(house.safety.passphrase_hash, json["passphrase"].get<std::string>())) {
    house.login_limit.failed(ask.address, now);
    return problem(401, "passphrase", "is not the right one", "ask whoever started the server");
  }
  Answer made = signed_in(true, true);
  const std::chrono::seconds longest = Sessions::longest;
  made.headers.emplace_back("Set-Cookie", cookie_text(house.sessions.open(now), longest.count(), house.safety.tls));
  return made;
}

Answer close_session(House& house, const Ask& ask) {
  house.sessions.close(cookie(ask, session_cookie));
  Answer made = signed_in(house.safety.lan, !house.safety.lan);
  made.headers.emplace_back("Set-Cookie", cookie_text("", 0, house.safety.tls));
  return made;
}

}  // namespace stillheap::server

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

Response signed_in(bool lan, bool in) { return answer(Json{{"needs_passphrase", lan}, {"signed_in", in}}); }

}  // namespace

Response get_session(ServerContext& context, const Request& ask) {
  const bool lan = context.safety.lan;
  return signed_in(lan, !lan || context.sessions.holds(cookie(ask, session_cookie), Clock::now()));
}

Response open_session(ServerContext& context, const Request& ask) {
  if (!context.safety.lan) return signed_in(false, true);
  const Json json = body_json(ask);
  if (!json.is_object() || !json.contains("passphrase") || !json["passphrase"].is_string()) {
    throw InputError("passphrase", "is missing", "give it as a text");
  }
  const Clock::time_point now = Clock::now();
  if (!context.login_limit.take(ask.address, now)) {
    Response refused = problem(429, "passphrase", "was wrong too often", "wait a quarter of an hour");
    refused.headers.emplace_back("Retry-After", "900");
    return refused;
  }
  if (!is_passphrase(context.safety.passphrase_hash, json["passphrase"].get<std::string>())) {
    return problem(401, "passphrase", "is not the right one", "ask whoever started the server");
  }
  context.login_limit.was_right(ask.address);
  Response made = signed_in(true, true);
  const std::chrono::seconds longest = Sessions::longest;
  made.headers.emplace_back("Set-Cookie", cookie_text(context.sessions.open(now), longest.count(), context.safety.tls));
  return made;
}

Response close_session(ServerContext& context, const Request& ask) {
  context.sessions.close(cookie(ask, session_cookie));
  Response made = signed_in(context.safety.lan, !context.safety.lan);
  made.headers.emplace_back("Set-Cookie", cookie_text("", 0, context.safety.tls));
  return made;
}

}  // namespace stillheap::server

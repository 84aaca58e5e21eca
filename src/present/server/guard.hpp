#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "present/server/door.hpp"
#include "present/server/message.hpp"
#include "present/server/route.hpp"

/// What every request has to pass before it is looked at.
namespace stillheap::server {

/// Body length as announced; nothing when it is not announced or no number.
[[nodiscard]] std::optional<std::size_t> announced_bytes(const Request& ask);

/// Whether a Host header may name this server: a name of this machine's loopback, and with `lan` also a plain address
/// or this machine's own name. A page elsewhere that points its own name at us fails here.
[[nodiscard]] bool host_is_ours(std::string_view host, bool lan, std::string_view machine_name);

/// Whether a request that changes something comes from our own page: its Origin must name the very host it is sent to,
/// and by the same scheme.
[[nodiscard]] bool origin_is_ours(const Request& ask, bool tls);

/// Whether a request does not come from a page of somebody else: browsers say where one comes from in Sec-Fetch-Site
/// and, for some, in Origin. Other programs say neither. Opening the page itself by a link is allowed.
[[nodiscard]] bool comes_from_elsewhere(const Request& ask, bool tls);

/// Whether whoever asks gave the passphrase, or none is needed.
[[nodiscard]] bool may_ask(Door& door, const Request& ask);

/// The refusal of one who has not given the passphrase.
[[nodiscard]] std::optional<Response> refuse_stranger(Door& door, const Request& ask);

/// The refusal, or nothing when the request may go on.
[[nodiscard]] std::optional<Response> refuse(Door& door, const Request& ask, const Found& found);

/// Value of a cookie; empty when it is not there.
[[nodiscard]] std::string cookie(const Request& ask, std::string_view name);

inline constexpr std::string_view session_cookie = "stillheap_session";

/// Headers of every answer: what the page may load (only from here), no frames, no guessing of types.
void add_safety_headers(Response& answer, bool tls);

}  // namespace stillheap::server

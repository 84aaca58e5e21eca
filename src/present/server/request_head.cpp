#include "present/server/request_head.hpp"

#include <algorithm>
#include <array>
#include <boost/asio/buffer.hpp>
#include <boost/beast/http.hpp>
#include <cstdint>
#include <limits>
#include <optional>

#include "core/base/ascii_low.hpp"
#include "present/server/guard.hpp"
#include "present/server/json.hpp"

namespace stillheap::server {
namespace {

namespace http = boost::beast::http;
using Parser = http::request_parser<http::buffer_body>;

constexpr std::size_t read_bytes = 4096;
/// What we act on, or what a proxy before us may act on: which of two would count is anybody's guess.
constexpr std::array once{"host",   "origin", "content-length", "content-type", "content-encoding", "transfer-encoding",
                          "cookie", "expect", "sec-fetch-site"};

Response bad(const char* what, int status = 400) {
  return problem(status, "request", what, "ask as docs/openapi.json says");
}

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

/// "%41b" -> "Ab"; nothing when a percent sign stands alone or for the zero byte. `plus`: "+" stands for a space.
std::optional<std::string> decoded(std::string_view text, bool plus) {
  std::string made;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '%') {
      const int value = i + 2 < text.size() && digit(text[i + 1]) >= 0 && digit(text[i + 2]) >= 0
                            ? digit(text[i + 1]) * 16 + digit(text[i + 2])
                            : 0;
      if (value == 0) return std::nullopt;
      made += static_cast<char>(value);
      i += 2;
    } else {
      made += plus && text[i] == '+' ? ' ' : text[i];
    }
  }
  return made;
}

std::string_view cut(std::string_view& rest, char at) {
  const std::size_t end = rest.find(at);
  const std::string_view part = rest.substr(0, end);
  rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
  return part;
}

/// Path and query of "/api/yard?units=us". False when it is none of ours.
bool take_target(std::string_view target, Request& ask) {
  if (!target.starts_with('/')) return false;
  const auto path = decoded(cut(target, '?'), false);
  if (!path) return false;
  ask.path = *path;
  while (!target.empty()) {
    std::string_view one = cut(target, '&');
    const auto name = decoded(cut(one, '='), true);
    const auto value = decoded(one, true);
    if (!name || !value) return false;
    ask.query.emplace(*name, *value);
  }
  return true;
}

/// How long the body is and how it comes; the refusal when that cannot be.
std::optional<Response> take_body_facts(Head& head) {
  const auto& header = head.ask.header;
  const bool told = header.contains("content-length");
  if (header.contains("transfer-encoding")) {
    if (told) return bad("tells its length in two ways");
    return problem(411, "request", "does not say how long it is", "send Content-Length");
  }
  const auto encoding = header.find("content-encoding");
  if (encoding != header.end() && ascii_low(encoding->second) != "identity") {
    return problem(415, "request", "is compressed", "send it as it is");
  }
  if (told) {
    const auto bytes = announced_bytes(head.ask);
    if (!bytes) return bad("has a length that is no number");
    head.body_bytes = *bytes;
  }
  const auto expects = header.find("expect");
  head.waits_for_leave = expects != header.end() && ascii_low(expects->second) == "100-continue";
  if (expects != header.end() && !head.waits_for_leave) return bad("expects what is not known here", 417);
  if (reads(head.ask) && head.body_bytes > 0) return bad("asks with a body");
  return std::nullopt;
}

std::optional<Response> take_fields(const Parser& parser, const HeadLimits& limits, Head& head) {
  const auto& message = parser.get();
  const auto text = [](boost::beast::string_view view) { return std::string_view(view.data(), view.size()); };
  head.ask.method = text(message.method_string());
  head.keeps_open = parser.keep_alive();
  if (!take_target(text(message.target()), head.ask)) return bad("names no address of this page");
  std::size_t count = 0;
  for (const auto& field : message) {
    if (++count > limits.most_fields) return bad("has too many headers", 431);
    const std::string name = ascii_low(text(field.name_string()));
    const bool is_new = head.ask.header.emplace(name, text(field.value())).second;
    if (!is_new && std::find(once.begin(), once.end(), name) != once.end()) return bad("has a header twice");
  }
  return take_body_facts(head);
}

HeadRead refused(Response why) { return {HeadRead::End::refused, {}, std::move(why)}; }

/// What stands at the cap: a line without end, or too many headers.
HeadRead too_long(const std::string& ahead, std::size_t taken) {
  const bool in_first_line = taken == 0 && ahead.find('\n') == std::string::npos;
  return refused(in_first_line ? bad("has a longer address than is taken", 414)
                               : bad("has longer headers than are taken", 431));
}

}  // namespace

HeadRead read_head(ByteStream& from, std::string& ahead, const HeadLimits& limits) {
  Parser parser;
  parser.header_limit(static_cast<std::uint32_t>(limits.most_bytes));
  parser.body_limit(std::numeric_limits<std::uint64_t>::max());  // bodies are read by whoever knows the route's limit
  std::size_t taken = 0;
  while (true) {
    boost::system::error_code error;
    const std::size_t used = ahead.empty() ? 0 : parser.put(boost::asio::buffer(ahead), error);
    ahead.erase(0, used);
    taken += used;
    if (error == http::error::header_limit) return too_long(ahead, taken);
    if (error && error != http::error::need_more) return refused(bad("is no HTTP/1.1 request"));
    if (parser.is_header_done()) break;
    if (taken + ahead.size() > limits.most_bytes) return too_long(ahead, taken);
    std::array<char, read_bytes> more{};
    const ssize_t got = from.read(more.data(), more.size());
    if (got <= 0) return {};
    ahead.append(more.data(), static_cast<std::size_t>(got));
  }
  HeadRead made;
  if (auto why = take_fields(parser, limits, made.head)) return refused(std::move(*why));
  made.end = HeadRead::End::whole;
  return made;
}

}  // namespace stillheap::server

#include "present/server/exchange.hpp"

#include <algorithm>
#include <boost/beast/http/status.hpp>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <vector>

#include "present/server/guard.hpp"
#include "present/server/json.hpp"
#include "present/server/serve.hpp"

namespace stillheap::server {
namespace {

constexpr std::size_t read_bytes = 64U << 10U;

std::uintmax_t length_of(const Response& answer) {
  return answer.file ? std::filesystem::file_size(answer.file->file()) : answer.body.size();
}

/// Until nothing more comes, or nobody reads any more.
void send_on(ByteStream& line, const std::function<bool(std::string&)>& more) {
  std::string piece;
  while (!line.is_left() && more(piece) && line.write(piece.data(), piece.size())) piece.clear();
}

/// Piece by piece. False when it could not be sent as long as was told.
bool send_file(ByteStream& line, const std::filesystem::path& file, std::uintmax_t left) {
  std::ifstream in(file, std::ios::binary);
  std::vector<char> piece(read_bytes);
  while (left > 0) {
    in.read(piece.data(), static_cast<std::streamsize>(std::min<std::uintmax_t>(left, piece.size())));
    const auto got = static_cast<std::size_t>(in.gcount());
    if (got == 0 || !line.write(piece.data(), got)) return false;
    left -= got;
  }
  return true;
}

std::string in_one_line(std::string_view text) {
  std::string made(text);
  std::erase_if(made, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
  return made;
}

}  // namespace

std::string head_text(const Response& answer, bool keeps_open) {
  const auto reason = boost::beast::http::obsolete_reason(static_cast<boost::beast::http::status>(answer.status));
  std::string text = "HTTP/1.1 " + std::to_string(answer.status) + " " + std::string(reason.data(), reason.size()) +
                     "\r\nContent-Type: " + in_one_line(answer.type) + "\r\n";
  if (!answer.more) text += "Content-Length: " + std::to_string(length_of(answer)) + "\r\n";
  for (const auto& [name, value] : answer.headers) text += name + ": " + in_one_line(value) + "\r\n";
  return text + (keeps_open ? "Connection: keep-alive\r\n\r\n" : "Connection: close\r\n\r\n");
}

Exchange::Exchange(House& house, const StaticFiles& page, ByteStream& line, std::string address,
                   std::function<void()> trust)
    : house_(house), page_(page), line_(line), address_(std::move(address)), trust_(std::move(trust)) {}

bool Exchange::send(const Response& answer, const Request& ask, bool keeps_open) {
  if (answer.more) keeps_open = false;
  const std::string head = head_text(answer, keeps_open);
  if (!line_.write(head.data(), head.size())) return false;
  if (ask.method == "HEAD") return keeps_open;
  if (answer.file) return send_file(line_, answer.file->file(), length_of(answer)) && keeps_open;
  if (answer.more) send_on(line_, answer.more);
  return line_.write(answer.body.data(), answer.body.size()) && keeps_open;
}

bool Exchange::refuse(const Response& refusal, const Request& ask) {
  left_unread_ = true;
  (void)send(refusal, ask, false);
  return false;
}

/// As long as was told and no longer: memory grows with what has come, not with what was told.
bool Exchange::read_body(Head& head) {
  std::string& body = head.ask.body;
  const std::size_t there = std::min(head.body_bytes, ahead_.size());
  body.assign(ahead_, 0, there);
  ahead_.erase(0, there);
  while (body.size() < head.body_bytes) {
    const std::size_t before = body.size();
    const std::size_t wanted = std::min(read_bytes, head.body_bytes - before);
    body.resize(before + wanted);
    const ssize_t got = line_.read(body.data() + before, wanted);
    if (got <= 0) return false;
    body.resize(before + static_cast<std::size_t>(got));
  }
  return true;
}

bool Exchange::serve_one() {
  HeadRead read = read_head(line_, ahead_);
  if (read.end == HeadRead::End::closed) return false;
  Head& head = read.head;
  head.ask.address = address_;
  if (read.end == HeadRead::End::refused) {
    add_safety_headers(read.refusal, house_.door().safety.tls);
    return refuse(read.refusal, head.ask);
  }
  if (const auto refusal = respond_early(house_, page_, head.ask)) {
    return head.body_bytes > 0 ? refuse(*refusal, head.ask) : send(*refusal, head.ask, head.keeps_open);
  }
  if (trust_ && may_ask(house_.door(), head.ask)) trust_();
  const BodyRoom::Place place = house_.door().body_room.take(head.body_bytes);
  if (!place) {
    Response busy = problem(503, "request", "has to wait: much else is being sent", "send it again in a minute");
    busy.headers.emplace_back("Retry-After", "60");
    add_safety_headers(busy, house_.door().safety.tls);
    return refuse(busy, head.ask);
  }
  static constexpr std::string_view go_on = "HTTP/1.1 100 Continue\r\n\r\n";
  if (head.waits_for_leave && head.body_bytes > 0 && !line_.write(go_on.data(), go_on.size())) return false;
  if (!read_body(head)) return false;
  return send(respond(house_, page_, head.ask), head.ask, head.keeps_open);
}

}  // namespace stillheap::server

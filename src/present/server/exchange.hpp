#pragma once
#include <functional>
#include <string>

#include "present/server/house.hpp"
#include "present/server/request_head.hpp"
#include "present/server/static_files.hpp"

namespace stillheap::server {

/// One connection's requests, one after the other.
class Exchange {
 public:
  /// `address`: of who asks. `trust` is called when a request turns out to be of somebody who may ask.
  Exchange(House& house, const StaticFiles& page, ByteStream& line, std::string address,
           std::function<void()> trust = {});

  /// Reads one request and answers it. False when the connection is to be closed: at its end, after a refusal whose
  /// body was not read, or when the other side wants it so.
  [[nodiscard]] bool serve_one();
  /// Whether bytes of another request came already.
  [[nodiscard]] bool has_more() const noexcept { return !ahead_.empty(); }
  /// Whether something was refused unread: who sends it may not have seen the answer yet.
  [[nodiscard]] bool left_unread() const noexcept { return left_unread_; }

 private:
  [[nodiscard]] bool refuse(const Response& refusal, const Request& ask);
  [[nodiscard]] bool read_body(Head& head);
  [[nodiscard]] bool send(const Response& answer, const Request& ask, bool keeps_open);

  House& house_;
  const StaticFiles& page_;
  ByteStream& line_;
  std::string address_;
  std::function<void()> trust_;
  std::string ahead_;
  bool left_unread_ = false;
};

/// The first lines of an answer, up to the empty one. Line breaks in values are left out.
[[nodiscard]] std::string head_text(const Response& answer, bool keeps_open);

}  // namespace stillheap::server

#pragma once
#include <cstddef>
#include <string>

#include "present/server/byte_stream.hpp"
#include "present/server/message.hpp"

/// The first part of a request: its line and its headers, under hard caps. What lies beyond a cap is never kept.
namespace stillheap::server {

/// All chosen: what browsers send is a tenth of it.
struct HeadLimits {
  std::size_t most_bytes = 16U << 10U;  ///< line and headers together; no more than this is ever in memory
  std::size_t most_fields = 64;
};

struct Head {
  Request ask;                   ///< without its body
  std::size_t body_bytes = 0;    ///< as told
  bool keeps_open = false;       ///< the connection may serve another request
  bool waits_for_leave = false;  ///< "Expect: 100-continue": the body comes when it is asked for
};

struct HeadRead {
  enum class End { whole, closed, refused };
  End end = End::closed;
  Head head;
  Response refusal;  ///< when refused
};

/// Reads one head. `ahead` holds bytes that came already and keeps those that come after the head; it never grows
/// beyond the cap and one read. Refuses with 400 what is no HTTP/1 request, a header twice that may stand once, both
/// ways of telling a length; 411 chunked bodies; 414 and 431 what is longer than `limits`; 415 compressed bodies; 417
/// other expectations.
[[nodiscard]] HeadRead read_head(ByteStream& from, std::string& ahead, const HeadLimits& limits = {});

}  // namespace stillheap::server

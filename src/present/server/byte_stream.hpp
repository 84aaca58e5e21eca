#pragma once
#include <sys/types.h>

#include <cstddef>

namespace stillheap::server {

/// Where a request comes from and its answer goes: a browser's connection, or bytes in memory in tests.
class ByteStream {
 public:
  ByteStream() = default;
  ByteStream(const ByteStream&) = delete;
  ByteStream& operator=(const ByteStream&) = delete;
  virtual ~ByteStream() = default;
  /// Some bytes, at most `size`; 0 at the end, -1 after a fault.
  [[nodiscard]] virtual ssize_t read(char* to, std::size_t size) = 0;
  /// All of them, or false.
  [[nodiscard]] virtual bool write(const char* from, std::size_t size) = 0;
  /// Whether the other side has gone, or is sent off; may be told late.
  [[nodiscard]] virtual bool is_left() { return false; }
};

}  // namespace stillheap::server

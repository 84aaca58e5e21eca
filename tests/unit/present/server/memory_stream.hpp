#pragma once
#include <algorithm>
#include <string>

#include "present/server/byte_stream.hpp"

namespace stillheap::server {

/// A connection in memory: what the other side sends, a few bytes at a time, and what it is sent.
class MemoryStream final : public ByteStream {
 public:
  explicit MemoryStream(std::string sent, std::size_t at_once = 4096) : sent_(std::move(sent)), at_once_(at_once) {}
  [[nodiscard]] ssize_t read(char* to, std::size_t size) override {
    const std::size_t count = std::min({size, at_once_, sent_.size() - at_});
    std::copy_n(sent_.data() + at_, count, to);
    at_ += count;
    return static_cast<ssize_t>(count);
  }
  [[nodiscard]] bool write(const char* from, std::size_t size) override {
    got_.append(from, size);
    return true;
  }
  [[nodiscard]] const std::string& got() const noexcept { return got_; }
  /// How many bytes were taken.
  [[nodiscard]] std::size_t taken() const noexcept { return at_; }

 private:
  std::string sent_, got_;
  std::size_t at_once_, at_ = 0;
};

}  // namespace stillheap::server

#pragma once
#include <cstdint>

namespace stillheap {

/// A short print of bytes, to tell whether two are the same; not against forgery. FNV-1a, 64 bits. Source: Fowler, Noll
/// & Vo; offset basis and prime from memory.
class Fingerprint {
 public:
  /// Takes in whole runs of bytes.
  template <class Bytes>
  void add(const Bytes& bytes) noexcept {
    for (const auto byte : bytes) value_ = (value_ ^ static_cast<std::uint8_t>(byte)) * 0x100000001b3;
  }
  [[nodiscard]] std::uint64_t value() const noexcept { return value_; }

 private:
  std::uint64_t value_ = 0xcbf29ce484222325;
};

}  // namespace stillheap

#pragma once
#include <sodium.h>

#include <string>
#include <string_view>

namespace stillheap::record {

/// SHA-256 of bytes that come piece by piece.
class Sha256 {
 public:
  Sha256();
  void add(std::string_view bytes);
  /// In lower-case hexadecimal digits. Nothing can be added afterwards.
  [[nodiscard]] std::string hex();

 private:
  crypto_hash_sha256_state state_{};
};

}  // namespace stillheap::record

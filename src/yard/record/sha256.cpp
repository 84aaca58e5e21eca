#include "yard/record/sha256.hpp"

#include <array>

namespace stillheap::record {

Sha256::Sha256() { crypto_hash_sha256_init(&state_); }

void Sha256::add(std::string_view bytes) {
  crypto_hash_sha256_update(&state_, static_cast<const unsigned char*>(static_cast<const void*>(bytes.data())),
                            bytes.size());
}

std::string Sha256::hex() {
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256_final(&state_, hash.data());
  constexpr const char* digits = "0123456789abcdef";
  std::string text;
  for (const unsigned char byte : hash) {
    text += digits[byte >> 4U];
    text += digits[byte & 0x0FU];
  }
  return text;
}

}  // namespace stillheap::record

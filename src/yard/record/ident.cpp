#include "yard/record/ident.hpp"

#include <sodium.h>

#include <chrono>

#include "core/base/error.hpp"
#include "yard/record/sha256.hpp"

namespace stillheap::record {
namespace {

constexpr const char* digits = "0123456789abcdef";

void make_ready() {
  if (sodium_init() < 0) throw RunError("", "no random numbers can be had from the system", "restart the machine");
}

int digit_value(char c) noexcept {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

constexpr bool dash_stands_at(std::size_t i) noexcept { return i == 8 || i == 13 || i == 18 || i == 23; }

}  // namespace

std::string new_id() {
  make_ready();
  IdBytes bytes{};
  randombytes_buf(bytes.data(), bytes.size());
  const auto since = std::chrono::system_clock::now().time_since_epoch();
  const auto ms = static_cast<std::uint64_t>(std::chrono::duration_cast<std::chrono::milliseconds>(since).count());
  for (std::size_t i = 0; i < 6; ++i) bytes[i] = static_cast<std::uint8_t>((ms >> (8U * (5U - i))) & 0xFFU);
  bytes[6] = static_cast<std::uint8_t>((bytes[6] & 0x0FU) | 0x70U);  // version 7
  bytes[8] = static_cast<std::uint8_t>((bytes[8] & 0x3FU) | 0x80U);  // the variant of RFC 9562
  return id_text(bytes);
}

std::optional<IdBytes> id_bytes(std::string_view text) noexcept {
  if (text.size() != 36) return std::nullopt;
  IdBytes bytes{};
  std::size_t nibble = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (dash_stands_at(i)) {
      if (text[i] != '-') return std::nullopt;
      continue;
    }
    const int value = digit_value(text[i]);
    if (value < 0) return std::nullopt;
    std::uint8_t& byte = bytes[nibble / 2];
    byte = static_cast<std::uint8_t>((byte << 4U) | static_cast<unsigned>(value));
    ++nibble;
  }
  return bytes;
}

std::string id_text(const IdBytes& bytes) {
  std::string text;
  for (const std::uint8_t byte : bytes) {
    if (dash_stands_at(text.size())) text += '-';
    text += digits[byte >> 4U];
    text += digits[byte & 0x0FU];
  }
  return text;
}

std::string sha256_hex(std::string_view bytes) {
  Sha256 hash;
  hash.add(bytes);
  return hash.hex();
}

}  // namespace stillheap::record

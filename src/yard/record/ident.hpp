#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

/// Ids of entries: UUIDs, made by whoever notes the entry, so that sending one twice stores it once.
namespace stillheap::record {

using IdBytes = std::array<std::uint8_t, 16>;

/// A new UUID of version 7 (RFC 9562: milliseconds first, so that ids sort by time), random from libsodium.
[[nodiscard]] std::string new_id();

/// Reads "018f4d5e-...": 8-4-4-4-12 hexadecimal digits of either case, any version. Nothing for another form.
[[nodiscard]] std::optional<IdBytes> id_bytes(std::string_view text) noexcept;

/// Writes it in lower case.
[[nodiscard]] std::string id_text(const IdBytes& bytes);

/// SHA-256 of bytes in lower-case hexadecimal digits.
[[nodiscard]] std::string sha256_hex(std::string_view bytes);

}  // namespace stillheap::record

#pragma once
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "yard/record/entries.hpp"
#include "yard/record/store.hpp"

/// Photos: bytes in files beside the database, called after their hash, so that nothing can be swapped unseen.
namespace stillheap::record {

inline constexpr long long most_photo_bytes = 30LL << 20U;  // chosen: a phone's photo is 2 to 12 MB

/// "image/jpeg", "image/png" or "image/webp" by the first bytes; empty for anything else. Names are not trusted.
[[nodiscard]] std::string media_type_of(std::string_view bytes) noexcept;

/// Writes the bytes into the photo folder (to the disk, then under their name) and returns the entry for them, to be
/// completed and added. Bytes that are there already are not written again.
/// Throws InputError when they are no picture or too large; RunError when the file cannot be written.
[[nodiscard]] Photo keep_photo(const Store& store, std::string_view bytes);

/// Where a photo's bytes are. Made from the hash alone, so it never leaves the photo folder. Throws InputError when
/// the hash is none.
[[nodiscard]] std::filesystem::path photo_file(const Store& store, const Photo& photo);

/// What is wrong with the kept photos: files missing or changed. Reads them all.
[[nodiscard]] std::vector<std::string> find_photo_damage(const Store& store);

}  // namespace stillheap::record

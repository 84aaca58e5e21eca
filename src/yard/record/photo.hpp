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
/// completed and added. Bytes that are there already, and are what they were, are not written again.
/// Throws InputError when they are no picture or too large; RunError when the file cannot be written.
[[nodiscard]] Photo keep_photo(const Store& store, std::string_view bytes);

/// Where a photo's bytes are. Made from the hash alone, so it never leaves the photo folder. Throws InputError when
/// the hash is none.
[[nodiscard]] std::filesystem::path photo_file(const Store& store, const Photo& photo);

/// After an entry was refused: takes the file away again unless a photo of the records needs it.
void forget_photo(const Store& store, const Photo& photo) noexcept;

/// Whether a file holds the very bytes of a photo.
[[nodiscard]] bool is_sound_photo(const std::filesystem::path& file, const Photo& photo);

/// Writes a file under a name of its own, waits until its bytes are on the disk, then gives it its name, and waits for
/// that. Throws RunError.
void write_durably(const std::filesystem::path& file, std::string_view bytes);

/// What is wrong with the kept photos: files missing or changed. Reads them all.
[[nodiscard]] std::vector<std::string> find_photo_damage(const Store& store);

}  // namespace stillheap::record

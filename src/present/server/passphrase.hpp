#pragma once
#include <filesystem>
#include <string>

namespace stillheap::server {

inline constexpr std::size_t shortest_passphrase = 12;  // chosen

/// Argon2id (libsodium, "interactive" cost) of a passphrase, salted. Throws InputError when it is too short.
[[nodiscard]] std::string hash_passphrase(const std::string& passphrase);
/// Takes a while on purpose; one at a time, so that many guesses cannot fill the memory.
[[nodiscard]] bool is_passphrase(const std::string& hash, const std::string& passphrase);

/// First line of a file that nobody but its owner may read or write. Throws InputError when others may.
[[nodiscard]] std::string read_passphrase(const std::filesystem::path& file);
/// Asks at the terminal without showing what is typed. Throws InputError when there is no terminal.
[[nodiscard]] std::string ask_passphrase();

}  // namespace stillheap::server

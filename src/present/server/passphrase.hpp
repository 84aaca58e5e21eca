#pragma once
#include <filesystem>
#include <string>
#include <string_view>

namespace stillheap::server {

inline constexpr std::size_t shortest_passphrase = 12;  // chosen

/// How long a passphrase is for somebody who guesses: runs ("aaaa", "4567"), rows of the keyboard, repeated parts and
/// the words that everybody tries count as one sign each.
[[nodiscard]] std::size_t guessing_length(std::string_view passphrase);
inline constexpr std::size_t shortest_to_guess = 8;  // chosen

/// Argon2id (libsodium, "interactive" cost) of a passphrase, salted. Throws InputError when it is too short or too
/// easy.
[[nodiscard]] std::string hash_passphrase(const std::string& passphrase);
/// Takes a while on purpose; one at a time, so that many guesses cannot fill the memory.
[[nodiscard]] bool is_passphrase(const std::string& hash, const std::string& passphrase);

/// First line, without its line end of either kind, of a file that nobody but its owner may read or write. Throws
/// InputError when others may.
[[nodiscard]] std::string read_passphrase(const std::filesystem::path& file);
/// Asks at the terminal without showing what is typed. Throws InputError when there is no terminal.
[[nodiscard]] std::string ask_passphrase();

}  // namespace stillheap::server

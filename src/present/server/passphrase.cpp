#include "present/server/passphrase.hpp"

#include <sodium.h>
#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <mutex>

#include "core/base/ascii_low.hpp"
#include "core/base/error.hpp"

namespace stillheap::server {
namespace {

void need_sodium() {
  if (sodium_init() < 0) throw RunError("passphrase", "the cryptography library does not start", "install it anew");
}

/// What guesses begin with; from memory, kept short.
constexpr std::array<std::string_view, 20> tried_first{
    "password", "passphrase", "passwort", "qwertyuiop", "qwertzuiop", "azertyuiop", "asdfghjkl",
    "yxcvbnm",  "zxcvbnm",    "letmein",  "welcome",    "admin",      "iloveyou",   "stillheap",
    "compost",  "monkey",     "dragon",   "football",   "secret",     "login"};

/// Length of the run of equal or neighbouring signs that begins here.
std::size_t run_at(std::string_view text, std::size_t at) {
  std::size_t end = at + 1;
  while (end < text.size() && std::abs(text[end] - text[end - 1]) <= 1 &&
         (end == at + 1 || text[end] - text[end - 1] == text[at + 1] - text[at])) {
    ++end;
  }
  return end - at;
}

/// Longest piece beginning here that is also at `other`.
std::size_t same_as(std::string_view text, std::size_t at, std::string_view other) {
  std::size_t length = 0;
  while (at + length < text.size() && length < other.size() && text[at + length] == other[length]) ++length;
  return length;
}

/// Longest cheap piece beginning here; 1 when there is none.
std::size_t cheap_at(std::string_view text, std::size_t at) {
  constexpr std::size_t least = 3;
  std::size_t longest = run_at(text, at);
  for (const std::string_view word : tried_first) {
    for (std::size_t from = 0; from + least < word.size(); ++from) {
      const std::size_t same = same_as(text, at, word.substr(from));
      if (same > least) longest = std::max(longest, same);
    }
  }
  for (std::size_t from = 0; from < at; ++from) longest = std::max(longest, same_as(text, at, text.substr(from)));
  return longest < least ? 1 : longest;
}

/// Typing stays unseen while this lives.
class NoEcho {
 public:
  NoEcho() {
    tcgetattr(STDIN_FILENO, &before_);
    termios quiet = before_;
    quiet.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    tcsetattr(STDIN_FILENO, TCSAFLUSH, &quiet);
  }
  NoEcho(const NoEcho&) = delete;
  NoEcho& operator=(const NoEcho&) = delete;
  ~NoEcho() { tcsetattr(STDIN_FILENO, TCSAFLUSH, &before_); }

 private:
  termios before_{};
};

}  // namespace

std::size_t guessing_length(std::string_view passphrase) {
  const std::string low = ascii_low(passphrase.substr(0, 256));
  std::size_t signs = 0;
  for (std::size_t at = 0; at < low.size(); at += cheap_at(low, at)) ++signs;
  return signs;
}

std::string hash_passphrase(const std::string& passphrase) {
  need_sodium();
  if (passphrase.size() < shortest_passphrase) {
    throw InputError("passphrase", "is too short", "use at least 12 characters; a few plain words are good");
  }
  if (guessing_length(passphrase) < shortest_to_guess) {
    throw InputError("passphrase", "is too easy to guess", "use four plain words that do not belong together");
  }
  std::array<char, crypto_pwhash_STRBYTES> hash{};
  if (crypto_pwhash_str_alg(hash.data(), passphrase.data(), passphrase.size(), crypto_pwhash_OPSLIMIT_INTERACTIVE,
                            crypto_pwhash_MEMLIMIT_INTERACTIVE, crypto_pwhash_ALG_ARGON2ID13) != 0) {
    throw RunError("passphrase", "there is not enough memory to hash it", "free 64 MB");
  }
  return hash.data();
}

bool is_passphrase(const std::string& hash, const std::string& passphrase) {
  static std::mutex one_at_a_time;  // guards memory, holds no state
  const std::lock_guard lock(one_at_a_time);
  return crypto_pwhash_str_verify(hash.c_str(), passphrase.data(), passphrase.size()) == 0;
}

std::string read_passphrase(const std::filesystem::path& file) {
  namespace fs = std::filesystem;
  std::error_code error;
  const fs::perms perms = fs::status(file, error).permissions();
  if (error) throw InputError(file.string(), "cannot be read", "name a file that holds the passphrase");
  if ((perms & (fs::perms::group_all | fs::perms::others_all)) != fs::perms::none) {
    throw InputError(file.string(), "may be read by others on this machine", "run: chmod 600 " + file.string());
  }
  std::ifstream in(file);
  std::string line;
  if (!std::getline(in, line)) throw InputError(file.string(), "is empty", "write the passphrase on its first line");
  if (line.ends_with('\r')) line.pop_back();  // a file from another system
  if (line.starts_with("\xEF\xBB\xBF")) line.erase(0, 3);
  return line;
}

std::string ask_passphrase() {
  if (isatty(STDIN_FILENO) == 0) {
    throw InputError("--lan", "needs a passphrase, and there is no terminal to ask for it",
                     "give --passphrase-file FILE");
  }
  std::fputs("Passphrase for the page: ", stderr);
  const NoEcho quiet;
  std::string line;
  std::getline(std::cin, line);
  std::fputc('\n', stderr);
  return line;
}

}  // namespace stillheap::server

#include "present/server/passphrase.hpp"

#include <sodium.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <mutex>

#include "core/base/error.hpp"

namespace stillheap::server {
namespace {

void need_sodium() {
  if (sodium_init() < 0) throw RunError("passphrase", "the cryptography library does not start", "install it anew");
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

std::string hash_passphrase(const std::string& passphrase) {
  need_sodium();
  if (passphrase.size() < shortest_passphrase) {
    throw InputError("passphrase", "is too short", "use at least 12 characters; a few plain words are good");
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

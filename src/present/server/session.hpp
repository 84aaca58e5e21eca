#pragma once
#include <chrono>
#include <map>
#include <mutex>
#include <string>

/// Who may ask, when the page is open to the network.
namespace stillheap::server {

using Clock = std::chrono::steady_clock;

/// Tokens of those who gave the passphrase. Only their hashes are kept, and only in memory.
class Sessions {
 public:
  static constexpr std::chrono::hours longest{24 * 30};  ///< chosen: a phone out in the yard for a month
  static constexpr std::size_t most = 200;               ///< chosen; the one that ends first makes room

  /// A new random token, 32 bytes in hexadecimal digits.
  [[nodiscard]] std::string open(Clock::time_point now);
  [[nodiscard]] bool holds(const std::string& token, Clock::time_point now);
  void close(const std::string& token);

 private:
  std::mutex mutex_;
  std::map<std::string, Clock::time_point> ends_;  ///< by hash of the token
};

/// Slows down guessing: of one address `most_guesses` are looked at, then none until `window` has passed since the
/// first of them. There is no such limit for all together: whoever guesses would lock the owner out with it.
class LoginLimit {
 public:
  static constexpr int most_guesses = 5;               // chosen: 1,270 in a quarter of an hour from 254 machines
  static constexpr std::size_t most_addresses = 4096;  ///< chosen; the one that began first makes room
  static constexpr std::chrono::minutes window{15};

  /// Counts a guess before it is looked at, so that none of many at once slips through. False: it may not be.
  [[nodiscard]] bool take(const std::string& address, Clock::time_point now);
  /// A guess was right: none of this address count any more.
  void was_right(const std::string& address);

 private:
  struct Count {
    int guesses = 0;
    Clock::time_point since{};
  };
  std::mutex mutex_;
  std::map<std::string, Count> by_address_;
};

}  // namespace stillheap::server

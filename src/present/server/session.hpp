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

/// Slows down guessing: after `most_failures` wrong passphrases from one address, or `most_failures_all` from all
/// together, no more are looked at until `window` has passed since the first of them.
class LoginLimit {
 public:
  static constexpr int most_failures = 5;       // chosen
  static constexpr int most_failures_all = 50;  // chosen
  static constexpr std::chrono::minutes window{15};

  [[nodiscard]] bool allows(const std::string& address, Clock::time_point now);
  void failed(const std::string& address, Clock::time_point now);

 private:
  struct Count {
    int failures = 0;
    Clock::time_point since{};
  };
  static void age(Count& count, Clock::time_point now);
  std::mutex mutex_;
  std::map<std::string, Count> by_address_;
  Count all_;
};

}  // namespace stillheap::server

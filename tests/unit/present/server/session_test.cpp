#include "present/server/session.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>
#include <vector>

#include "core/base/error.hpp"
#include "present/server/passphrase.hpp"

namespace stillheap::server {
namespace {

TEST(Sessions, HoldUntilClosedOrTooOld) {
  Sessions sessions;
  const auto now = Clock::now();
  const std::string a = sessions.open(now);
  const std::string b = sessions.open(now);
  EXPECT_EQ(a.size(), 64U);
  EXPECT_NE(a, b);
  EXPECT_TRUE(sessions.holds(a, now));
  EXPECT_FALSE(sessions.holds(a, now + Sessions::longest));
  sessions.close(a);
  EXPECT_FALSE(sessions.holds(a, now));
  EXPECT_TRUE(sessions.holds(b, now));
  EXPECT_FALSE(sessions.holds("", now));
}

TEST(Sessions, NeverGrowWithoutEnd) {
  Sessions sessions;
  const auto now = Clock::now();
  const std::string first = sessions.open(now);
  for (std::size_t i = 0; i < Sessions::most; ++i) (void)sessions.open(now + std::chrono::seconds(i + 1));
  EXPECT_FALSE(sessions.holds(first, now));
}

TEST(LoginLimit, StopsOneAddressAfterAFewGuessesForAWhile) {
  LoginLimit limit;
  const auto now = Clock::now();
  for (int i = 0; i < LoginLimit::most_guesses; ++i) EXPECT_TRUE(limit.take("192.0.2.1", now));
  EXPECT_FALSE(limit.take("192.0.2.1", now));
  EXPECT_TRUE(limit.take("192.0.2.2", now));
  EXPECT_TRUE(limit.take("192.0.2.1", now + LoginLimit::window));
}

TEST(LoginLimit, CountsGuessesThatComeTogether) {
  LoginLimit limit;
  std::atomic<int> looked_at{0};
  std::vector<std::thread> guesses;
  for (int i = 0; i < 24; ++i) {
    guesses.emplace_back([&] { looked_at += limit.take("192.0.2.1", Clock::now()) ? 1 : 0; });
  }
  for (std::thread& one : guesses) one.join();
  EXPECT_EQ(looked_at, LoginLimit::most_guesses);
}

TEST(LoginLimit, LocksNobodyOutForWhatOthersGuess) {
  LoginLimit limit;
  const auto now = Clock::now();
  for (std::size_t i = 0; i < 3 * LoginLimit::most_addresses; ++i) (void)limit.take(std::to_string(i), now);
  EXPECT_TRUE(limit.take("192.0.2.1", now));
}

TEST(LoginLimit, ForgetsGuessesOfWhoKnewIt) {
  LoginLimit limit;
  const auto now = Clock::now();
  for (int i = 0; i < 20; ++i) {
    EXPECT_TRUE(limit.take("192.0.2.1", now));
    limit.was_right("192.0.2.1");
  }
}

TEST(Passphrase, ThatIsEasyToGuessIsRefused) {
  for (const char* const easy :
       {"aaaaaaaaaaaa", "abcabcabcabc", "password1234", "Passwordpassword", "123456789012", "qwertyuiop12",
        "111222333444", "asdfghjklqwertyuiop", "stillheapstillheap", "            ", "abababababab"}) {
    EXPECT_THROW((void)hash_passphrase(easy), InputError) << easy;
  }
  for (const char* const good : {"four plain yard words", "heron bucket nine", "x7#kQ2m!vT9z"}) {
    EXPECT_NO_THROW((void)hash_passphrase(good)) << good;
  }
}

TEST(Passphrase, IsKeptAsArgon2idAndTooShortOnesAreRefused) {
  const std::string hash = hash_passphrase("four plain yard words");
  EXPECT_TRUE(hash.starts_with("$argon2id$"));
  EXPECT_TRUE(is_passphrase(hash, "four plain yard words"));
  EXPECT_FALSE(is_passphrase(hash, "four plain yard word"));
  EXPECT_THROW((void)hash_passphrase("short"), InputError);
}

TEST(Passphrase, FileMustBeItsOwnersAlone) {
  namespace fs = std::filesystem;
  const fs::path file = fs::path(testing::TempDir()) / "passphrase";
  std::ofstream(file) << "four plain yard words\n";
  fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_EQ(read_passphrase(file), "four plain yard words");
  std::ofstream(file) << "four plain yard words\r\n";
  EXPECT_EQ(read_passphrase(file), "four plain yard words");
  fs::permissions(file, fs::perms::group_read, fs::perm_options::add);
  EXPECT_THROW((void)read_passphrase(file), InputError);
}

}  // namespace
}  // namespace stillheap::server

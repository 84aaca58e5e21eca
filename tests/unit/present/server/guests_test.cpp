#include "present/server/guests.hpp"

#include <gtest/gtest.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <sstream>
#include <thread>
#include <vector>

#include "present/server/body_room.hpp"
#include "present/server/neighbour.hpp"

namespace stillheap::server {
namespace {

/// Both ends of a connection.
struct Pair {
  std::array<int, 2> ends{};
  Pair() { EXPECT_EQ(::socketpair(AF_UNIX, SOCK_STREAM, 0, ends.data()), 0); }
  Pair(const Pair&) = delete;
  Pair& operator=(const Pair&) = delete;
  ~Pair() {
    for (const int one : ends) ::close(one);
  }
  [[nodiscard]] bool was_cut() const {
    pollfd far{ends[1], POLLIN, 0};
    return ::poll(&far, 1, 0) > 0;
  }
};

TEST(Guests, OfOneAddressOfTheNetworkHaveAShare) {
  Guests guests({.served_at_once = 10, .most = 20, .most_of_one = 2});
  const auto first = guests.admit(-1, "192.0.2.1");
  EXPECT_NE(guests.admit(-1, "192.0.2.1"), guests.end());
  EXPECT_EQ(guests.admit(-1, "192.0.2.1"), guests.end());
  EXPECT_NE(guests.admit(-1, "192.0.2.2"), guests.end());
  guests.leave(first);
  EXPECT_NE(guests.admit(-1, "192.0.2.1"), guests.end());
  for (int i = 0; i < 5; ++i) EXPECT_NE(guests.admit(-1, "127.0.0.1"), guests.end());
}

TEST(Guests, WhoWaitedLongestMakesRoomUnlessHeMayAsk) {
  Guests guests({.served_at_once = 2, .most = 2, .most_of_one = 2});
  const Pair signed_in, stranger;
  const auto trusted = guests.admit(signed_in.ends[0], "192.0.2.1");
  guests.trust(trusted);
  (void)guests.admit(stranger.ends[0], "192.0.2.2");
  EXPECT_EQ(guests.admit(-1, "192.0.2.3"), guests.end()) << "an honest head has its time";
  std::this_thread::sleep_for(Guests::patience + std::chrono::milliseconds{50});
  EXPECT_NE(guests.admit(-1, "192.0.2.3"), guests.end());
  EXPECT_TRUE(stranger.was_cut());
  EXPECT_FALSE(signed_in.was_cut());
}

TEST(BodyRoom, IsGivenBackAndNeverMoreThanThereIs) {
  BodyRoom room;
  const auto first = room.take(BodyRoom::most_bytes - 100000);
  EXPECT_TRUE(first);
  EXPECT_FALSE(room.take(200000));
  EXPECT_TRUE(room.take(90000)) << "given back by the refused one";
  EXPECT_TRUE(room.take(1000)) << "small ones always fit";
  EXPECT_FALSE(room.take(static_cast<std::size_t>(-1)));
}

// Layout: proc(5), /proc/net/tcp.
TEST(Neighbour, IsFoundByBothPorts) {
  std::istringstream table(
      "  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode\n"
      "   0: 0100007F:2094 00000000:0000 0A 00000000:00000000 00:00000000 00000000  1000        0 1 1\n"
      "   1: 0100007F:C350 0100007F:2094 01 00000000:00000000 00:00000000 00000000   999        0 2 1\n");
  EXPECT_EQ(user_of(table, 0xC350, 0x2094), 999U);
  std::istringstream empty("");
  EXPECT_EQ(user_of(empty, 0xC350, 0x2094), std::nullopt);
}

}  // namespace
}  // namespace stillheap::server

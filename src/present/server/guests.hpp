#pragma once
#include <chrono>
#include <list>
#include <map>
#include <mutex>
#include <string>

namespace stillheap::server {

/// Who is connected, so that nobody keeps the others out: each address of the network has its share, and when all
/// places are taken, the one goes who has kept the server waiting longest without having shown that he may ask.
/// For many threads.
class Guests {
 public:
  struct Limits {
    std::size_t served_at_once = 64;  ///< chosen: a thread each; a page opens up to six connections
    std::size_t most = 256;           ///< chosen: with those who wait for a thread
    std::size_t most_of_one = 24;     ///< chosen: of one address, four pages; this machine's own may open any number
  };
  using Clock = std::chrono::steady_clock;
  static constexpr std::chrono::milliseconds patience{1000};  ///< chosen: an honest head is there in less

  explicit Guests(const Limits& limits) : limits_(limits) {}

  struct Guest {
    int socket = -1;
    std::string address;
    Clock::time_point since{};  ///< when it came, or when its last request was done
    bool trusted = false;       ///< the request at hand is one of somebody who may ask
    bool sent_off = false;
  };
  using Entry = std::list<Guest>::iterator;

  /// Takes in a connection, sending another off when that makes room. end(): there is no room.
  [[nodiscard]] Entry admit(int socket, const std::string& address);
  /// Before its socket is closed.
  void leave(Entry guest);
  /// Sends off up to `count` of those who have kept the server waiting, since others wait for a thread.
  void make_room(std::size_t count);
  /// Its next request begins.
  void begin(Entry guest);
  void trust(Entry guest);
  /// No connection gives another request; `at_once`: nor takes the rest of its answer.
  void send_all_off(bool at_once);
  [[nodiscard]] bool empty();
  [[nodiscard]] Entry end() noexcept { return guests_.end(); }

 private:
  [[nodiscard]] bool send_one_off();
  [[nodiscard]] bool send_one_off_of_the_most();
  bool cut(Entry guest);

  Limits limits_;
  std::mutex mutex_;
  std::list<Guest> guests_;
  std::map<std::string, std::size_t> of_one_;
};

}  // namespace stillheap::server

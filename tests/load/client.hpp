#pragma once
#include <chrono>
#include <map>
#include <string>
#include <vector>

/// One phone that never rests: it notes a reading, then looks at something, and again.
namespace stillheap::load {

struct Acknowledged {
  std::string id;
  double value = 0.0;
};

/// What one client did and met with.
struct Seen {
  std::vector<Acknowledged> acknowledged;              ///< the server said: stored
  std::map<std::string, std::vector<double>> took_ms;  ///< by kind of request
  std::vector<std::string> faults;
};

struct Work {
  int port = 0;
  int number = 0;            ///< of the client
  std::string fill;          ///< its readings go into this one
  long long first_at_s = 0;  ///< moment of its first reading
  std::chrono::steady_clock::time_point until;
  std::chrono::milliseconds rest{0};  ///< after each request
};

/// Works until it is over. Every eighth reading is sent twice, as by a phone that lost the answer.
[[nodiscard]] Seen work(const Work& what);

}  // namespace stillheap::load

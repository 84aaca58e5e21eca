#pragma once
#include <condition_variable>
#include <functional>
#include <list>
#include <mutex>
#include <string>

namespace stillheap::server {

/// Drafts one after the other: each takes all processors and some ten megabytes. A newer one of the same user takes the
/// place of his older ones, which nobody waits for any more. For many threads.
class DraftTurns {
 public:
  static constexpr std::size_t most_waiting = 16;  ///< chosen: users at once

  enum class End {
    done,
    overtaken,  ///< a newer one of the same user came
    full        ///< too many users wait
  };
  /// Runs `work` when its turn comes; `work` asks now and then whether it is to go on. Throws what it throws.
  [[nodiscard]] End run(const std::string& user, const std::function<void(const std::function<bool()>& goes_on)>& work);

 private:
  struct Turn {
    std::string user;
    bool overtaken = false;
  };
  std::mutex mutex_;
  std::condition_variable changed_;
  std::list<Turn> turns_;  ///< the first one runs
};

}  // namespace stillheap::server

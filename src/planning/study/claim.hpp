#pragma once
#include <sys/types.h>

#include <chrono>
#include <condition_variable>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

namespace stillheap::study {

/// Which process on which machine: what is needed to tell whether it still lives.
struct Owner {
  std::string place;  ///< host, start of its kernel, process namespace
  long process = 0;
  unsigned long long started = 0;  ///< clock ticks since the kernel's start: numbers of processes are used again
};
[[nodiscard]] Owner this_process();

/// Whether the owner can be told to be dead: only of processes of this very place.
[[nodiscard]] bool surely_dead(const Owner& owner);

/// Work that is ours while this stands. A thread touches the claim's file now and then, so that others see that we
/// live.
class Claim {
 public:
  Claim(std::filesystem::path stem, int turn, std::chrono::duration<double> beat);
  Claim(const Claim&) = delete;
  Claim& operator=(const Claim&) = delete;
  /// Lets go of the work without having done it.
  ~Claim();

  /// The work is done and put in place: takes the claims of those away too that were lost on it.
  void finish();
  [[nodiscard]] int turn() const noexcept { return turn_; }

 private:
  void stop() noexcept;

  std::filesystem::path stem_;
  int turn_;
  std::mutex mutex_;
  std::condition_variable wake_;
  bool over_ = false;
  std::thread heart_;
};

/// How often a claim may be lost before the work itself is to blame. Chosen.
inline constexpr int most_turns = 5;

struct TakeResult {
  enum class Kind { taken, busy, lost_too_often } kind = Kind::busy;
  std::unique_ptr<Claim> claim;
};

/// Claims in a folder, as one worker sees them. `name.1` is the first claim on a piece of work. When its owner is dead
/// the next one is `name.2`, and so on: of all that want it just one can make that file, on any file system that makes
/// a file for one alone (O_EXCL: local ones, NFS from version 3 on, Lustre).
class Claims {
 public:
  /// `stale_after`: how long a claim of another machine may stand untouched until its owner counts as dead. Measured on
  /// our own steady clock: clocks of different machines are never compared.
  Claims(std::filesystem::path folder, std::chrono::duration<double> stale_after);

  /// Throws RunError when the folder cannot be written.
  [[nodiscard]] TakeResult take(const std::string& name);

  /// Takes away what is left of claims on work that is done.
  void clear(const std::string& name) const;

 private:
  struct Seen {
    int turn = 0;
    std::filesystem::file_time_type beat;
    std::chrono::steady_clock::time_point since;
  };
  [[nodiscard]] bool is_dead(const std::string& name, int turn);

  std::filesystem::path folder_;
  std::chrono::duration<double> stale_after_;
  std::map<std::string, Seen> seen_;
};

}  // namespace stillheap::study

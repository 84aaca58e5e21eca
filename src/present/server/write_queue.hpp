#pragma once
#include <condition_variable>
#include <deque>
#include <exception>
#include <filesystem>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>

#include "yard/record/store.hpp"

namespace stillheap::server {

/// Everything that is written goes through here: one after the other in the order it came, on one connection. Works
/// that wait at the same time are flushed to the disk together, each still whole or not at all. For many threads.
///
/// Without it each request waits for the lock of the database by sleeping and looking again; of fifty, some then wait
/// for longer than the busy time and fail.
class WriteQueue {
 public:
  static constexpr std::size_t most_together = 64;  ///< chosen: so that the first one does not wait for ever

  using Work = std::function<void(record::Store&)>;

  /// A store that may only be looked at takes nothing, as run() then says.
  explicit WriteQueue(const std::filesystem::path& store_file);
  WriteQueue(const WriteQueue&) = delete;
  WriteQueue& operator=(const WriteQueue&) = delete;
  ~WriteQueue();

  /// Returns when what `work` stored is on the disk. Throws what it threw, then none of it is stored; RunError when the
  /// disk does not take it, or may only be read.
  void run(const Work& work);

 private:
  struct Job {
    const Work* work = nullptr;
    std::exception_ptr failure;
    bool done = false;
  };
  void serve();
  void run_together(std::deque<Job*>& jobs);

  std::optional<record::Store> store_;
  std::mutex mutex_;
  std::condition_variable come_, done_;
  std::deque<Job*> waiting_;
  bool closing_ = false;
  std::thread writer_;
};

}  // namespace stillheap::server

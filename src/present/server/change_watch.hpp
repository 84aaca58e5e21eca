#pragma once
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <filesystem>
#include <mutex>
#include <thread>

namespace stillheap::server {

/// Notices what is stored by anybody, also by another program, while somebody wants to be told. For many threads.
class ChangeWatch {
 public:
  static constexpr std::size_t most_listeners = 16;         ///< chosen: a thread behind each, of Guests' 64
  static constexpr std::chrono::milliseconds look_ms{500};  ///< chosen: a glance at the file takes microseconds

  explicit ChangeWatch(std::filesystem::path store_file);
  ChangeWatch(const ChangeWatch&) = delete;
  ChangeWatch& operator=(const ChangeWatch&) = delete;
  ~ChangeWatch();

  /// A listener's place for as long as it lives; false: all are taken.
  class Place {
   public:
    Place(ChangeWatch& watch, bool granted) : watch_(watch), granted_(granted) {}
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    ~Place();
    explicit operator bool() const noexcept { return granted_; }

   private:
    ChangeWatch& watch_;
    bool granted_;
  };
  [[nodiscard]] Place take();

  /// How often something was stored while somebody listened.
  [[nodiscard]] std::uint64_t count() const;
  /// The same as soon as it is no longer `seen`, at the latest after `at_most`.
  [[nodiscard]] std::uint64_t count_after(std::uint64_t seen, std::chrono::milliseconds at_most);

 private:
  void look();
  void look_while_listened(std::unique_lock<std::mutex>& lock);

  std::filesystem::path file_;
  mutable std::mutex mutex_;
  std::condition_variable come_, changed_;
  std::size_t listeners_ = 0;
  std::uint64_t count_ = 0;
  bool closing_ = false;
  std::thread looker_;
};

}  // namespace stillheap::server

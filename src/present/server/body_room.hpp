#pragma once
#include <cstddef>
#include <mutex>

namespace stillheap::server {

/// What all bodies together may hold in memory. For many threads.
class BodyRoom {
 public:
  static constexpr std::size_t most_bytes = 96U
                                            << 20U;  ///< chosen: three large photos at once; small bodies do not count
  static constexpr std::size_t small_bytes = 64U << 10U;

  /// Room for one body for as long as it lives; false: there is none left.
  class Place {
   public:
    Place(BodyRoom& room, std::size_t bytes, bool granted) : room_(room), bytes_(bytes), granted_(granted) {}
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;
    ~Place() {
      if (!granted_) return;
      const std::lock_guard lock(room_.mutex_);
      room_.taken_ -= bytes_;
    }
    explicit operator bool() const noexcept { return granted_; }

   private:
    BodyRoom& room_;
    std::size_t bytes_;
    bool granted_;
  };
  [[nodiscard]] Place take(std::size_t bytes) {
    const std::size_t counted = bytes > small_bytes ? bytes : 0;
    const std::lock_guard lock(mutex_);
    const bool granted = counted <= most_bytes - taken_;
    if (granted) taken_ += counted;
    return {*this, counted, granted};
  }

 private:
  std::mutex mutex_;
  std::size_t taken_ = 0;
};

}  // namespace stillheap::server

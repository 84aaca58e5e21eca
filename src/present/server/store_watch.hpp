#pragma once
#include <atomic>
#include <filesystem>
#include <mutex>
#include <thread>

#include "yard/record/whole_check.hpp"

namespace stillheap::server {

/// Looks the whole store over once in the background, from when it is made. For many threads.
class StoreWatch {
 public:
  explicit StoreWatch(std::filesystem::path store_file);
  StoreWatch(const StoreWatch&) = delete;
  StoreWatch& operator=(const StoreWatch&) = delete;
  ~StoreWatch();

  [[nodiscard]] record::WholeCheck now() const;
  /// Throws RunError, with how to restore, once the store was found damaged: nothing more may be written into it. What
  /// the phones hold stays there and is sent again.
  void refuse_damaged() const;

 private:
  void look();
  void set(const record::WholeCheck& found);

  std::filesystem::path file_;
  std::atomic<bool> stop_{false};
  mutable std::mutex mutex_;
  record::WholeCheck found_;
  std::thread looker_;
};

}  // namespace stillheap::server

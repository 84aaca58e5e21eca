#pragma once
#include <filesystem>
#include <memory>
#include <mutex>
#include <vector>

#include "yard/record/store.hpp"

namespace stillheap::server {

/// Connections to the records at rest, so that each request has one of its own without opening the file anew.
class StorePool {
 public:
  /// Opens (or makes) the store once, so that a damaged one is told at the start.
  explicit StorePool(std::filesystem::path file);

  /// A connection for as long as this lives.
  class Lease {
   public:
    Lease(StorePool& pool, std::unique_ptr<record::Store> store);
    Lease(const Lease&) = delete;
    Lease& operator=(const Lease&) = delete;
    ~Lease();
    record::Store& operator*() const noexcept { return *store_; }
    record::Store* operator->() const noexcept { return store_.get(); }

   private:
    StorePool& pool_;
    std::unique_ptr<record::Store> store_;
  };
  [[nodiscard]] Lease take();

 private:
  std::filesystem::path file_;
  std::mutex mutex_;
  std::vector<std::unique_ptr<record::Store>> at_rest_;
};

}  // namespace stillheap::server

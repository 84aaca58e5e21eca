#include "present/server/store_pool.hpp"

#include "yard/record/lost.hpp"
#include "yard/record/may_write.hpp"

namespace stillheap::server {

StorePool::StorePool(std::filesystem::path file) : file_(std::move(file)) {
  const bool make = record::may_be_written(file_) || !std::filesystem::exists(file_);
  at_rest_.push_back(std::make_unique<record::Store>(record::Store::open(file_, make)));
}

StorePool::Lease::Lease(StorePool& pool, std::unique_ptr<record::Store> store)
    : pool_(pool), store_(std::move(store)) {}

StorePool::Lease::~Lease() {
  const std::lock_guard lock(pool_.mutex_);
  pool_.at_rest_.push_back(std::move(store_));
}

StorePool::Lease StorePool::take() {
  {
    const std::lock_guard lock(mutex_);
    if (!at_rest_.empty()) {
      auto store = std::move(at_rest_.back());
      at_rest_.pop_back();
      record::refuse_moved(*store);
      return {*this, std::move(store)};
    }
  }
  return {*this, std::make_unique<record::Store>(record::Store::open(file_, false))};
}

}  // namespace stillheap::server

#include "present/server/store_watch.hpp"

#include <sys/resource.h>

#include "core/base/error.hpp"

namespace stillheap::server {

StoreWatch::StoreWatch(std::filesystem::path store_file) : file_(std::move(store_file)) {
  found_.state = record::Soundness::checking;
  found_.began = record::now();
  record::keep_check(file_, found_);
  looker_ = std::thread([this] { look(); });
}

StoreWatch::~StoreWatch() {
  stop_ = true;
  looker_.join();
}

void StoreWatch::look() {
  (void)setpriority(PRIO_PROCESS, 0, 10);  // of this thread alone: requests go first; chosen
  const record::WholeCheck found = record::check_whole(file_, stop_);
  record::keep_check(file_, found);
  set(found);
}

void StoreWatch::set(const record::WholeCheck& found) {
  const std::lock_guard lock(mutex_);
  found_ = found;
}

record::WholeCheck StoreWatch::now() const {
  const std::lock_guard lock(mutex_);
  return found_;
}

void StoreWatch::refuse_damaged() const {
  const record::WholeCheck found = now();
  if (found.state != record::Soundness::damaged) return;
  throw RunError(file_.filename().string(), "is damaged: " + found.damage.front(),
                 "nothing was stored; see on the yard's page how to restore it");
}

}  // namespace stillheap::server

#include "present/server/daily_copies.hpp"

#include <sys/resource.h>

#include "core/base/error.hpp"

namespace stillheap::server {
namespace {

constexpr std::chrono::minutes between{10};      // chosen: so that a new day is soon seen
constexpr std::chrono::seconds at_the_start{5};  // chosen: the page is asked for first

}  // namespace

DailyCopies::DailyCopies(std::filesystem::path store_file, std::filesystem::path folder)
    : file_(std::move(store_file)), folder_(std::move(folder)) {
  if (!folder_.empty()) keeper_ = std::thread([this] { keep(); });
}

DailyCopies::~DailyCopies() {
  {
    const std::lock_guard lock(mutex_);
    closing_ = true;
  }
  end_.notify_all();
  if (keeper_.joinable()) keeper_.join();
}

void DailyCopies::keep() {
  (void)setpriority(PRIO_PROCESS, 0, 10);  // of this thread alone: requests go first; chosen
  std::unique_lock lock(mutex_);
  std::chrono::seconds wait = at_the_start;
  while (!end_.wait_for(lock, wait, [&] { return closing_; })) {
    lock.unlock();
    try_once();
    lock.lock();
    wait = between;
  }
}

void DailyCopies::try_once() {
  std::string fault;
  std::vector<std::string> damage;
  bool made = false;
  try {
    if (const auto copied = record::keep_daily(file_, folder_, record::now())) {
      made = true;
      damage = copied->damage;
    }
  } catch (const std::exception& error) {
    fault = error.what();
  }
  const std::lock_guard lock(mutex_);
  fault_ = std::move(fault);
  if (made) damage_ = std::move(damage);
}

DailyCopies::Found DailyCopies::now() const {
  Found found;
  found.folder = folder_;
  if (!folder_.empty()) found.last = record::last_copy(file_, folder_);
  const std::lock_guard lock(mutex_);
  found.fault = fault_;
  found.damage = damage_;
  return found;
}

}  // namespace stillheap::server

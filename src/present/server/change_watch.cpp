#include "present/server/change_watch.hpp"

#include <exception>
#include <optional>

#include "yard/record/changes.hpp"
#include "yard/record/lost.hpp"

namespace stillheap::server {
namespace {

/// What others have stored since the last look. A store that cannot be read for a while, as one that is being put back,
/// counts as changed once it can.
class Eye {
 public:
  explicit Eye(std::filesystem::path file) : file_(std::move(file)) {}

  bool sees_change() {
    try {
      if (!store_) store_.emplace(record::Store::open(file_, false));
      record::refuse_moved(*store_);
      const long long now = record::version_by_others(*store_);
      const bool is_new = !last_ || *last_ != now;
      last_ = now;
      return is_new;
    } catch (const std::exception&) {
      store_.reset();
      last_.reset();
      return false;
    }
  }

 private:
  std::filesystem::path file_;
  std::optional<record::Store> store_;
  std::optional<long long> last_;
};

}  // namespace

ChangeWatch::Place::~Place() {
  if (!granted_) return;
  const std::lock_guard lock(watch_.mutex_);
  --watch_.listeners_;
}

ChangeWatch::ChangeWatch(std::filesystem::path store_file) : file_(std::move(store_file)) {
  looker_ = std::thread([this] { look(); });
}

ChangeWatch::~ChangeWatch() {
  {
    const std::lock_guard lock(mutex_);
    closing_ = true;
  }
  come_.notify_all();
  changed_.notify_all();
  looker_.join();
}

ChangeWatch::Place ChangeWatch::take() {
  const std::lock_guard lock(mutex_);
  if (listeners_ >= most_listeners) return {*this, false};
  ++listeners_;
  come_.notify_all();
  return {*this, true};
}

std::uint64_t ChangeWatch::count() const {
  const std::lock_guard lock(mutex_);
  return count_;
}

std::uint64_t ChangeWatch::count_after(std::uint64_t seen, std::chrono::milliseconds at_most) {
  std::unique_lock lock(mutex_);
  changed_.wait_for(lock, at_most, [&] { return closing_ || count_ != seen; });
  return count_;
}

void ChangeWatch::look() {
  std::unique_lock lock(mutex_);
  while (!closing_) {
    come_.wait(lock, [&] { return closing_ || listeners_ > 0; });
    look_while_listened(lock);
  }
}

void ChangeWatch::look_while_listened(std::unique_lock<std::mutex>& lock) {
  Eye eye(file_);
  while (!closing_ && listeners_ > 0) {
    lock.unlock();
    const bool is_new = eye.sees_change();
    lock.lock();
    if (is_new) {
      ++count_;
      changed_.notify_all();
    }
    come_.wait_for(lock, look_ms, [&] { return closing_; });
  }
}

}  // namespace stillheap::server

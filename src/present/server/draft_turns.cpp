#include "present/server/draft_turns.hpp"

#include <exception>

namespace stillheap::server {

DraftTurns::End DraftTurns::run(const std::string& user,
                                const std::function<void(const std::function<bool()>& goes_on)>& work) {
  std::unique_lock lock(mutex_);
  std::size_t waiting = 0;
  for (Turn& one : turns_) {
    if (one.user == user) one.overtaken = true;
    if (!one.overtaken) ++waiting;
  }
  if (waiting >= most_waiting) return End::full;
  const auto turn = turns_.insert(turns_.end(), Turn{user, false});
  changed_.notify_all();
  changed_.wait(lock, [&] { return turn->overtaken || turn == turns_.begin(); });
  std::exception_ptr failure;
  if (!turn->overtaken) {
    lock.unlock();
    try {
      work([&] {
        const std::lock_guard again(mutex_);
        return !turn->overtaken;
      });
    } catch (...) {
      failure = std::current_exception();
    }
    lock.lock();
  }
  const bool overtaken = turn->overtaken;
  turns_.erase(turn);
  changed_.notify_all();
  if (overtaken) return End::overtaken;
  if (failure) std::rethrow_exception(failure);
  return End::done;
}

}  // namespace stillheap::server

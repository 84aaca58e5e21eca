#include "present/server/forecast_jobs.hpp"

#include <algorithm>

#include "yard/record/ident.hpp"

namespace stillheap::server {
namespace {

bool is_over(OrderState state) {
  return state == OrderState::ready || state == OrderState::stopped || state == OrderState::failed;
}

}  // namespace

std::string_view word(OrderState state) noexcept {
  switch (state) {
    case OrderState::waiting:
      return "waiting";
    case OrderState::running:
      return "running";
    case OrderState::ready:
      return "ready";
    case OrderState::stopped:
      return "stopped";
    case OrderState::failed:
      break;
  }
  return "failed";
}

ForecastJobs::ForecastJobs() : worker_([this] { work(); }) {}

ForecastJobs::~ForecastJobs() {
  {
    const std::lock_guard lock(mutex_);
    closing_ = true;
    for (auto& [id, slot] : slots_) slot->stop = true;
  }
  changed_.notify_all();
  worker_.join();
}

Progressed ForecastJobs::ask(Order order) {
  const std::string id = record::sha256_hex(order.key).substr(0, 32);
  const std::lock_guard lock(mutex_);
  const auto found = slots_.find(id);
  const bool again = found != slots_.end() && (found->second->progress.state == OrderState::stopped ||
                                               found->second->progress.state == OrderState::failed);
  if (found != slots_.end() && !again) {
    found->second->used = ++uses_;
    return found->second->progress;
  }
  if (waiting_.size() >= most_waiting) {
    throw InputError("forecast", "too many wait already", "wait for one to finish, or stop one");
  }
  auto slot = std::make_shared<Slot>();
  slot->progress.id = id;
  slot->progress.grid = order.grid;
  slot->progress.doing = "waiting for its turn";
  slot->order = std::move(order);
  slot->used = ++uses_;
  slots_[id] = slot;
  waiting_.push_back(id);
  make_room_locked();
  changed_.notify_all();
  return slot->progress;
}

std::optional<Progressed> ForecastJobs::look(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = slots_.find(id);
  if (found == slots_.end()) return std::nullopt;
  found->second->used = ++uses_;
  return found->second->progress;
}

bool ForecastJobs::stop(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = slots_.find(id);
  if (found == slots_.end()) return false;
  found->second->stop = true;
  if (found->second->progress.state == OrderState::waiting) {
    found->second->progress.state = OrderState::stopped;
    std::erase(waiting_, id);
  }
  return true;
}

void ForecastJobs::make_room_locked() {
  while (slots_.size() > most_kept) {
    auto oldest = slots_.end();
    for (auto it = slots_.begin(); it != slots_.end(); ++it) {
      if (!is_over(it->second->progress.state)) continue;
      if (oldest == slots_.end() || it->second->used < oldest->second->used) oldest = it;
    }
    if (oldest == slots_.end()) return;
    slots_.erase(oldest);
  }
}

std::shared_ptr<ForecastJobs::Slot> ForecastJobs::next_locked() {
  const auto quick = std::find_if(waiting_.begin(), waiting_.end(), [&](const std::string& id) {
    return slots_.at(id)->order.grid == forecast::Grid::draft;
  });
  const auto next = quick == waiting_.end() ? waiting_.begin() : quick;
  auto slot = slots_.at(*next);
  waiting_.erase(next);
  slot->progress.state = OrderState::running;
  return slot;
}

void ForecastJobs::work() {
  std::unique_lock lock(mutex_);
  while (true) {
    changed_.wait(lock, [&] { return closing_ || !waiting_.empty(); });
    if (closing_) return;
    const auto slot = next_locked();
    lock.unlock();
    run(slot);
    lock.lock();
  }
}

void ForecastJobs::run(const std::shared_ptr<Slot>& slot) {
  const plan::Progress progress = [&](double share, const std::string& what) {
    const std::lock_guard lock(mutex_);
    slot->progress.share = share;
    slot->progress.doing = what;
    return !slot->stop;
  };
  OrderState end = OrderState::failed;
  std::shared_ptr<const plan::VesselPlan> result;
  std::vector<Problem> problems;
  try {
    const Order& order = slot->order;
    result = std::make_shared<const plan::VesselPlan>(
        forecast_case(order.what, *order.weather, order.grid, order.members, progress));
    end = OrderState::ready;
  } catch (const Error& error) {
    problems = error.problems();
  } catch (const std::exception& error) {
    problems = {{"forecast", error.what(), "try a smaller change"}};
  }
  const std::lock_guard lock(mutex_);
  slot->progress.state = slot->stop && end != OrderState::ready ? OrderState::stopped : end;
  slot->progress.result = std::move(result);
  slot->progress.problems = std::move(problems);
  slot->progress.share = end == OrderState::ready ? 1.0 : slot->progress.share;
}

}  // namespace stillheap::server

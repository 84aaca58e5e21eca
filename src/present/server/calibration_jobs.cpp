#include "present/server/calibration_jobs.hpp"

#include <sys/resource.h>

#include <algorithm>

namespace stillheap::server {
namespace {

bool goes_on(OrderState state) { return state == OrderState::waiting || state == OrderState::running; }

}  // namespace

CalibrationJobs::CalibrationJobs() : worker_([this] { work(); }) {}

CalibrationJobs::~CalibrationJobs() {
  {
    const std::lock_guard lock(mutex_);
    closing_ = true;
    for (auto& [fill, slot] : slots_) slot->stop = true;
  }
  changed_.notify_all();
  worker_.join();
}

CalibrationResult CalibrationJobs::ask(CalibrationJob lesson) {
  const std::lock_guard lock(mutex_);
  const auto found = slots_.find(lesson.fill_id);
  if (found != slots_.end() && goes_on(found->second->taught.state)) return found->second->taught;
  if (waiting_.size() >= most_waiting) {
    throw InputError("calibration", "too many wait already", "wait for one to finish, or stop one");
  }
  auto slot = std::make_shared<Slot>();
  slot->taught.readings = static_cast<std::size_t>(calibrate::core_days(lesson.readings));
  slot->taught.doing = "waiting for its turn";
  slot->lesson = std::move(lesson);
  slots_[slot->lesson.fill_id] = slot;
  waiting_.push_back(slot);
  for (auto it = slots_.begin(); slots_.size() > most_kept && it != slots_.end();) {
    it = goes_on(it->second->taught.state) ? std::next(it) : slots_.erase(it);
  }
  changed_.notify_all();
  return slot->taught;
}

std::optional<CalibrationResult> CalibrationJobs::look(const std::string& fill_id) {
  const std::lock_guard lock(mutex_);
  const auto found = slots_.find(fill_id);
  if (found == slots_.end()) return std::nullopt;
  return found->second->taught;
}

bool CalibrationJobs::stop(const std::string& fill_id) {
  const std::lock_guard lock(mutex_);
  const auto found = slots_.find(fill_id);
  if (found == slots_.end()) return false;
  found->second->stop = true;
  if (found->second->taught.state == OrderState::waiting) {
    found->second->taught.state = OrderState::stopped;
    std::erase(waiting_, found->second);
  }
  return true;
}

void CalibrationJobs::work() {
  (void)setpriority(PRIO_PROCESS, 0, 10);  // of this thread and those it starts; answers go first; chosen
  std::unique_lock lock(mutex_);
  while (true) {
    changed_.wait(lock, [&] { return closing_ || !waiting_.empty(); });
    if (closing_) return;
    const auto slot = waiting_.front();
    waiting_.pop_front();
    slot->taught.state = OrderState::running;
    lock.unlock();
    run(*slot);
    lock.lock();
  }
}

void CalibrationJobs::run(Slot& slot) {
  const auto told = [&](double share) {
    const std::lock_guard lock(mutex_);
    slot.taught.share = share;
    slot.taught.doing = "running the forecast as it may turn out, many times";
    return !slot.stop;
  };
  OrderState end = OrderState::failed;
  std::shared_ptr<const calibrate::Learned> learned;
  std::vector<Problem> problems;
  try {
    const CalibrationJob& lesson = slot.lesson;
    learned = std::make_shared<const calibrate::Learned>(
        calibrate::teach(lesson.request, lesson.readings, lesson.options, told));
    end = OrderState::ready;
    if (lesson.keep) lesson.keep(*learned);
  } catch (const Error& error) {
    problems = error.problems();
  } catch (const std::exception& error) {
    problems = {{"calibration", error.what(), "keep the forecast as it was"}};
  }
  const std::lock_guard lock(mutex_);
  slot.taught.state = slot.stop && end != OrderState::ready ? OrderState::stopped : end;
  slot.taught.learned = std::move(learned);
  slot.taught.problems = std::move(problems);
  if (end == OrderState::ready) slot.taught.share = 1.0;
}

}  // namespace stillheap::server

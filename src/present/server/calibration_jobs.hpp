#pragma once
#include <condition_variable>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "model/calibrate/learn.hpp"
#include "present/server/forecast_jobs.hpp"

namespace stillheap::server {

/// A fill's forecast that is to learn from its readings.
struct CalibrationJob {
  std::string fill_id;
  forecast::Request request;
  std::vector<calibrate::Observation> readings;
  calibrate::LearnOptions options;
  std::function<void(const calibrate::Learned&)> keep{};  ///< told once it is ready; may throw RunError
};

/// How far one is.
struct CalibrationResult {
  OrderState state = OrderState::waiting;
  double share = 0.0;  ///< done, 0..1
  std::string doing;
  std::size_t readings = 0;                           ///< days it learns from
  std::shared_ptr<const calibrate::Learned> learned;  ///< when ready
  std::vector<Problem> problems;                      ///< when failed, or when it could not be kept
};

/// Lets forecasts learn in the background, one after the other, and keeps the last of each fill. For many threads.
class CalibrationJobs {
 public:
  static constexpr std::size_t most_waiting = 4;  ///< chosen: each takes minutes
  static constexpr std::size_t most_kept = 40;    ///< chosen

  CalibrationJobs();
  CalibrationJobs(const CalibrationJobs&) = delete;
  CalibrationJobs& operator=(const CalibrationJobs&) = delete;
  ~CalibrationJobs();

  /// Puts a lesson up, in place of an older one of the fill that is over; one that waits or runs goes on. Throws
  /// InputError when too many wait.
  CalibrationResult ask(CalibrationJob lesson);
  /// Nothing when the fill has none (any more).
  [[nodiscard]] std::optional<CalibrationResult> look(const std::string& fill_id);
  /// False when there is none.
  bool stop(const std::string& fill_id);

 private:
  struct Slot {
    CalibrationJob lesson;
    CalibrationResult taught;
    bool stop = false;
  };
  void work();
  void run(Slot& slot);

  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::string, std::shared_ptr<Slot>> slots_;
  std::deque<std::shared_ptr<Slot>> waiting_;
  bool closing_ = false;
  std::thread worker_;
};

}  // namespace stillheap::server

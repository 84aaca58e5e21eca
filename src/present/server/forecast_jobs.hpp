#pragma once
#include <condition_variable>
#include <deque>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "present/server/change.hpp"

namespace stillheap::server {

/// A forecast that was asked for.
struct Order {
  Case what;
  std::shared_ptr<const weather::Series> weather;
  forecast::Grid grid = forecast::Grid::draft;
  int members = 16;
  std::string key;  ///< tells orders apart: the same key is the same forecast
};

enum class OrderState { waiting, running, ready, stopped, failed };
[[nodiscard]] std::string_view word(OrderState state) noexcept;

/// How far one is.
struct Progressed {
  std::string id;
  OrderState state = OrderState::waiting;
  double share = 0.0;  ///< done, 0..1
  std::string doing;
  forecast::Grid grid{};
  std::shared_ptr<const plan::VesselPlan> result;  ///< when ready
  std::vector<Problem> problems;                   ///< when failed
};

/// Runs forecasts one after the other in the background, drafts first, and keeps the last ones. For many threads.
class ForecastJobs {
 public:
  static constexpr std::size_t most_kept = 24;    ///< chosen: a standard year holds a few megabytes
  static constexpr std::size_t most_waiting = 8;  ///< chosen

  ForecastJobs();
  ForecastJobs(const ForecastJobs&) = delete;
  ForecastJobs& operator=(const ForecastJobs&) = delete;
  ~ForecastJobs();

  /// Puts an order up, or finds the same one that is there already. Throws InputError when too many wait.
  [[nodiscard]] Progressed ask(Order order);
  /// Nothing when there is none of this id (any more).
  [[nodiscard]] std::optional<Progressed> look(const std::string& id);
  /// Stops one that waits or runs. False when there is none.
  bool stop(const std::string& id);

 private:
  struct Slot {
    Order order;
    Progressed progress;
    bool stop = false;
    unsigned long long used = 0;
  };
  void work();
  void run(const std::shared_ptr<Slot>& slot);
  std::shared_ptr<Slot> next_locked();
  void make_room_locked();

  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::string, std::shared_ptr<Slot>> slots_;
  std::deque<std::string> waiting_;
  unsigned long long uses_ = 0;
  bool closing_ = false;
  std::thread worker_;
};

}  // namespace stillheap::server

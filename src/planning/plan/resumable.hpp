#pragma once
#include <chrono>
#include <filesystem>
#include <vector>

#include "model/forecast/checkpoint.hpp"
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// The forecasts of one plan with their checkpoints, in the order they are run. Keeps them in a file now and then and
/// when told to, so that a later run can go on with them.
class Resumable {
 public:
  /// Nothing is written on the way before the first `every` has gone by. `file`'s folder is made when it is missing.
  Resumable(std::filesystem::path file, std::chrono::duration<double> every);

  /// Takes up the checkpoints of the file. Throws InputError when there are none or they cannot be used.
  void take_up();

  /// The engine to plan with; this object must outlive it. Throws InputError when a checkpoint that was taken up
  /// belongs to another request, RunError when one cannot be written.
  [[nodiscard]] ForecastFunction engine();

  /// Writes the file: when a plan was stopped. Throws RunError.
  void keep();

  /// Removes the file: what it was for is done.
  void forget() const;

  [[nodiscard]] const std::filesystem::path& file() const noexcept { return file_; }

 private:
  [[nodiscard]] forecast::Result run(const forecast::Request& request, const Progress& progress);

  std::filesystem::path file_;
  std::chrono::duration<double> every_;
  std::chrono::steady_clock::time_point written_;
  std::vector<forecast::Checkpoint> checkpoints_;
  std::size_t next_ = 0;  ///< which of them the next forecast takes
};

}  // namespace stillheap::plan

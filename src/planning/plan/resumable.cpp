#include "planning/plan/resumable.hpp"

#include "core/base/error.hpp"
#include "model/forecast/run.hpp"

namespace stillheap::plan {

Resumable::Resumable(std::filesystem::path file, std::chrono::duration<double> every)
    : file_(std::move(file)), every_(every), written_(std::chrono::steady_clock::now()) {}

void Resumable::take_up() { checkpoints_ = forecast::read_checkpoints(file_); }

ForecastFunction Resumable::engine() {
  return [this](const forecast::Request& request, const Progress& progress) { return run(request, progress); };
}

forecast::Result Resumable::run(const forecast::Request& request, const Progress& progress) {
  if (next_ == checkpoints_.size()) checkpoints_.push_back(forecast::checkpoint_for(request));
  const std::size_t place = next_++;
  const forecast::Keeper keeper{[this] { return std::chrono::steady_clock::now() - written_ > every_; },
                                [this](const forecast::Checkpoint&) { keep(); }};
  return forecast::run(request, progress, checkpoints_[place], keeper);
}

void Resumable::keep() {
  std::error_code error;
  if (file_.has_parent_path()) std::filesystem::create_directories(file_.parent_path(), error);
  if (error)
    throw RunError(file_.string(), "the checkpoint's folder cannot be made: " + error.message(), "name another");
  forecast::write_checkpoints(checkpoints_, file_);
  written_ = std::chrono::steady_clock::now();
}

void Resumable::forget() const {
  std::error_code ignored;
  std::filesystem::remove(file_, ignored);
  std::filesystem::remove(file_.string() + ".part", ignored);  // of a program that was killed while it wrote
}

}  // namespace stillheap::plan

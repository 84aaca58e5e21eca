#pragma once
#include <chrono>
#include <mutex>
#include <string>

namespace stillheap::app {

/// Tells on stderr how far a long piece of work has come, once it has taken two seconds. On a terminal one line
/// with share and time left is redrawn; elsewhere a plain line is written every 10 %.
class ProgressBar {
 public:
  ProgressBar();
  ProgressBar(const ProgressBar&) = delete;
  ProgressBar& operator=(const ProgressBar&) = delete;
  ~ProgressBar();

  /// May be called from any thread. Returns false once the program was asked to stop.
  bool operator()(double share, const std::string& what);

 private:
  void draw(double share, double elapsed_s, const std::string& what);
  void write_tenth(double share, double elapsed_s, const std::string& what);

  std::mutex mutex_;
  std::chrono::steady_clock::time_point start_;
  double drawn_at_s_ = 0.0;
  int tenths_ = 0;
  bool terminal_ = false;
  bool drawn_ = false;
};

/// While one stands, Ctrl-C and a plain kill (SIGINT, SIGTERM) ask the work to stop instead of ending the program; one
/// that comes more than a second later ends it.
class StopOnSignal {
 public:
  StopOnSignal() noexcept;
  StopOnSignal(const StopOnSignal&) = delete;
  StopOnSignal& operator=(const StopOnSignal&) = delete;
  ~StopOnSignal();
};

/// The signal that came while a StopOnSignal stood; 0: none.
[[nodiscard]] int stop_signal() noexcept;

}  // namespace stillheap::app

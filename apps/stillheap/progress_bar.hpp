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

  /// May be called from any thread. Returns false once the user pressed Ctrl-C.
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

/// While one stands, Ctrl-C asks the work to stop instead of ending the program; a second one ends it.
class StopOnCtrlC {
 public:
  StopOnCtrlC() noexcept;
  StopOnCtrlC(const StopOnCtrlC&) = delete;
  StopOnCtrlC& operator=(const StopOnCtrlC&) = delete;
  ~StopOnCtrlC();
};

/// Whether Ctrl-C was pressed while a StopOnCtrlC stood.
[[nodiscard]] bool stop_asked() noexcept;

}  // namespace stillheap::app

#include "progress_bar.hpp"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <ctime>

namespace stillheap::app {
namespace {

constexpr double quiet_s = 2.0;
constexpr double redraw_s = 0.1;
constexpr int bar_width = 24;

// One wish to stop may come as two signals at once: a supervisor signals the program and then its group.
constexpr std::time_t same_wish_s = 1;

volatile std::sig_atomic_t signal_seen = 0;
volatile std::time_t signal_seen_s = 0;

std::time_t now_s() {
  timespec now{};
  ::clock_gettime(CLOCK_MONOTONIC, &now);
  return now.tv_sec;
}

extern "C" void note_signal(int signal_number) {
  if (signal_seen == 0) {
    signal_seen = signal_number;
    signal_seen_s = now_s();
  } else if (now_s() > signal_seen_s + same_wish_s) {  // a second wish ends the program
    std::signal(signal_number, SIG_DFL);
    std::raise(signal_number);
  }
}

std::string time_left(double share, double elapsed_s) {
  if (share < 0.01) return "";
  const long left_s = std::lround(elapsed_s * (1.0 - share) / share);
  if (left_s >= 3600) return fmt::format("{} h {} min left", left_s / 3600, left_s % 3600 / 60);
  if (left_s >= 60) return fmt::format("{} min {} s left", left_s / 60, left_s % 60);
  return fmt::format("{} s left", left_s);
}

std::size_t terminal_width() {
  winsize size{};
  if (::ioctl(STDERR_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return 80;
  return size.ws_col;
}

}  // namespace

ProgressBar::ProgressBar() : start_(std::chrono::steady_clock::now()), terminal_(::isatty(STDERR_FILENO) != 0) {}

ProgressBar::~ProgressBar() {
  if (drawn_) std::fputs("\r\033[K", stderr);
}

bool ProgressBar::operator()(double share, const std::string& what) {
  const std::lock_guard<std::mutex> lock(mutex_);
  const double elapsed_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
  const double clean_share = std::clamp(share, 0.0, 1.0);
  if (elapsed_s >= quiet_s) {
    if (terminal_) {
      draw(clean_share, elapsed_s, what);
    } else {
      write_tenth(clean_share, elapsed_s, what);
    }
  }
  return stop_signal() == 0;
}

void ProgressBar::draw(double share, double elapsed_s, const std::string& what) {
  if (drawn_ && elapsed_s - drawn_at_s_ < redraw_s) return;
  const int full = static_cast<int>(share * bar_width);
  std::string line = fmt::format("{}{} {:3.0f} %  {}  {}", std::string(static_cast<std::size_t>(full), '='),
                                 std::string(static_cast<std::size_t>(bar_width - full), '.'), 100.0 * share,
                                 time_left(share, elapsed_s), what);
  line.resize(std::min(line.size(), terminal_width() - 1));
  fmt::print(stderr, "\r{}\033[K", line);
  std::fflush(stderr);
  drawn_ = true;
  drawn_at_s_ = elapsed_s;
}

void ProgressBar::write_tenth(double share, double elapsed_s, const std::string& what) {
  const int tenths = static_cast<int>(share * 10.0);
  if (tenths <= tenths_) return;
  tenths_ = tenths;
  fmt::print(stderr, "{} %  {}  {}\n", 10 * tenths, time_left(share, elapsed_s), what);
}

StopOnSignal::StopOnSignal() noexcept {
  signal_seen = 0;
  std::signal(SIGINT, note_signal);
  std::signal(SIGTERM, note_signal);
}

StopOnSignal::~StopOnSignal() {
  std::signal(SIGINT, SIG_DFL);
  std::signal(SIGTERM, SIG_DFL);
}

int stop_signal() noexcept { return signal_seen; }

}  // namespace stillheap::app

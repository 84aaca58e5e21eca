#include "planning/cut/patterns.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace stillheap::cut {
namespace {

/// A piece takes its saw cut with it, and the bar is longer by one cut, for the last piece needs none.
double taken_m(const Want& want, double saw_m) { return want.length_m + saw_m; }
double room_m(const Bar& bar, double saw_m) { return bar.length_m + saw_m + fit_slack_m; }

int fitting(double room, const Want& want, double saw_m) {
  return std::min(want.count, static_cast<int>(std::floor(std::max(room, 0.0) / taken_m(want, saw_m))));
}

/// Counts down from the most of each want, so that every pattern is met once.
class Lister {
 public:
  Lister(const std::vector<Want>& wants, double saw_m, std::size_t most) : wants_(wants), saw_m_(saw_m), most_(most) {}

  bool list(std::size_t stock, const Bar& bar, std::vector<Pattern>& found) {
    counts_.assign(wants_.size(), 0);
    return descend(0, room_m(bar, saw_m_), stock, found);
  }

 private:
  bool descend(std::size_t at, double room, std::size_t stock, std::vector<Pattern>& found) {
    if (at == wants_.size()) {
      if (!full(room) || std::all_of(counts_.begin(), counts_.end(), [](int n) { return n == 0; })) return true;
      if (found.size() == most_) return false;
      found.push_back({stock, counts_});
      return true;
    }
    for (int n = fitting(room, wants_[at], saw_m_); n >= 0; --n) {
      counts_[at] = n;
      if (!descend(at + 1, room - n * taken_m(wants_[at], saw_m_), stock, found)) return false;
    }
    return true;
  }

  [[nodiscard]] bool full(double room) const {
    for (std::size_t i = 0; i < wants_.size(); ++i) {
      if (counts_[i] < wants_[i].count && taken_m(wants_[i], saw_m_) <= room) return false;
    }
    return true;
  }

  const std::vector<Want>& wants_;
  double saw_m_;
  std::size_t most_;
  std::vector<int> counts_;
};

class Knapsack {
 public:
  Knapsack(const std::vector<Want>& wants, const std::vector<double>& worth, double saw_m)
      : wants_(wants), worth_(worth), saw_m_(saw_m), order_(wants.size()), counts_(wants.size(), 0), best_(counts_) {
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) { return rate(a) > rate(b); });
  }

  std::vector<int> best(double room) {
    descend(0, room, 0.0);
    return best_;
  }

 private:
  [[nodiscard]] double rate(std::size_t i) const { return worth_[i] / taken_m(wants_[i], saw_m_); }

  void descend(std::size_t at, double room, double value) {
    if (value > best_value_ + 1e-12) {
      best_value_ = value;
      best_ = counts_;
    }
    if (at == order_.size()) return;
    const std::size_t i = order_[at];
    if (rate(i) <= 0.0 || value + room * rate(i) <= best_value_ + 1e-12) return;  // the rest is worth less a metre
    for (int n = fitting(room, wants_[i], saw_m_); n >= 0; --n) {
      counts_[i] = n;
      descend(at + 1, room - n * taken_m(wants_[i], saw_m_), value + n * worth_[i]);
    }
    counts_[i] = 0;
  }

  const std::vector<Want>& wants_;
  const std::vector<double>& worth_;
  double saw_m_;
  std::vector<std::size_t> order_;
  std::vector<int> counts_, best_;
  double best_value_ = 0.0;
};

}  // namespace

std::vector<Pattern> full_patterns(const std::vector<Bar>& bars, const std::vector<Want>& wants, double saw_m,
                                   std::size_t most) {
  std::vector<Pattern> found;
  Lister lister(wants, saw_m, most);
  for (std::size_t s = 0; s < bars.size(); ++s) {
    if (!lister.list(s, bars[s], found)) return {};
  }
  return found;
}

std::vector<int> dearest_pattern(const Bar& bar, const std::vector<Want>& wants, const std::vector<double>& worth,
                                 double saw_m) {
  return Knapsack(wants, worth, saw_m).best(room_m(bar, saw_m));
}

}  // namespace stillheap::cut

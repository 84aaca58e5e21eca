#pragma once
#include <cmath>
#include <cstdint>
#include <initializer_list>
#include <random>

namespace stillheap::sweep {

/// Random numbers that are the same with every standard library (the distributions of <random> are not).
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}

  /// 0 <= x < 1
  [[nodiscard]] double share() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }
  [[nodiscard]] double between(double low, double high) { return low + (high - low) * share(); }
  /// Every factor equally likely.
  [[nodiscard]] double spread(double low, double high) { return low * std::pow(high / low, share()); }
  /// Both ends included.
  [[nodiscard]] int whole(int low, int high) { return low + static_cast<int>(share() * (high - low + 1)); }
  [[nodiscard]] bool chance(double share_of_cases) { return share() < share_of_cases; }
  template <class Value>
  [[nodiscard]] Value one_of(std::initializer_list<Value> values) {
    return values.begin()[whole(0, static_cast<int>(values.size()) - 1)];
  }
  /// Now and then one of the ends, which break more than what lies between.
  [[nodiscard]] double with_ends(double low, double high, double inside) {
    const double kind = share();
    return kind < 0.08 ? low : kind < 0.12 ? high : inside;
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace stillheap::sweep

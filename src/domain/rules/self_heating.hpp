#pragma once
#include <optional>
#include <span>
#include <vector>

/// When a heap has stopped heating itself: told against a twin in the same weather that makes no heat, so that summer
/// air is not taken for heat nor a winter's cold for its end.
namespace stillheap::rules {

/// A heap's temperatures on one day since filling.
struct HeatDay {
  double day = 0.0;
  double core_c = 0.0;
  double hottest_c = 0.0;
};

/// Chosen: probes and a twin agree no better.
inline constexpr double near_twin_k = 3.0;
/// Chosen: a heap that was turned or watered warms again within two weeks if it can.
inline constexpr double rest_days = 14.0;
/// Chosen: at or below it nothing decays that a probe could tell; what is warmer than the air there is water that
/// freezes.
inline constexpr double frozen_c = 1.0;
/// Chosen: days read (or forecast) farther apart than this tell nothing of the time between them.
inline constexpr double widest_day_gap = 8.0;

/// A time without self-heating, both ends in days since filling.
struct Rest {
  double begin_day = 0.0;
  double end_day = 0.0;
};

struct SelfHeating {
  std::optional<double> began_day;  ///< first day that was warmer than the twin; nothing: it never heated
  std::vector<Rest> rests;          ///< of `rest_days` or longer, after it began

  /// The first day from which core and hottest place both stay within 3 K of the twin for 14 days. A longer course can
  /// add later rests but never moves the first.
  [[nodiscard]] std::optional<double> end_day() const {
    return rests.empty() ? std::nullopt : std::optional(rests.front().begin_day);
  }
};

/// `heap` and `twin` in rising days; the twin is read between its days and must not be empty when the heap is not.
/// Colder than the twin counts as no heat. `had_heat`: it is known to have heated before the first day given.
[[nodiscard]] SelfHeating self_heating(std::span<const HeatDay> heap, std::span<const HeatDay> twin,
                                       bool had_heat = false);

/// Temperatures between the days given; beyond their ends the nearest day's.
[[nodiscard]] HeatDay at_day(std::span<const HeatDay> days, double day);

}  // namespace stillheap::rules

#pragma once
#include <cstdint>
#include <optional>
#include <vector>

namespace stillheap::rules {

/// One temperature reading.
struct Reading {
  double time_s = 0.0;  ///< since filling
  double celsius = 0.0;
};

/// Readings in rising time; linear in between. Two readings at one time make a jump.
using History = std::vector<Reading>;

/// An unbroken stretch of time.
struct Stretch {
  double begin_s = 0.0;
  double end_s = 0.0;
  [[nodiscard]] double length_s() const noexcept { return end_s - begin_s; }
};

/// Readings farther apart than this say nothing about the time between them: a stretch ends there.
/// Chosen: one day and a quarter, so that daily readings at no fixed hour still join.
inline constexpr double widest_gap_s = 1.25 * 86400.0;

/// Readings looked at so far on this thread by everything that judges a history: what a test counts to show that the
/// work grows with the readings. It tells nothing else.
inline thread_local std::uint64_t readings_visited = 0;

/// Limits such as 131 degF are not exact in binary: 131 degF converted must still count as 55 degC. Chosen.
inline constexpr double rounding_k = 1e-9;

/// All unbroken stretches with low_c <= temperature <= high_c, in order. Crossings are found exactly on the
/// straight lines between readings. Throws InputError when times fall or a number is not finite.
[[nodiscard]] std::vector<Stretch> stretches_within(const History& history, double low_c, double high_c);

/// Throws InputError when times fall or a number is not finite.
void check_history(const History& history);

/// The longest of them; nothing when the band was never reached.
[[nodiscard]] std::optional<Stretch> longest_within(const History& history, double low_c, double high_c);

}  // namespace stillheap::rules

#pragma once
#include <vector>

#include "core/base/half_month.hpp"

/// A year cut into parts that comes round again: after the last part the first one follows.
namespace stillheap::supply {

struct Year {
  std::vector<double> first_day;  ///< of each part, rising from 0
  double days = 365.0;
};

/// The 24 half-months: the 1st to the 15th, and the rest of the month, of a year of 365 days.
[[nodiscard]] Year half_months();

[[nodiscard]] int parts(const Year& year) noexcept;
[[nodiscard]] double length_days(const Year& year, int part) noexcept;

/// The part that comes `ahead` parts after this one (before it when negative).
[[nodiscard]] int part_after(const Year& year, int part, int ahead) noexcept;

/// The least number of parts after which a part begins that lies `days` or more after the begin of `part`.
[[nodiscard]] int parts_until(const Year& year, int part, double days) noexcept;

/// The greatest number of parts after which a part begins that lies at most `days` after the begin of `part`.
[[nodiscard]] int parts_within(const Year& year, int part, double days) noexcept;

using date::half_month_after;
using date::half_month_name;
using date::half_month_of;
using date::HalfMonth;

}  // namespace stillheap::supply

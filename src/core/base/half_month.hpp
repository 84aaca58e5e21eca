#pragma once
#include <string>

#include "core/base/date.hpp"

/// The year in 24 parts: the 1st to the 15th of each month, and the rest of it.
namespace stillheap::date {

/// One half-month of the calendar.
struct HalfMonth {
  Day first, last;  ///< both included
};

/// 0 for the first half of January.
[[nodiscard]] int half_month_of(Day day) noexcept;

/// The half-month that comes `ahead` after the one this day lies in.
[[nodiscard]] HalfMonth half_month_after(Day day, int ahead) noexcept;

/// "1 to 15 March", "16 to 31 March"; February has 28 days here.
[[nodiscard]] std::string half_month_name(int part);

}  // namespace stillheap::date

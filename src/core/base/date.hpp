#pragma once
#include <array>
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

/// Calendar dates. g++ 12 has the calendar types of C++20 but neither reads nor writes them.
namespace stillheap::date {

using Day = std::chrono::sys_days;

inline constexpr std::array<const char*, 12> month_names{"January",   "February", "March",    "April",
                                                         "May",       "June",     "July",     "August",
                                                         "September", "October",  "November", "December"};

/// Of a year without a leap day.
inline constexpr std::array<int, 12> month_days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// Reads "2025-03-31" (ISO 8601, extended). Nothing when the form is another or the day does not exist.
[[nodiscard]] std::optional<Day> parse_iso(std::string_view text) noexcept;

/// Writes a date as "2025-03-31".
[[nodiscard]] std::string to_iso(Day day);

[[nodiscard]] int year_of(Day day) noexcept;

/// 1 for 1 January; 366 for 31 December of a leap year.
[[nodiscard]] int day_of_year(Day day) noexcept;

/// Calendar month, 0 for January (the index of every monthly array).
[[nodiscard]] int month_index(Day day) noexcept;

/// The date a number of days later (or earlier), rounded to the nearest whole day.
[[nodiscard]] Day add_days(Day day, double days) noexcept;

/// The same day some calendar months later, or the last day of that month when it is shorter.
[[nodiscard]] Day add_months(Day day, int months) noexcept;

}  // namespace stillheap::date

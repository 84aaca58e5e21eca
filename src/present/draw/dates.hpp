#pragma once
#include <string>
#include <string_view>

#include "core/base/date.hpp"

/// Calendar words. Days are counted without clock or time zone, so the same plan prints the same everywhere.
namespace stillheap::sheet {

using Date = date::Day;

/// Reads "2026-04-03". Throws InputError on anything else or a day that does not exist.
[[nodiscard]] Date read_date(std::string_view iso);
/// "3 April 2026"
[[nodiscard]] std::string long_date(Date date);
/// "Fri 3 Apr 2026"
[[nodiscard]] std::string short_date(Date date);
/// "3 to 9 Apr 2026", "3 Apr to 12 May 2026"; one date when both are the same.
[[nodiscard]] std::string date_span(Date first, Date last);
/// "Apr", month 1..12.
[[nodiscard]] std::string month_short(unsigned month);
/// "April", month 1..12.
[[nodiscard]] std::string month_long(unsigned month);
/// The calendar day `days` after filling, rounded to whole days.
[[nodiscard]] Date after(Date start, double days);

}  // namespace stillheap::sheet

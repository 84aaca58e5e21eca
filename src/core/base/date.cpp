#include "core/base/date.hpp"

#include <charconv>
#include <cmath>
#include <cstdio>

namespace stillheap::date {
namespace {

std::optional<int> number(std::string_view digits) noexcept {
  for (const char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
  }
  int value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

std::chrono::year_month_day civil(Day day) noexcept { return std::chrono::year_month_day{day}; }

}  // namespace

std::optional<Day> parse_iso(std::string_view text) noexcept {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = number(text.substr(0, 4));
  const auto month = number(text.substr(5, 2));
  const auto day = number(text.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day read{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  if (!read.ok()) return std::nullopt;
  return Day{read};
}

std::string to_iso(Day day) {
  const auto parts = civil(day);
  char text[32];
  std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(parts.year()),
                static_cast<unsigned>(parts.month()), static_cast<unsigned>(parts.day()));
  return text;
}

int year_of(Day day) noexcept { return static_cast<int>(civil(day).year()); }

int day_of_year(Day day) noexcept {
  const Day first{civil(day).year() / std::chrono::January / 1};
  return static_cast<int>((day - first).count()) + 1;
}

int month_index(Day day) noexcept { return static_cast<int>(static_cast<unsigned>(civil(day).month())) - 1; }

Day add_days(Day day, double days) noexcept { return day + std::chrono::days{std::lround(days)}; }

Day add_months(Day day, int months) noexcept {
  auto moved = civil(day) + std::chrono::months{months};
  if (!moved.ok()) moved = moved.year() / moved.month() / std::chrono::last;
  return Day{moved};
}

}  // namespace stillheap::date

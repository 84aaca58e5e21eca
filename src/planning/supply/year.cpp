#include "planning/supply/year.hpp"

namespace stillheap::supply {
namespace {

constexpr int half_days = 15;
constexpr double slack_days = 1e-9;  // against the last bit of days counted in seconds

/// Begin of the part `ahead` parts after `part`, in days after the begin of `part`.
double begin_after(const Year& year, int part, int ahead) noexcept {
  const int count = parts(year);
  const int at = part + ahead;
  const auto first = [&](int index) { return year.first_day[static_cast<std::size_t>(index)]; };
  const int years = at / count;
  return years * year.days + first(at % count) - first(part);
}

}  // namespace

Year half_months() {
  Year year;
  double day = 0.0;
  for (const int days : date::month_days) {
    year.first_day.push_back(day);
    year.first_day.push_back(day + half_days);
    day += days;
  }
  return year;
}

int parts(const Year& year) noexcept { return static_cast<int>(year.first_day.size()); }

double length_days(const Year& year, int part) noexcept { return begin_after(year, part, 1); }

int part_after(const Year& year, int part, int ahead) noexcept {
  const int count = parts(year);
  return ((part + ahead) % count + count) % count;
}

int parts_until(const Year& year, int part, double days) noexcept {
  int ahead = 0;
  while (begin_after(year, part, ahead) < days - slack_days) ++ahead;
  return ahead;
}

int parts_within(const Year& year, int part, double days) noexcept {
  int ahead = 0;
  while (begin_after(year, part, ahead + 1) <= days + slack_days) ++ahead;
  return ahead;
}

int half_month_of(date::Day day) noexcept {
  const std::chrono::year_month_day parts{day};
  return 2 * date::month_index(day) + (static_cast<unsigned>(parts.day()) > half_days ? 1 : 0);
}

HalfMonth half_month_after(date::Day day, int ahead) noexcept {
  using namespace std::chrono;
  const year_month_day given{day};
  const int at = half_month_of(day) % 2 + ahead;
  const int months_on = (at - (at % 2 + 2) % 2) / 2;
  const year_month month = given.year() / given.month() + months{months_on};
  const sys_days first = month / std::chrono::day{1};
  if (at % 2 == 0) return {first, first + days{half_days - 1}};
  return {first + days{half_days}, sys_days{month / last}};
}

std::string half_month_name(int part) {
  const auto month = static_cast<std::size_t>(part / 2);
  const std::string days = part % 2 == 0 ? "1 to 15 " : "16 to " + std::to_string(date::month_days.at(month)) + ' ';
  return days + date::month_names.at(month);
}

}  // namespace stillheap::supply

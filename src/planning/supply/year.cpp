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

}  // namespace stillheap::supply

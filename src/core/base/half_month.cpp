#include "core/base/half_month.hpp"

namespace stillheap::date {
namespace {

constexpr int half_days = 15;

}  // namespace

int half_month_of(Day day) noexcept {
  const std::chrono::year_month_day parts{day};
  return 2 * month_index(day) + (static_cast<unsigned>(parts.day()) > half_days ? 1 : 0);
}

HalfMonth half_month_after(Day day, int ahead) noexcept {
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
  const std::string days = part % 2 == 0 ? "1 to 15 " : "16 to " + std::to_string(month_days.at(month)) + ' ';
  return days + month_names.at(month);
}

}  // namespace stillheap::date

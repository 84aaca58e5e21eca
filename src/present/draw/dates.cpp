#include "present/draw/dates.hpp"

#include <array>

#include "core/base/date.hpp"
#include "core/base/error.hpp"

namespace stillheap::sheet {
namespace {

using std::chrono::year_month_day;

constexpr std::array<const char*, 7> weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};

std::string day_and_month(const year_month_day& date) {
  return std::to_string(static_cast<unsigned>(date.day())) + " " + month_short(static_cast<unsigned>(date.month()));
}

std::string year_of(const year_month_day& date) { return std::to_string(static_cast<int>(date.year())); }

}  // namespace

Date read_date(std::string_view iso) {
  if (const auto day = date::parse_iso(iso)) return *day;
  throw InputError("date", "\"" + std::string(iso) + "\" is not a day of the calendar", "write it as 2026-04-03");
}

std::string long_date(Date date) {
  const year_month_day day{date};
  return std::to_string(static_cast<unsigned>(day.day())) + " " + month_long(static_cast<unsigned>(day.month())) + " " +
         year_of(day);
}

std::string short_date(Date date) {
  const year_month_day day{date};
  return std::string(weekdays[std::chrono::weekday(date).c_encoding()]) + " " + day_and_month(day) + " " + year_of(day);
}

std::string date_span(Date first, Date last) {
  if (first == last) return short_date(first);
  const year_month_day a{first};
  const year_month_day b{last};
  if (a.year() == b.year() && a.month() == b.month()) {
    return std::to_string(static_cast<unsigned>(a.day())) + " to " + day_and_month(b) + " " + year_of(b);
  }
  std::string text = day_and_month(a);
  if (a.year() != b.year()) text += " " + year_of(a);
  return text + " to " + day_and_month(b) + " " + year_of(b);
}

std::string month_short(unsigned month) { return std::string(date::month_names[month - 1]).substr(0, 3); }
std::string month_long(unsigned month) { return date::month_names[month - 1]; }

Date after(Date start, double days) { return date::add_days(start, days); }

}  // namespace stillheap::sheet

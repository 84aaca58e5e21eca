#include "domain/weather/table.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdio>

#include "domain/weather/calendar.hpp"

namespace stillheap::weather {
namespace {

std::optional<int> digits(std::string_view text) {
  if (text.empty() || !std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; })) {
    return std::nullopt;
  }
  int value = 0;
  const auto result = std::from_chars(text.data(), text.data() + text.size(), value);
  if (result.ec != std::errc{}) return std::nullopt;
  return value;
}

/// "14:00" or "14:00:00", only on the hour.
std::optional<int> full_hour(std::string_view clock) {
  if (clock.size() != 5 && clock.size() != 8) return std::nullopt;
  if (clock.substr(2, 3) != ":00" || (clock.size() == 8 && clock.substr(5) != ":00")) return std::nullopt;
  const std::optional<int> hour = digits(clock.substr(0, 2));
  if (!hour || *hour > 23) return std::nullopt;
  return hour;
}

std::chrono::year_month_day date_of(const Moment& moment) {
  return std::chrono::year{moment.year} / std::chrono::month{static_cast<unsigned>(moment.month)} /
         std::chrono::day{static_cast<unsigned>(moment.day)};
}

}  // namespace

std::optional<Moment> moment_of(std::string_view text) {
  text = trimmed(text);
  if (text.size() < 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const std::optional<int> year = digits(text.substr(0, 4));
  const std::optional<int> month = digits(text.substr(5, 2));
  const std::optional<int> day = digits(text.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  Moment moment{*year, *month, *day, 0};
  if (!date_of(moment).ok()) return std::nullopt;
  if (text.size() == 10) return moment;
  if (text[10] != 'T' && text[10] != ' ') return std::nullopt;
  const std::optional<int> hour = full_hour(text.substr(11));
  if (!hour) return std::nullopt;
  moment.hour = *hour;
  return moment;
}

long hours_since_epoch(const Moment& moment) {
  return static_cast<long>(std::chrono::sys_days{date_of(moment)}.time_since_epoch().count()) * 24 + moment.hour;
}

Moment moment_at(long hours_since_epoch) {
  const long days = hours_since_epoch >= 0 ? hours_since_epoch / 24 : -((23 - hours_since_epoch) / 24);
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{days}}};
  return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day())), static_cast<int>(hours_since_epoch - 24 * days)};
}

std::string to_text(const Moment& moment) {
  char text[64];
  std::snprintf(text, sizeof text, "%04d-%02d-%02d %02d:00", moment.year, moment.month, moment.day, moment.hour);
  return text;
}

std::optional<int> hour_of_year(const Moment& moment) {
  if (moment.month == 2 && moment.day == 29) return std::nullopt;
  return 24 * (first_day_of(moment.month - 1) + moment.day - 1) + moment.hour;
}

std::vector<Gap> gaps_of(const std::vector<double>& values) {
  std::vector<Gap> gaps;
  for (std::size_t step = 0; step < values.size(); ++step) {
    if (!std::isnan(values[step])) continue;
    if (!gaps.empty() && gaps.back().last + 1 == step) {
      gaps.back().last = step;
    } else {
      gaps.push_back({step, step});
    }
  }
  return gaps;
}

void bridge(std::vector<double>& values) {
  const std::size_t count = values.size();
  const auto known = std::find_if(values.begin(), values.end(), [](double v) { return !std::isnan(v); });
  if (known == values.end()) return;
  const auto start = static_cast<std::size_t>(known - values.begin());
  std::size_t before = start;
  for (std::size_t step = 1; step <= count; ++step) {
    const std::size_t here = start + step;
    if (std::isnan(values[here % count])) continue;
    for (std::size_t inside = before + 1; inside < here; ++inside) {
      const double share = static_cast<double>(inside - before) / static_cast<double>(here - before);
      values[inside % count] = values[before % count] + share * (values[here % count] - values[before % count]);
    }
    before = here;
  }
}

}  // namespace stillheap::weather

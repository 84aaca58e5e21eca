#include "present/draw/ticks.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

namespace stillheap::sheet {
namespace {

double round_step(double length, int most) {
  const double least = length / std::max(1, most);
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (factor * power >= least * (1.0 - 1e-9)) return factor * power;
  }
  return 10.0 * power;
}

std::string with_decimals(double value, double step) {
  const int decimals = std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
  char text[48];
  std::snprintf(text, sizeof text, "%.*f", decimals, std::abs(value) < step * 1e-6 ? 0.0 : value);
  return text;
}

}  // namespace

std::vector<Tick> ticks_of(const Span& span) {
  std::vector<Tick> ticks;
  const auto first = static_cast<long>(std::ceil(span.low / span.step - 1e-9));
  const auto last = static_cast<long>(std::floor(span.high / span.step + 1e-9));
  for (long i = first; i <= last; ++i) {
    const double at = static_cast<double>(i) * span.step;
    ticks.push_back({at, with_decimals(at, span.step)});
  }
  return ticks;
}

std::vector<Tick> round_ticks(double low, double high, int most) {
  if (!std::isfinite(low) || !std::isfinite(high) || high <= low || most < 1) return {};
  Span span{low, high, round_step(high - low, most)};
  std::vector<Tick> ticks = ticks_of(span);
  while (static_cast<int>(ticks.size()) > most) {
    span.step = round_step(1.01 * span.step, 1);
    ticks = ticks_of(span);
  }
  return ticks;
}

Span round_span(double low, double high, int most) {
  if (!std::isfinite(low) || !std::isfinite(high)) return {};
  if (high - low < 1e-9 * std::max(1.0, std::abs(high))) {
    const double half = std::max(0.5, 0.05 * std::abs(high));
    low -= half;
    high += half;
  }
  const double step = round_step(high - low, most);
  return {std::floor(low / step + 1e-9) * step, std::ceil(high / step - 1e-9) * step, step};
}

std::vector<Tick> month_ticks(Date start, double days) {
  using namespace std::chrono;
  std::vector<Tick> ticks;
  const year_month_day first{start};
  year_month month = first.year() / first.month();
  if (first.day() != day(1)) month += months(1);
  for (;; month += months(1)) {
    const Date date = sys_days(month / 1);
    const double at = static_cast<double>((date - start).count());
    if (at > days) return ticks;
    std::string label = month_short(static_cast<unsigned>(month.month()));
    if (ticks.empty() || month.month() == January) label += " " + std::to_string(static_cast<int>(month.year()));
    ticks.push_back({at, label});
  }
}

std::vector<Tick> week_ticks(Date start, double days) {
  std::vector<Tick> ticks;
  for (int day = 0; day <= days; day += 7) {
    const std::chrono::year_month_day date{after(start, day)};
    ticks.push_back({static_cast<double>(day), "day " + std::to_string(day) + ", " +
                                                   std::to_string(static_cast<unsigned>(date.day())) + " " +
                                                   month_short(static_cast<unsigned>(date.month()))});
  }
  return ticks;
}

std::vector<Tick> thin_out(const std::vector<Tick>& ticks, const std::vector<double>& widths, double scale,
                           double gap) {
  const auto fits = [&](std::size_t stride) {
    for (std::size_t i = stride; i < ticks.size(); i += stride) {
      const double room = (ticks[i].at - ticks[i - stride].at) * scale;
      if (room < (widths[i] + widths[i - stride]) / 2.0 + gap) return false;
    }
    return true;
  };
  std::size_t stride = 1;
  while (stride < ticks.size() && !fits(stride)) ++stride;
  std::vector<Tick> kept;
  for (std::size_t i = 0; i < ticks.size(); i += stride) kept.push_back(ticks[i]);
  return kept;
}

std::vector<double> spread(std::vector<double> wanted, double gap, double low, double high) {
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return wanted[a] < wanted[b]; });
  double least = low;
  for (const std::size_t i : order) {
    wanted[i] = std::max(wanted[i], least);
    least = wanted[i] + gap;
  }
  double most = high;
  std::reverse(order.begin(), order.end());
  for (const std::size_t i : order) {
    wanted[i] = std::min(wanted[i], most);
    most = wanted[i] - gap;
  }
  return wanted;
}

}  // namespace stillheap::sheet

#include "planning/water/programme.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/error.hpp"

namespace stillheap::water {
namespace {

constexpr double fair_share = 0.1;  // chosen: nearer than a gauge reads

void check(const Way& way) {
  std::vector<Problem> problems;
  const auto refuse = [&](const char* what, double value, const char* allowed) {
    problems.push_back({std::string("water, ") + what, std::to_string(value) + " cannot be", allowed});
  };
  if (!(way.efficiency > 0.0 && way.efficiency <= 1.0))
    refuse("application efficiency", way.efficiency, "give more than 0 and at most 1 (100 %)");
  if (!(way.leaching_share >= 0.0 && way.leaching_share < 1.0))
    refuse("leaching share", way.leaching_share, "give 0 to less than 1 (100 %)");
  if (!(way.step_kg > 0.0)) refuse("amount of one step", way.step_kg, "check line, supply and can: they give no water");
  if (!(way.most_reaching_kg >= 0.0)) refuse("most in a day", way.most_reaching_kg, "give 0 or more");
  if (!problems.empty()) throw InputError(std::move(problems));
}

/// What the material lacks, carried from day to day.
struct Books {
  double depletion_kg = 0.0;
  double wanted_kg = 0.0;

  /// One day; returns the rain that stays.
  double pass(const DayOfHeap& day, double put_on_kg) {
    const double settled_kg = wanted_kg - day.wanted_kg;  // water that solids no longer hold is free to be lost
    wanted_kg = day.wanted_kg;
    const double open_kg = std::max(0.0, depletion_kg + day.lost_kg - settled_kg - put_on_kg);
    const double kept_kg = std::min(day.rain_kg, open_kg);
    depletion_kg = open_kg - kept_kg;
    return kept_kg;
  }
};

/// The days of one row within the forecast.
struct Span {
  std::size_t begin = 0, end = 0;
};

struct Choice {
  int every_days = 0, steps = 0, runs = 0;
};

/// Days from `first_day` on with a run every `every_days`, given the day of the last one.
std::vector<std::size_t> run_days(const Span& span, int every_days, std::size_t first_day,
                                  std::optional<std::size_t> last) {
  std::vector<std::size_t> days;
  for (std::size_t day = std::max(span.begin, first_day); day < span.end; ++day) {
    if (last && day - *last < static_cast<std::size_t>(every_days)) continue;
    days.push_back(day);
    last = day;
  }
  return days;
}

/// The most frequent runs whose sum is within a tenth of the need, or those that come nearest.
Choice choose(double need_kg, const Way& way, const Span& span, std::size_t first_day,
              std::optional<std::size_t> last) {
  Choice best;
  double best_error = 1.0;  // of no run at all
  const double step_kg = way.step_kg * way.efficiency * (1.0 - way.leaching_share);
  for (int every = 1; every <= longest_gap_days; ++every) {
    const auto runs = static_cast<int>(run_days(span, every, first_day, last).size());
    if (runs == 0) continue;
    const double most_steps = std::floor(way.most_reaching_kg * every / (way.step_kg * way.efficiency) + 1e-9);
    const double steps = std::min(most_steps, std::round(need_kg / (runs * step_kg)));
    const double error = std::abs(runs * steps * step_kg / need_kg - 1.0);
    if (error >= best_error) continue;
    best = {every, static_cast<int>(steps), runs};
    best_error = error;
    if (error <= fair_share) break;
  }
  return best;
}

void set_runs(const Choice& choice, const Way& way, Row& row) {
  if (choice.steps == 0) return;
  row.setting = Setting::runs;
  row.every_days = choice.every_days;
  row.steps = choice.steps;
  row.runs = choice.runs;
  row.run_kg = choice.steps * way.step_kg;
  row.run_reaching_kg = row.run_kg * way.efficiency;
}

/// Lack at the end of the row without any run, less what is left open on purpose.
double need_of(Books books, const std::vector<DayOfHeap>& days, const Span& span) {
  for (std::size_t day = span.begin; day < span.end; ++day) books.pass(days[day], 0.0);
  return books.depletion_kg - open_share * std::max(0.0, books.wanted_kg);
}

bool any_frost(const std::vector<DayOfHeap>& days, const Span& span) {
  return std::any_of(days.begin() + static_cast<std::ptrdiff_t>(span.begin),
                     days.begin() + static_cast<std::ptrdiff_t>(span.end),
                     [](const DayOfHeap& day) { return day.frost; });
}

}  // namespace

Programme make_programme(date::Day filled, const std::vector<DayOfHeap>& days, const Way& way, int first_run_day) {
  check(way);
  Programme programme{way, {}, std::vector<double>(days.size())};
  Books books{0.0, days.empty() ? 0.0 : days.front().wanted_kg};  // held by the material as filled
  std::optional<std::size_t> last;
  const auto first_day = static_cast<std::size_t>(std::max(0, first_run_day));
  for (Span span; span.begin < days.size(); span.begin = span.end) {
    const date::Day first = filled + std::chrono::days{span.begin};
    const date::Day ends = date::half_month_after(first, 0).last;
    span.end = std::min(days.size(), span.begin + static_cast<std::size_t>((ends - first).count()) + 1);
    Row row{first, filled + std::chrono::days{span.end - 1}};
    const double need_kg = need_of(books, days, span);
    std::vector<std::size_t> due;
    if (any_frost(days, span)) {
      row.setting = Setting::frost;
    } else if (need_kg > 0.0) {
      const Choice choice = choose(need_kg, way, span, first_day, last);
      set_runs(choice, way, row);
      if (row.runs > 0) due = run_days(span, row.every_days, first_day, last);
    }
    for (const std::size_t day : due) programme.reaching_kg[day] = row.run_reaching_kg;
    if (!due.empty()) last = due.back();
    for (std::size_t day = span.begin; day < span.end; ++day) {
      row.lost_kg += days[day].lost_kg;
      row.rain_kg += days[day].rain_kg;
      row.rain_credited_kg += books.pass(days[day], programme.reaching_kg[day] * (1.0 - way.leaching_share));
    }
    programme.rows.push_back(row);
  }
  return programme;
}

double let_out_kg(const Programme& programme) noexcept {
  double sum_kg = 0.0;
  for (const Row& row : programme.rows) sum_kg += row.runs * row.run_kg;
  return sum_kg;
}

double reaching_kg(const Programme& programme) noexcept {
  double sum_kg = 0.0;
  for (const Row& row : programme.rows) sum_kg += row.runs * row.run_reaching_kg;
  return sum_kg;
}

double run_s(const Programme& programme, const Row& row) noexcept { return row.steps * programme.way.step_s; }

const Row* row_on(const Programme& programme, date::Day day) noexcept {
  if (programme.rows.empty() || day < programme.rows.front().first) return nullptr;
  while (day > programme.rows.back().last && day - std::chrono::days{365} >= programme.rows.front().first)
    day -= std::chrono::days{365};
  const auto found = std::find_if(programme.rows.begin(), programme.rows.end(),
                                  [&](const Row& row) { return row.first <= day && day <= row.last; });
  return found == programme.rows.end() ? nullptr : &*found;
}

bool is_due(const Row& row, date::Day day, std::optional<date::Day> last) noexcept {
  return row.setting == Setting::runs && (!last || (day - *last).count() >= row.every_days);
}

Assumptions programme_choices() {
  return {{"water: programme",
           "whole runs by half-month that give back what the heap loses, less rain that it keeps; the forecast runs "
           "exactly these",
           "books as FAO-56 (Allen et al. 1998) eq. 85"},
          {"water: runs",
           "as often as whole steps come within 10 % of the need, at least every " + std::to_string(longest_gap_days) +
               " days; what is less than half a step waits for the next half-month",
           "chosen"},
          {"water: room",
           std::to_string(static_cast<int>(100 * open_share)) +
               " % of the water that the material could hold stays open for a run or a shower",
           "chosen"}};
}

}  // namespace stillheap::water

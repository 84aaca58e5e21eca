#include "model/forecast/band.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "model/forecast/ensemble.hpp"

namespace stillheap::forecast {
namespace {

constexpr double low_share = 0.10;
constexpr double high_share = 0.90;
constexpr double outside_oxygen = 0.2095;  // by volume of dry air

/// Five equally likely standard normal numbers, the quantiles of 0.1, 0.3 ... 0.9: members that all agree get just the
/// 10th and 90th percentile of the discrepancy.
constexpr std::array<double, 5> normal_fifths{-1.2816, -0.5244, 0.0, 0.5244, 1.2816};

/// What the standard grid would show of what the draft grid shows.
double off_draft_grid(double value, Miss miss) {
  if (miss == Miss::peak) return value + (value < grid_gap.warm_c ? grid_gap.cool_peak_k : grid_gap.warm_peak_k);
  if (miss == Miss::oxygen) return outside_oxygen - grid_gap.depletion_factor * (outside_oxygen - value);
  return value;
}

double peak_deviation_k(double value, Grid grid, const Discrepancy& misses) {
  if (grid != Grid::draft) return misses.peak_k;
  return std::hypot(misses.peak_k,
                    value < grid_gap.warm_c ? grid_gap.cool_peak_deviation_k : grid_gap.warm_peak_deviation_k);
}

double oxygen_deviation(Grid grid, const Discrepancy& misses) {
  return std::hypot(misses.oxygen_share, grid == Grid::draft ? grid_gap.oxygen_deviation : 0.0);
}

double missed(double value, Miss miss, Grid grid, const Discrepancy& misses, double deviations) {
  switch (miss) {
    case Miss::none:
      break;
    case Miss::peak:
      return value + peak_deviation_k(value, grid, misses) * deviations;
    case Miss::average:
      return value + misses.average_k * deviations;
    case Miss::oxygen:
      return value + oxygen_deviation(grid, misses) * deviations;
    case Miss::time:
      return value * std::pow(misses.time_factor, deviations);
    case Miss::loss:
      return value * std::pow(misses.loss_factor, deviations);
  }
  return value;
}

Banded band_of(double line, const std::vector<double>& values) {
  if (values.empty() || !std::isfinite(line)) return {line, line, line};
  return {line, std::min(percentile(values, low_share), line), std::max(percentile(values, high_share), line)};
}

CoolDays cool_days_of(const Ensemble& ensemble) {
  CoolDays days{cool_day_of(ensemble.middle), cool_day_of(ensemble.draft), {}};
  for (const RunHistory& run : ensemble.members)
    if (const auto day = cool_day_of(run)) days.members.push_back(*day);
  return days;
}

}  // namespace

std::vector<double> likely_values(double line, double draft, const std::vector<double>& members, const Kind& kind,
                                  Grid grid, const Discrepancy& misses) {
  const double moved = std::isfinite(line) && std::isfinite(draft) ? line - draft : 0.0;
  std::vector<double> values;
  for (const double member : members) {
    if (!std::isfinite(member)) continue;
    double held = std::clamp(member + moved, kind.least, kind.most);
    if (grid == Grid::draft) held = std::clamp(off_draft_grid(held, kind.miss), kind.least, kind.most);
    if (kind.miss == Miss::none) {
      values.push_back(held);
      continue;
    }
    for (const double z : normal_fifths)
      values.push_back(std::clamp(missed(held, kind.miss, grid, misses, z), kind.least, kind.most));
  }
  return values;
}

Banded band_around(double line, double draft, const std::vector<double>& members, const Kind& kind, Grid grid,
                   const Discrepancy& misses) {
  return band_of(line, likely_values(line, draft, members, kind, grid, misses));
}

Discrepancy discrepancy_of(const OwnReadings& own) noexcept {
  Discrepancy misses = discrepancy;
  if (!own.draws.empty()) misses.peak_k = std::max(own.misfit_k, discrepancy.average_k);
  return misses;
}

std::optional<double> cool_day_of(const RunHistory& run) noexcept {
  return run.heat_ended ? std::optional(run.heat_end_day) : std::nullopt;
}

std::vector<double> likely_cool_days(const CoolDays& days, Grid grid, const Discrepancy& misses) {
  if (!days.line) return {};
  return likely_values(*days.line, days.draft.value_or(*days.line), days.members, days_kind, grid, misses);
}

std::optional<Banded> cool_day_band(const CoolDays& days, Grid grid, const Discrepancy& misses) {
  if (!days.line) return std::nullopt;
  return band_of(*days.line, likely_cool_days(days, grid, misses));
}

std::vector<double> likely_cool_days(const Ensemble& ensemble) {
  return likely_cool_days(cool_days_of(ensemble), ensemble.grid, ensemble.misses);
}

std::optional<Banded> cool_day_band(const Ensemble& ensemble) {
  return cool_day_band(cool_days_of(ensemble), ensemble.grid, ensemble.misses);
}

double cool_share(const Ensemble& ensemble) noexcept {
  const auto& members = ensemble.members;
  if (members.empty()) return 0.0;
  const auto cooled = std::count_if(members.begin(), members.end(), [](const auto& run) { return cool_day_of(run); });
  return static_cast<double>(cooled) / static_cast<double>(members.size());
}

Banded in_order(double middle, double one_end, double other_end) noexcept {
  return {middle, std::min({middle, one_end, other_end}), std::max({middle, one_end, other_end})};
}

}  // namespace stillheap::forecast

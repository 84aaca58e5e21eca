#include "model/forecast/cold_twin.hpp"

#include <algorithm>
#include <cmath>

#include "model/forecast/central.hpp"
#include "model/forecast/stages.hpp"

namespace stillheap::forecast {

std::vector<rules::HeatDay> cold_twin(const Request& request, const std::function<bool(double)>& keep_on) {
  Request cold = on_grid(request, Grid::draft);
  cold.blend.pool_rate_20c_per_s.fill(0.0);
  cold.animated = false;
  const Heap heap = make_heap(cold, central_parameters(cold.blend), grid_size(cold.design, Grid::draft));
  return heat_days(follow(heap, step_rule(Grid::draft), {}, keep_on).history);
}

std::vector<rules::HeatDay> heat_days(const std::vector<HistoryRow>& history) {
  constexpr double just_before = 1e-6;  // a row at the day's end belongs to the day
  std::vector<rules::HeatDay> days;
  for (const HistoryRow& row : history) {
    const double day = std::max(0.0, std::ceil(row.day - just_before));
    if (days.empty() || days.back().day != day) days.push_back({day, row.core_c, row.hottest_c});
    days.back().core_c = std::min(days.back().core_c, row.core_c);
    days.back().hottest_c = std::min(days.back().hottest_c, row.hottest_c);
  }
  return days;
}

void note_heat(RunHistory& track, const std::vector<rules::HeatDay>& twin) {
  const rules::SelfHeating heat = rules::self_heating(heat_days(track.history), twin);
  track.heated = heat.began_day.has_value();
  track.heat_ended = heat.end_day().has_value();
  track.heat_end_day = heat.end_day().value_or(0.0);
}

}  // namespace stillheap::forecast

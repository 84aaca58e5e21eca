#include <algorithm>

#include "present/sheet/forecast_charts.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double weeks_days = 42.0;  // chosen: six weeks, as the log sheet

}  // namespace

void first_weeks_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel, double kept_pt) {
  const Date start = read_date(plan.site.start_date);
  const UnitSystem units = plan.site.units;
  const forecast::Result& result = vessel.forecast;
  flow.start_sheet("The first six weeks", vessel_title(vessel.design) + ", as the forecast has them");
  if (result.history.empty()) {
    flow.paragraph("This forecast has no days to show.");
    return;
  }
  if (result.stopped) flow.paragraph("The forecast stopped early: " + *result.stopped);
  std::vector<Chart> charts{first_temperature_chart(result, start, units, weeks_days),
                            first_oxygen_chart(result, start, units, weeks_days)};
  align_frames(flow.canvas(), charts);
  constexpr double shares[] = {0.58, 0.42};            // of the figures, chosen
  constexpr double least_pt = 310.0, most_pt = 490.0;  // of both figures with their messages
  const double room = flow.room() - 24.0;
  const double figures = std::clamp(room - kept_pt < least_pt ? room : room - kept_pt, least_pt, most_pt);
  for (std::size_t i = 0; i < charts.size(); ++i) {
    draw_chart(flow.canvas(), flow.take(shares[i] * figures), charts[i]);
    flow.space(8.0);
  }
}

}  // namespace stillheap::sheet

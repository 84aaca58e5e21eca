#pragma once
#include <string>
#include <vector>

#include "planning/plan/plan.hpp"
#include "present/draw/dates.hpp"
#include "present/draw/text.hpp"

/// The course of one vessel as bars over one calendar: fill, hot phase, worms, harvest.
namespace stillheap::sheet {

struct TimeSpan {
  std::string what;             ///< "Harvest"
  std::string when;             ///< its dates, or why there are none
  double from = 0.0, to = 0.0;  ///< days since the first fill; no bar when both are 0
};

/// Dates as calendar, worm and harvest rules have them.
[[nodiscard]] std::vector<TimeSpan> time_spans(const plan::Plan& plan, const plan::VesselPlan& vessel);
[[nodiscard]] double timeline_height_pt(const std::vector<TimeSpan>& spans);
void draw_timeline(Canvas& canvas, const Box& box, const std::vector<TimeSpan>& spans, Date start);

}  // namespace stillheap::sheet

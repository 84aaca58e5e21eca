#include "present/sheet/timeline.hpp"

#include <algorithm>

#include "domain/rules/planned_work.hpp"
#include "present/draw/ticks.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double row_pt = 21.0;
constexpr double axis_pt = 18.0;
constexpr double words_pt = 206.0;
constexpr Style words{11.0};

/// The calendar's entry of this vessel that begins with these words.
TimeSpan from_calendar(const plan::Plan& plan, const plan::VesselPlan& vessel, const std::string& what,
                       std::string_view opening) {
  const Date start = read_date(plan.site.start_date);
  for (const plan::CalendarEntry& entry : plan.calendar) {
    if (entry.vessel != vessel.design.name || !entry.what.starts_with(opening)) continue;
    const Date first = read_date(entry.date);
    const Date last = entry.latest_date.empty() ? first : read_date(entry.latest_date);
    return {what, date_span(first, last), static_cast<double>((first - start).count()),
            static_cast<double>((last - start).count()) + 1.0};
  }
  return {what, "", 0.0, 0.0};
}

}  // namespace

std::vector<TimeSpan> time_spans(const plan::Plan& plan, const plan::VesselPlan& vessel) {
  std::vector<TimeSpan> spans{from_calendar(plan, vessel, "Fill", rules::fill_work.opening),
                              from_calendar(plan, vessel, "Hot", "Hot phase")};
  if (spans[1].when.empty()) spans[1].when = "not hot enough";
  spans.push_back(from_calendar(plan, vessel, "Worms in", rules::worm_work.opening));
  if (spans.back().when.empty()) spans.back().when = "not within the forecast";
  spans.push_back(from_calendar(plan, vessel, "Harvest", rules::harvest_work.opening));
  if (!vessel.harvest.cooled_in_forecast) spans.back().when += ", by age alone";
  return spans;
}

double timeline_height_pt(const std::vector<TimeSpan>& spans) {
  return row_pt * static_cast<double>(spans.size()) + axis_pt;
}

void draw_timeline(Canvas& canvas, const Box& box, const std::vector<TimeSpan>& spans, Date start) {
  double days = 30.0;
  for (const TimeSpan& span : spans) days = std::max(days, span.to);
  const Box plot{box.x + words_pt, box.y, box.width - words_pt, row_pt * static_cast<double>(spans.size())};
  const double scale = plot.width / days;
  const Style small{9.0, Weight::regular, soft};
  std::vector<double> widths;
  const std::vector<Tick> months = month_ticks(start, days);
  for (const Tick& tick : months) {
    widths.push_back(measure(canvas, tick.label, small).width);
    line(canvas, {plot.x + tick.at * scale, plot.y}, {plot.x + tick.at * scale, plot.bottom()}, {hair, 0.4});
  }
  for (const Tick& tick : thin_out(months, widths, scale, 6.0)) {
    const double half = 0.5 * measure(canvas, tick.label, small).width;
    const double x = std::clamp(plot.x + tick.at * scale, plot.x + half, plot.right() - half);
    draw_label(canvas, {x, plot.bottom() + 3.0}, tick.label, small, Across::middle, Down::top);
  }
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const double middle = plot.y + row_pt * (static_cast<double>(i) + 0.5);
    draw_label(canvas, {box.x, middle}, spans[i].what, {words.size_pt, Weight::strong}, Across::left, Down::middle);
    const double indent = 56.0;
    const double high = measure(canvas, spans[i].when, words).height;
    if (!spans[i].when.empty())
      draw_line_of_text(canvas, {box.x + indent, middle - 0.5 * high}, spans[i].when, words, words_pt - indent - 8.0);
    line(canvas, {plot.x, middle}, {plot.right(), middle}, {hair, 0.6});
    if (spans[i].to <= spans[i].from) continue;
    fill(canvas,
         {plot.x + spans[i].from * scale, middle - 4.5, std::max(2.5, (spans[i].to - spans[i].from) * scale), 9.0},
         accent);
  }
}

}  // namespace stillheap::sheet

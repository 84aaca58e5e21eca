#include <algorithm>
#include <cctype>
#include <cmath>

#include "core/quantity/retold.hpp"
#include "domain/vessel/base.hpp"
#include "model/forecast/odds.hpp"
#include "planning/plan/odds_text.hpp"
#include "planning/plan/shopping.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/timeline.hpp"
#include "present/sheet/vessel_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

/// A figure the reader looks for: what it is, the number large, and what stands beside it.
struct Fact {
  std::string label, value, note;
};

constexpr double fact_gap_pt = 14.0;

double fact_height(Canvas& canvas, const Fact& fact, double width) {
  return measure(canvas, fact.label, style::label, width).height +
         measure(canvas, fact.value, style::figure, width).height +
         measure(canvas, fact.note, style::note, width).height + 10.0;
}

void draw_fact(Canvas& canvas, Spot at, const Fact& fact, double width) {
  line(canvas, at, {at.x + width, at.y}, {hair, 0.6});
  double y = draw_text(canvas, {at.x, at.y + 3.0}, fact.label, style::label, width).bottom();
  y = draw_text(canvas, {at.x, y}, fact.value, style::figure, width).bottom();
  if (!fact.note.empty()) draw_text(canvas, {at.x, y}, fact.note, style::note, width);
}

/// Facts in rows of `columns`, each row as high as its tallest.
void draw_fact_grid(Flow& flow, const std::vector<Fact>& facts, std::size_t columns, double left, double width) {
  const double each = (width - fact_gap_pt * static_cast<double>(columns - 1)) / static_cast<double>(columns);
  for (std::size_t first = 0; first < facts.size(); first += columns) {
    const std::size_t last = std::min(facts.size(), first + columns);
    double height = 0.0;
    for (std::size_t i = first; i < last; ++i) height = std::max(height, fact_height(flow.canvas(), facts[i], each));
    flow.need(height);
    for (std::size_t i = first; i < last; ++i) {
      const double x = left + static_cast<double>(i - first) * (each + fact_gap_pt);
      draw_fact(flow.canvas(), {x, flow.y()}, facts[i], each);
    }
    flow.space(height);
  }
}

std::string needed_note(const Plan& plan) {
  if (plan.vessels_needed_low == plan.vessels_needed_high) return "";
  return std::to_string(plan.vessels_needed_low) + " to " + std::to_string(plan.vessels_needed_high) + " over the band";
}

std::vector<Fact> yard_facts(const Plan& plan) {
  const UnitSystem units = plan.site.units;
  const std::string compost = quantity::format(plan.finished_m3.middle, Dimension::volume, units);
  return {
      {"Vessels to build", std::to_string(plan.vessels_needed) + (plan.vessels_needed == 1 ? " vessel" : " vessels"),
       needed_note(plan)},
      {"Finished compost, in all", compost, amount_span(plan.finished_m3, Dimension::volume, units)},
      {"To buy", money(plan.material_cost, plan.site.currency), plan::material_sum(plan).words()},
      {"Work in the first year", clock_time(plan.labour_hours),
       plan.labour_cost > 0.0 ? money(plan.labour_cost, plan.site.currency) + " at the wage given" : "no wage given"}};
}

Fact cool_fact(const forecast::Summary& summary, Date start, int days, UnitSystem units) {
  const std::string label = "End of self-heating";
  if (!summary.heated)
    return {label, "never heats", quantity::retold("always within 3 K of the same heap without decay", units)};
  if (!summary.cool_day) return {label, "not yet", "not within the " + std::to_string(days) + " days forecast"};
  std::string note = long_date(after(start, *summary.cool_day));
  if (summary.cool_day_low && summary.cool_day_high) {
    note += "; day " + decimal(*summary.cool_day_low, 0) + " to " + decimal(*summary.cool_day_high, 0);
  }
  if (summary.cool_share_of_members < 1.0) note += "; in " + percent(summary.cool_share_of_members) + " of the runs";
  return {label, "day " + decimal(*summary.cool_day, 0), note};
}

/// Over the ground: base, wall, and what stands above it while the forms are in.
Fact height_fact(const vessel::Design& design, UnitSystem units) {
  const double under = design.base_gap_m + vessel::deck_thickness_m;
  std::string note = "base and wall";
  if (!design.channels.empty()) {
    note += "; " + quantity::format_workshop(under + design.height_m + vessel::Allowances{}.form_handhold_m, units) +
            " while the forms are in";
  }
  return {"Height over the ground", quantity::format_workshop(under + design.height_m, units), note};
}

Fact weight_fact(const VesselPlan& vessel, UnitSystem units) {
  return {"Weight when filled", quantity::format(vessel.loads.mass_wet_kg, Dimension::mass, units),
          "with every pore full of water " +
              quantity::format(vessel.loads_waterlogged.mass_wet_kg, Dimension::mass, units)};
}

Fact filling_fact(const Plan& plan, const VesselPlan& vessel) {
  const int people = plan.site.practice.people;
  return {"Filling one vessel", clock_time(vessel.fill.clock_s / 3600.0),
          std::to_string(people) + (people == 1 ? " person, " : " people, ") + std::to_string(vessel.fill.pails) +
              " pails of " + quantity::format(plan.site.practice.pail_m3, Dimension::volume, plan.site.units)};
}

std::vector<Fact> vessel_facts(const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const forecast::Summary& s = vessel.forecast.summary;
  const auto days = [](const forecast::Banded& b) { return span_of(counted_days(b.low), counted_days(b.high)); };
  const auto day_span = [](const forecast::Banded& b) {
    return std::round(b.low) == std::round(b.high) ? "day " + decimal(b.low, 0)
                                                   : "day " + decimal(b.low, 0) + " to " + decimal(b.high, 0);
  };
  return {
      {std::string(plan::words_of(plan::end_state(s))) + ", one vessel",
       quantity::format(s.finished_volume_m3.middle, Dimension::volume, units),
       amount_span(s.finished_volume_m3, Dimension::volume, units) + "; " +
           quantity::format(s.finished_mass_kg.middle, Dimension::mass, units) + " wet (" +
           amount_span(s.finished_mass_kg, Dimension::mass, units) + ")"},
      {"Hottest", temperature(s.peak_temperature_c.middle, units),
       temperature_span(s.peak_temperature_c, units) + "; on day " + decimal(s.peak_day.middle, 0) + " (" +
           day_span(s.peak_day) + ")"},
      {"Days above " + quantity::format(55.0, Dimension::temperature, units),
       counted_days(s.days_above_55_mass_mean.middle),
       "mean of the mass, " + days(s.days_above_55_mass_mean) + "; 3 days running in " +
           percent(s.share_3_days_above_55.middle) + " (" + percent_span(s.share_3_days_above_55) + ") of the mass"},
      cool_fact(s, read_date(plan.site.start_date), plan.site.forecast_days, plan.site.units),
      {"Lowest oxygen in the pores", percent(s.lowest_oxygen.middle, 1),
       percent_span(s.lowest_oxygen, 1) + "; on day " + decimal(s.lowest_oxygen_day.middle, 0) + " (" +
           day_span(s.lowest_oxygen_day) + ")" + "; free air has 20.9 %"},
      height_fact(vessel.design, units),
      weight_fact(vessel, units),
      filling_fact(plan, vessel),
  };
}

/// Ten rings, as many filled as times out of ten.
void paint_tenths(Canvas& canvas, const Box& cell, int tenths) {
  constexpr double radius = 4.2;
  for (int i = 0; i < 10; ++i) {
    const Spot at{cell.x + radius + i * 2.6 * radius, cell.middle_y()};
    if (i < tenths) disc(canvas, at, radius, accent);
    circle(canvas, at, radius, {i < tenths ? accent : soft, 0.8});
  }
}

void draw_odds(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const auto& odds = vessel.forecast.summary.odds;
  if (odds.empty()) return;
  Table table;
  table.heading = "Will it get hot? Chances out of ten";
  table.size_pt = 9.5;
  table.row_padding_pt = 2.5;
  table.columns = {{.head = "", .fixed_pt = 0.54 * flow.width()},
                   {.head = "",
                    .fixed_pt = 112.0,
                    .paint = [&odds](Canvas& canvas, const Box& cell,
                                     std::size_t row) { paint_tenths(canvas, cell, forecast::in_ten(odds[row])); }},
                   {.head = "", .strong = true}};
  for (const forecast::Odds& one : odds) {
    std::string event = plan::odds_event(one, plan.site.units);
    event.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(event.front())));
    table.rows.push_back({{std::move(event), "", plan::odds_figure(one)}});
  }
  draw_table(flow, table);
}

std::string size_words(const vessel::Design& design, UnitSystem units) {
  const std::string across = design.footprint == vessel::Footprint::round
                                 ? quantity::format_workshop(design.diameter_m, units) + " across, "
                                 : quantity::format_workshop(design.length_m, units) + " by " +
                                       quantity::format_workshop(design.width_m, units) + ", ";
  return across + quantity::format_workshop(design.height_m, units) + " high, " +
         std::to_string(design.channels.size()) + " air channels";
}

/// Picture at the left, the line of time beside it.
void draw_when(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  constexpr double picture_pt = 104.0, gap_pt = 18.0;
  const double picture_high = std::min(78.0, picture_pt * picture_height_share(vessel.design));
  const std::string size = size_words(vessel.design, plan.site.units);
  const double words_high = measure(flow.canvas(), size, style::note, picture_pt).height;
  const std::vector<TimeSpan> spans = time_spans(plan, vessel);
  const Box row = flow.take(std::max(picture_high + words_high + 8.0, timeline_height_pt(spans)));
  draw_vessel_picture(flow.canvas(), {row.x, row.y + 2.0, picture_pt, picture_high}, vessel.design);
  draw_text(flow.canvas(), {row.x, row.y + picture_high + 6.0}, size, style::note, picture_pt);
  draw_timeline(flow.canvas(), {row.x + picture_pt + gap_pt, row.y, row.width - picture_pt - gap_pt, row.height}, spans,
                read_date(plan.site.start_date));
}

void draw_vessel_block(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.heading(vessel_title(vessel.design), 200.0);
  draw_when(flow, plan, vessel);
  flow.space(6.0);
  draw_fact_grid(flow, vessel_facts(plan, vessel), 4, flow.left(), flow.width());
  if (vessel.forecast.stopped) flow.paragraph("The forecast stopped early: " + *vessel.forecast.stopped);
  draw_odds(flow, plan, vessel);
}

}  // namespace

void answer_page(Flow& flow, const Plan& plan) {
  flow.start_sheet("What will come out", plan.site.name);
  draw_fact_grid(flow, yard_facts(plan), 4, flow.left(), flow.width());
  for (const VesselPlan& vessel : plan.vessels) draw_vessel_block(flow, plan, vessel);
  findings_box(flow, plan, "What can go wrong (sources in the appendix)");
  const int members = plan.vessels.empty() ? 0 : plan.vessels.front().forecast.members;
  flow.paragraph(
      "Large figures are one forecast with the values given and assumed; the ranges are the 10th to 90th percentile "
      "of " +
          std::to_string(members) +
          " runs whose feedstocks and surfaces vary as such materials do. A forecast is no proof: probe and record.",
      style::note);
}

}  // namespace stillheap::sheet

#include <algorithm>
#include <cctype>
#include <cmath>

#include "planning/plan/odds_text.hpp"
#include "planning/plan/shopping.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
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
      {"Finished compost, one fill of each", compost, amount_span(plan.finished_m3, Dimension::volume, units)},
      {"To buy: vessels and feedstocks", money(plan.material_cost, plan.site.currency),
       plan::material_sum(plan).words()},
      {"Work in the first year", clock_time(plan.labour_hours),
       plan.labour_cost > 0.0 ? money(plan.labour_cost, plan.site.currency) + " at the wage given" : "no wage given"}};
}

Fact cool_fact(const forecast::Summary& summary, Date start, int days) {
  const std::string label = "End of self-heating";
  if (!summary.heated) return {label, "never heats", "always within 3 K of the same heap without decay"};
  if (!summary.cool_day) return {label, "not yet", "not within the " + std::to_string(days) + " days forecast"};
  std::string note = long_date(after(start, *summary.cool_day));
  if (summary.cool_day_low && summary.cool_day_high) {
    note += "; day " + decimal(*summary.cool_day_low, 0) + " to " + decimal(*summary.cool_day_high, 0);
  }
  if (summary.cool_share_of_members < 1.0) note += "; in " + percent(summary.cool_share_of_members) + " of the runs";
  return {label, "day " + decimal(*summary.cool_day, 0), note};
}

Fact harvest_fact(const plan::Harvest& harvest, Date start) {
  const std::string dates = date_span(after(start, harvest.early_day), after(start, harvest.late_day));
  return {"Harvest", "day " + decimal(harvest.early_day, 0) + " to " + decimal(harvest.late_day, 0),
          harvest.cooled_in_forecast ? dates : dates + "; by common practice, self-heating goes on past the forecast"};
}

Fact worm_fact(const plan::WormWindow& worms, Date start) {
  if (!worms.day) return {"Worms in", "not within the forecast", worms.why_none};
  return {"Worms in", "day " + decimal(*worms.early_day, 0) + " to " + decimal(*worms.late_day, 0),
          date_span(after(start, *worms.early_day), after(start, *worms.late_day))};
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
      {"Days above " + quantity::format(55.0, Dimension::temperature, units) + ", mean of the mass",
       counted_days(s.days_above_55_mass_mean.middle),
       days(s.days_above_55_mass_mean) + "; 3 days running in " + percent(s.share_3_days_above_55.middle) + " (" +
           percent_span(s.share_3_days_above_55) + ") of the mass"},
      cool_fact(s, read_date(plan.site.start_date), plan.site.forecast_days),
      worm_fact(vessel.worms, read_date(plan.site.start_date)),
      {"Lowest oxygen in the pores", percent(s.lowest_oxygen.middle, 1),
       percent_span(s.lowest_oxygen, 1) + " by volume; on day " + decimal(s.lowest_oxygen_day.middle, 0) + " (" +
           day_span(s.lowest_oxygen_day) + ")" + "; free air has 20.9 %"},
      {"Mean moisture at the end", percent(s.mean_moisture_end_wet.middle),
       percent_span(s.mean_moisture_end_wet) + " of wet mass; driest place ever " +
           percent(s.driest_moisture_wet.middle) + " (" + percent_span(s.driest_moisture_wet) + ")"},
      {"Water let out, one vessel", water_volume(water::let_out_kg(vessel.programme), units, 4),
       water_volume(water::reaching_kg(vessel.programme), units, 4) + " of it gets into the heap; " +
           water_volume(s.water_drained_kg.middle, units, 4) + " drain; see the water card"},
      harvest_fact(vessel.harvest, read_date(plan.site.start_date)),
  };
}

void draw_odds(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const auto& odds = vessel.forecast.summary.odds;
  if (odds.empty()) return;
  std::vector<std::pair<std::string, std::string>> rows;
  for (const forecast::Odds& one : odds) {
    std::string event = plan::odds_event(one, plan.site.units);
    event.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(event.front())));
    rows.emplace_back(std::move(event), plan::odds_figure(one));
  }
  draw_facts(flow, "What the odds are", rows, 9.5);
}

void draw_vessel_block(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  constexpr double picture_pt = 128.0;
  flow.heading(vessel_title(vessel.design), 200.0);
  const double top = flow.y();
  const int page = flow.canvas().page();
  draw_fact_grid(flow, vessel_facts(plan, vessel), 2, flow.left() + picture_pt + 20.0,
                 flow.width() - picture_pt - 20.0);
  // The picture belongs beside the first rows; when they went on over the page it is left out.
  if (flow.canvas().page() == page) {
    const double height = std::min(150.0, picture_pt * picture_height_share(vessel.design));
    draw_vessel_picture(flow.canvas(), {flow.left(), top + 4.0, picture_pt, height}, vessel.design);
    const std::string size = vessel.design.footprint == vessel::Footprint::round
                                 ? quantity::format_workshop(vessel.design.diameter_m, plan.site.units) + " across, "
                                 : quantity::format_workshop(vessel.design.length_m, plan.site.units) + " by " +
                                       quantity::format_workshop(vessel.design.width_m, plan.site.units) + ", ";
    draw_text(flow.canvas(), {flow.left(), top + height + 9.0},
              size + quantity::format_workshop(vessel.design.height_m, plan.site.units) + " high, " +
                  std::to_string(vessel.design.channels.size()) + " air channels",
              style::note, picture_pt);
  }
  if (vessel.forecast.stopped) flow.paragraph("The forecast stopped early: " + *vessel.forecast.stopped);
  draw_odds(flow, plan, vessel);
  flow.space(8.0);
}

/// A finding without its numbers: what makes two of them the same kind.
std::string kind_of(const Warning& warning) {
  std::string kind = warning.where + "|" + warning.what;
  std::erase_if(kind, [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0 || c == '.'; });
  return kind;
}

/// Each kind of finding once; the list with the sources has them all.
std::vector<std::string> warning_lines(const Plan& plan) {
  std::vector<std::string> kinds;
  for (const Warning& warning : plan.warnings) kinds.push_back(kind_of(warning));
  std::vector<std::string> lines;
  for (auto kind = kinds.begin(); kind != kinds.end(); ++kind) {
    if (std::find(kinds.begin(), kind, *kind) != kind) continue;
    const Warning& warning = plan.warnings[static_cast<std::size_t>(kind - kinds.begin())];
    const auto more = std::count(kind + 1, kinds.end(), *kind);
    lines.push_back((warning.where.empty() ? "" : warning.where + ": ") + warning.what +
                    (more > 0 ? "; and " + std::to_string(more) + " more like it" : ""));
  }
  for (const VesselPlan& vessel : plan.vessels) {
    if (vessel.air_path.length_m > plan.site.wanted_air_path_m) {
      lines.push_back(vessel.design.name + ": the longest air path is " +
                      quantity::format_workshop(vessel.air_path.length_m, plan.site.units) + ", more than the wanted " +
                      quantity::format_workshop(plan.site.wanted_air_path_m, plan.site.units) +
                      (vessel.suggestion ? "; " + vessel.suggestion->words + " would meet it" : ""));
    }
  }
  return lines;
}

/// One sentence from each place of the work; the cautions sheet has them all.
std::vector<std::string> key_cautions(const Plan& plan) {
  std::vector<std::string> lines;
  std::vector<std::string> places;
  for (const plan::Caution& caution : plan.cautions) {
    if (std::find(places.begin(), places.end(), caution.place) != places.end()) continue;
    places.push_back(caution.place);
    lines.push_back(caution.text);
    if (lines.size() == 4) break;
  }
  return lines;
}

}  // namespace

void answer_page(Flow& flow, const Plan& plan) {
  flow.start_sheet("What will come out", plan.site.name + ", first fill " + long_date(read_date(plan.site.start_date)));
  draw_fact_grid(flow, yard_facts(plan), 4, flow.left(), flow.width());
  flow.space(8.0);
  for (const VesselPlan& vessel : plan.vessels) draw_vessel_block(flow, plan, vessel);
  const int members = plan.vessels.empty() ? 0 : plan.vessels.front().forecast.members;
  flow.paragraph(
      "Large figures are one forecast with the values given and assumed; the ranges are the 10th to 90th percentile "
      "of " +
          std::to_string(members) +
          " runs whose feedstocks and surfaces vary as such materials do. A forecast is no proof: probe and record.",
      style::note);
  flow.space(4.0);
  flow.caution_box("Before you start: read the cautions sheet; local codes and licensed practice come first",
                   key_cautions(plan), 9.5);
  if (const auto lines = warning_lines(plan); !lines.empty())
    flow.caution_box("Findings to look at (their sources stand in the appendix)", lines, 9.5, false);
}

}  // namespace stillheap::sheet

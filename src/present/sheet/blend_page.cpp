#include <algorithm>
#include <cmath>

#include "domain/material/ranges.hpp"
#include "present/draw/range_bar.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using material::Blend;
using plan::Plan;
using plan::VesselPlan;

double loose_m3(const material::Part& part) {
  return part.feedstock.bulk_density_kg_m3 > 0.0 ? part.mass_wet_kg / part.feedstock.bulk_density_kg_m3 : 0.0;
}

void parts_table(Flow& flow, const Plan& plan, const Blend& blend) {
  const UnitSystem units = plan.site.units;
  Table table;
  table.size_pt = 11.0;
  table.columns = {
      {.head = "Feedstock, as delivered", .strong = true}, {.head = "Parts by volume", .align = Align::right},
      {.head = "Volume", .align = Align::right},           {.head = "Pails", .align = Align::right},
      {.head = "Parts by mass", .align = Align::right},    {.head = "Mass", .align = Align::right}};
  double volume = 0.0;
  double pails = 0.0;
  std::vector<double> volumes;
  std::vector<double> masses;
  for (const material::Part& part : blend.parts) {
    volumes.push_back(loose_m3(part));
    masses.push_back(part.mass_wet_kg);
    volume += volumes.back();
  }
  const std::vector<int> by_volume = whole_percent(volumes);
  const std::vector<int> by_mass = whole_percent(masses);
  for (std::size_t i = 0; i < blend.parts.size(); ++i) {
    const material::Part& part = blend.parts[i];
    const double loose = volumes[i];
    const double count = plan.site.practice.pail_m3 > 0.0 ? std::ceil(loose / plan.site.practice.pail_m3 - 1e-9) : 0.0;
    pails += count;
    table.rows.push_back(
        {{part.feedstock.name, std::to_string(by_volume[i]) + " %", quantity::format(loose, Dimension::volume, units),
          decimal(count, 0), std::to_string(by_mass[i]) + " %",
          quantity::format(part.mass_wet_kg, Dimension::mass, units)}});
  }
  table.rows.push_back({{"Together", "100 %", quantity::format(volume, Dimension::volume, units), decimal(pails, 0),
                         "100 %", quantity::format(blend.mass_wet_kg, Dimension::mass, units)},
                        RowKind::total});
  table.heading = "For one vessel";
  draw_table(flow, table);
}

Reading ratio_reading(const std::string& name, double value, double low, double high) {
  Reading reading{name, decimal(value, 0) + " to 1", value, low, high, decimal(low, 0), decimal(high, 0)};
  reading.axis_high = std::max(1.6 * high, 1.1 * value);
  return reading;
}

Reading share_reading(const std::string& name, double share, const material::Range& range, const std::string& of) {
  Reading reading{name, percent(share) + of, share, range.low, range.high, percent(range.low), percent(range.high)};
  reading.axis_high = 1.0;
  return reading;
}

/// Against the handbook range, since the site file sets none.
Reading density_reading(const Blend& soaked, UnitSystem units) {
  const auto words = [units](double density) { return quantity::format(density, Dimension::density, units); };
  const material::StartingRange range = material::bulk_density_range();
  Reading density{"Bulk density, soaked", words(soaked.bulk_density_kg_m3), soaked.bulk_density_kg_m3};
  if (std::isfinite(range.low) && range.low > 0.0) {
    density.low = range.low;
    density.low_words = words(range.low);
  }
  if (std::isfinite(range.high)) {
    density.high = range.high;
    density.high_words = (density.low ? "" : "at most ") + words(range.high);
  }
  density.axis_high = std::max(1.5 * density.high.value_or(0.0), 1.1 * soaked.bulk_density_kg_m3);
  return density;
}

std::vector<Reading> readings_of(const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const Blend& soaked = vessel.blend_soaked;
  const material::Limits& limits = plan.site.blend.limits;
  Reading before{"Moisture as delivered", percent(vessel.blend_as_delivered.moisture_wet)};
  before.note = "of wet mass; soaking brings it up";
  Reading degradable{"C:N of the degradable part", decimal(soaked.degradable_carbon_to_nitrogen, 0) + " to 1"};
  degradable.note = "no range given; what the first weeks feel, since wood yields slowly";
  Reading salts{"Salts, in water 1 to 5", quantity::format(soaked.conductivity_s_m, Dimension::conductivity, units, 2),
                soaked.conductivity_s_m};
  salts.high = limits.conductivity_max_s_m;
  salts.high_words = "at most " + quantity::format(limits.conductivity_max_s_m, Dimension::conductivity, units, 2);
  salts.axis_high = std::max(1.5 * limits.conductivity_max_s_m, 1.1 * soaked.conductivity_s_m);
  return {before,
          share_reading("Moisture after soaking", soaked.moisture_wet, limits.moisture_wet, ""),
          ratio_reading("C:N of all carbon", soaked.carbon_to_nitrogen, limits.carbon_to_nitrogen.low,
                        limits.carbon_to_nitrogen.high),
          degradable,
          share_reading("Free air space, soaked", soaked.free_air_space, limits.free_air_space, ""),
          density_reading(soaked, units),
          salts};
}

void soak_bath(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const material::SoakPlan& soak = vessel.fill.soak;
  const material::Bath& bath = plan.site.bath;
  if (soak.too_wet_already) {
    flow.heading("Soak bath");
    flow.paragraph(
        "As delivered the blend is wetter than wanted: do not soak it; spread it to dry, or add dry feedstock.",
        style::card);
    return;
  }
  draw_facts(flow, "Soak bath",
             {{"Bath", quantity::format(bath.volume_m3, Dimension::volume, units) + " of water"},
              {"A batch",
               quantity::format(bath.load_share * bath.volume_m3, Dimension::volume, units) + " of loose feedstock"},
              {"Under water", quantity::format(bath.soak_s, Dimension::duration, units)},
              {"Draining", quantity::format(bath.drain_s, Dimension::duration, units)},
              {"Batches for one vessel", std::to_string(soak.batches) + " batches"},
              {"Soaking and filling on the clock", clock_time(vessel.fill.clock_s / 3600.0) + ", see the fill card"},
              {"Water kept by the material", water_volume(soak.water_taken_kg, units, 3)},
              {"Water to draw in all", water_volume(soak.water_to_draw_kg, units, 3)}},
             11.0);
}

}  // namespace

void blend_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Blend card", vessel_title(vessel.design));
  parts_table(flow, plan, vessel.blend_as_delivered);
  flow.paragraph(
      plan.blend_was_found
          ? "Shares found by linear programming under the ranges below. Pails are rounded up, loosely filled."
          : "Shares as set in the site file. Pails are rounded up, loosely filled.",
      style::note);
  flow.space(6.0);
  flow.heading("The blend against its ranges");
  draw_readings(flow, readings_of(plan, vessel));
  soak_bath(flow, plan, vessel);
  flow.paragraph("Range of bulk density: " + std::string(material::bulk_density_range().source) +
                     ". The other ranges are those of the site file.",
                 style::note);
}

}  // namespace stillheap::sheet

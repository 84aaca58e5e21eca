#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

#include "domain/vessel/design.hpp"
#include "planning/study/case_result.hpp"

namespace stillheap::study {
namespace {

using forecast::Banded;
using forecast::Summary;
using plan::Plan;
using plan::VesselPlan;

using D = Dimension;

constexpr std::optional<Dimension> plain;
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

Banded sharp(double value) { return {value, value, value}; }

const Summary& summary_of(const VesselPlan& kind) { return kind.forecast.summary; }

/// Water to let out in a year; not known when the forecast is shorter. The programme is one, without a band.
double water_year_kg(const VesselPlan& kind) {
  double sum_kg = 0.0;
  const water::Programme& programme = kind.programme;
  if (programme.reaching_kg.size() < 365) return unknown;
  for (std::size_t day = 0; day < 365; ++day) sum_kg += programme.reaching_kg[day] / programme.way.efficiency;
  return sum_kg;
}

Banded cool_day(const Summary& summary) {
  if (!summary.cool_day) return sharp(unknown);
  return {*summary.cool_day, summary.cool_day_low.value_or(*summary.cool_day),
          summary.cool_day_high.value_or(*summary.cool_day)};
}

Banded per_volume(const Banded& amount, double volume_m3) {
  return {amount.middle / volume_m3, amount.low / volume_m3, amount.high / volume_m3};
}

template <Banded Summary::*member>
Banded of(const Plan&, const VesselPlan& kind) {
  return summary_of(kind).*member;
}

// clang-format off
const std::array rows{
    Measure{"volume_m3", "m3", "material of one vessel as filled", D::volume, false,
            [](const Plan&, const VesselPlan& k) { return sharp(vessel::material_volume_m3(k.design)); }},
    Measure{"wet_mass_kg", "kg", "the same by mass, soaked", D::mass, false,
            [](const Plan&, const VesselPlan& k) { return sharp(k.blend_soaked.mass_wet_kg); }},
    Measure{"channels", "1", "air channels of one vessel", plain, false,
            [](const Plan&, const VesselPlan& k) { return sharp(static_cast<double>(k.design.channels.size())); }},
    Measure{"longest_air_path_m", "m", "from the place farthest from air to the nearest air", D::length, false,
            [](const Plan&, const VesselPlan& k) { return sharp(k.air_path.length_m); }},
    Measure{"vessels_needed", "1", "of all kinds together, for the goal", plain, false,
            [](const Plan& p, const VesselPlan&) { return Banded{static_cast<double>(p.vessels_needed),
                                                                 static_cast<double>(p.vessels_needed_low),
                                                                 static_cast<double>(p.vessels_needed_high)}; }},
    Measure{"labour_first_year_h", "hour", "work of the first year, all vessels", plain, false,
            [](const Plan& p, const VesselPlan&) { return sharp(p.labour_hours); }},
    Measure{"line_water_kg_year", "kg", "to let out for one vessel in a year, by its programme; known from a year's forecast on",
            D::mass, true,
            [](const Plan&, const VesselPlan& k) { return sharp(water_year_kg(k)); }},
    Measure{"peak_temperature_c", "degC", "hottest place at any time", D::temperature, true, of<&Summary::peak_temperature_c>},
    Measure{"peak_day", "day", "when that was, since filling", plain, true, of<&Summary::peak_day>},
    Measure{"share_3_days_above_55", "1", "of the mass, 3 days running at 55 degC or above", D::fraction, true,
            of<&Summary::share_3_days_above_55>},
    Measure{"days_above_55_mass_mean_d", "day", "at 55 degC or above, mean of the mass", plain, true,
            of<&Summary::days_above_55_mass_mean>},
    Measure{"lowest_oxygen", "1", "by volume of the air in the pores, any place and time", D::fraction, true,
            of<&Summary::lowest_oxygen>},
    Measure{"most_mass_below_5_oxygen", "1", "largest share of the mass below 5 % oxygen at one time", D::fraction, true,
            of<&Summary::most_mass_below_5_oxygen>},
    Measure{"days_any_below_5_oxygen_d", "day", "with any place below 5 % oxygen", plain, true,
            of<&Summary::days_any_below_5_oxygen>},
    Measure{"cool_day", "day", "end of self-heating: hottest place and core within 3 K of the same heap without decay for 14 days; "
            "not known: not within the forecast",
            plain, true, [](const Plan&, const VesselPlan& k) { return cool_day(summary_of(k)); }},
    Measure{"moisture_end_wet", "1", "mean at the end, by wet mass", D::fraction, true, of<&Summary::mean_moisture_end_wet>},
    Measure{"water_put_on_kg", "kg", "sprinkled and rained on one vessel in the forecast", D::mass, true,
            of<&Summary::water_put_on_kg>},
    Measure{"water_put_on_kg_m3", "kg/m3", "the same for each volume filled", D::density, true,
            [](const Plan&, const VesselPlan& k) {
              return per_volume(summary_of(k).water_put_on_kg, vessel::material_volume_m3(k.design)); }},
    Measure{"solids_lost", "1", "of the dry matter", D::fraction, true, of<&Summary::solids_lost>},
    Measure{"finished_volume_m3", "m3", "of one vessel at the end of the forecast", D::volume, true,
            of<&Summary::finished_volume_m3>},
};
// clang-format on

}  // namespace

std::span<const Measure> measures() noexcept { return rows; }

std::string shown(const Measure& measure, double value, UnitSystem units) {
  if (!std::isfinite(value)) return "none";
  if (measure.shown) return quantity::format(value, *measure.shown, units);
  const std::string number = fmt::format("{:.0f}", value);
  if (measure.unit == "hour") return number + " h";
  return measure.name.ends_with("day") ? "day " + number : measure.unit == "day" ? number + " d" : number;
}

std::size_t measure_index(std::string_view name) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].name == name) return i;
  }
  throw std::out_of_range("no measure " + std::string(name));
}

}  // namespace stillheap::study

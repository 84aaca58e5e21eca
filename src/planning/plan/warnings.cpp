#include "planning/plan/warnings.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/base/date.hpp"
#include "core/base/plain_number.hpp"
#include "core/quantity/retold.hpp"
#include "core/quantity/told.hpp"
#include "domain/rules/harvest.hpp"
#include "domain/rules/moisture.hpp"
#include "domain/vessel/base.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/hours.hpp"
#include "planning/plan/practice.hpp"
#include "planning/plan/suggestion_text.hpp"

namespace stillheap::plan {
namespace {

constexpr double least_uniformity = 0.80;  // Keller and Bliesner 1990, Christiansen's coefficient; from memory
constexpr double least_oxygen = 0.05;      // NRAES-54 1992, table 2.1: more than 5 %
constexpr double uptake_low_g_kg_h = 1.0;  // Richard, Cornell compost pages, after Haug 1993
constexpr double uptake_high_g_kg_h = 10.0;

/// Collects warnings of one vessel; knows how to write amounts.
class Collector {
 public:
  Collector(const Plan& plan, const VesselPlan& vessel, Warnings& warnings)
      : plan_(plan), vessel_(vessel), warnings_(warnings) {}

  void blend() const {
    for (const Warning& found : material::check_ranges(vessel_.blend_soaked)) {
      say(found.where, found.what, found.source);
    }
    const double wanted = plan_.site.blend.moisture_target_wet;
    const double has = vessel_.blend_as_delivered.moisture_wet;
    if (has > wanted + 1e-9) {
      say("moisture",
          "arrives at " + share(has) + ", wetter than the wanted " + share(wanted) + "; soaking cannot dry it",
          "site file");
    }
  }

  void structure() const {
    for (const vessel::Clash& clash : vessel_.warnings)
      say("channels", vessel::describe(clash, [this](double m) { return workshop(m); }), "geometry of the base");
    for (const vessel::Seat& seat : vessel::seats_of(vessel_.design)) {
      if (!seat.short_of) continue;
      say("base",
          "the hole of channel " + std::to_string(seat.channel + 1) +
              " has no whole slat to carry it on one side; lay a slat there, or boards side by side",
          "geometry of the base");
    }
    if (vessel_.air_path.length_m > plan_.site.wanted_air_path_m + 1e-9) say("air path", air_path_words(), "site file");
  }

  void loads() const {
    const vessel::Loads& loads = vessel_.loads;
    if (plan_.site.soil_bearing_pa > 0.0 && loads.ground_pressure_pa > plan_.site.soil_bearing_pa) {
      say("ground",
          "the full vessel presses with " + ground(loads.ground_pressure_pa) +
              " over its whole footprint, the ground may bear " + ground(plan_.site.soil_bearing_pa) +
              "; bearers press harder still",
          "site file; have it judged by someone qualified");
    } else if (plan_.site.soil_bearing_pa > 0.0 && loads.ground.bearer_pressure_pa > plan_.site.soil_bearing_pa) {
      say("ground",
          "the hardest pressed of " + std::to_string(loads.ground.bearers) + " bearers, " +
              workshop(loads.ground.bearer_width_m) + " wide, presses with " + ground(loads.ground.bearer_pressure_pa) +
              ", the ground may bear " + ground(plan_.site.soil_bearing_pa) + "; lay wider bearers or slabs",
          "site file; have it judged by someone qualified");
    } else if (plan_.site.soil_bearing_pa > 0.0 && loads.ground.edge_pressure_pa > plan_.site.soil_bearing_pa) {
      say("ground",
          "leaning by the allowed " + share(plan_.site.loads.tilt_allowed) + ", the lower edge presses with " +
              ground(loads.ground.edge_pressure_pa) + ", the ground may bear " + ground(plan_.site.soil_bearing_pa) +
              "; lay a wider base, or allow it less lean",
          "site file; have it judged by someone qualified");
    }
  }

  void wire() const {
    const vessel::Loads& loads = vessel_.loads;
    if (loads.wire_safety > 0.0 && loads.wire_safety < plan_.site.loads.wanted_safety) {
      say("mesh",
          "the hoop tension stresses the wire to " + amount(loads.wire_stress_pa, Dimension::pressure) + ", allowed " +
              amount(vessel_.design.mesh->allowed_stress_pa, Dimension::pressure) + " and " +
              plain::to_text(plan_.site.loads.wanted_safety, 2) + " times less wanted",
          "Janssen 1895 for the side pressure; have the cage judged by someone qualified");
    }
  }

  void watering() const {
    const water::LineFlow& line = vessel_.line_flow;
    if (line.supply_limits) {
      say("water line",
          "takes all the supply gives, " + amount(line.total_flow_m3_s, Dimension::flow) + "; pressure falls to " +
              amount(line.inlet_pressure_pa, Dimension::pressure),
          "site file");
    }
    if (line.holes > 1 && line.christiansen_uniformity < least_uniformity) {
      say("water line",
          "uniformity " + share(line.christiansen_uniformity) + ", wanted " + share(least_uniformity) +
              "; shorten the line, use fewer or smaller holes, or close it into a ring",
          "Keller and Bliesner 1990, from memory");
    }
  }

  void heat() const {
    const forecast::Banded& peak = vessel_.forecast.summary.peak_temperature_c;
    if (peak.middle < practice::hot_c) {
      say("forecast",
          "hottest " + heat(peak) + ", below " + amount(practice::hot_c, Dimension::temperature) +
              ": do not count on hygiene",
          "40 CFR 503 appendix B, part B.1");
    }
    if (peak.high > practice::too_hot_c) {
      say("forecast",
          "hottest " + heat(peak) + ", may pass " + amount(practice::too_hot_c, Dimension::temperature) +
              ": see the cautions of the hot phase",
          "chosen; practice standard 317 job sheet 2002 asks to watch from 165 degF");
    }
    if (!vessel_.forecast.summary.heated) {
      say("forecast", "it never heats: the blend decays too slowly, or it is too cold, dry, wet or small",
          "never 3 K warmer than the same heap without decay: chosen");
    } else if (!vessel_.forecast.summary.cool_day) {
      say("forecast", "self-heating does not end within " + std::to_string(plan_.site.forecast_days) + " days",
          "within 3 K of the same heap without decay for 14 days: chosen");
    }
    if (end_state(vessel_.forecast.summary) == EndState::hardly_decayed) {
      say("forecast",
          shares(vessel_.forecast.summary.degradable_left) +
              " of what can decay is still there on the last day: this is no finished compost, whatever its "
              "temperature",
          "chosen: half");
    }
    if (vessel_.forecast.summary.warm_again_day) {
      say("forecast",
          "it warms again from day " + plain::decimal(*vessel_.forecast.summary.warm_again_day, 0) +
              " on, when it is warmer or wetter: let readings decide on worms and harvest",
          "more than 3 K above the same heap without decay: chosen");
    }
    if (!vessel_.hygiene.met_everywhere()) {
      say("hygiene",
          "the coldest place meets no hygiene rule in the forecast; " +
              shares(vessel_.forecast.summary.share_3_days_above_55) + " of the mass is above " +
              amount(practice::hot_c, Dimension::temperature) + " for 3 days in a row",
          "40 CFR 503 appendix B, part B.1");
    }
  }

  void air_and_moisture() const {
    const forecast::Summary& summary = vessel_.forecast.summary;
    if (summary.lowest_oxygen.low < least_oxygen) {  // the likely range counts: a kind grid must not hide it
      say("forecast",
          std::string(summary.lowest_oxygen.middle < least_oxygen ? "oxygen falls to "
                                                                  : "oxygen may fall below 5 %: ") +
              shares(summary.lowest_oxygen, 1) + " of the gas, at most " + shares(summary.most_mass_below_5_oxygen) +
              " of the mass below 5 % at one time",
          "NRAES-54 1992, table 2.1");
    }
    if (summary.driest_moisture_wet.low < rules::moisture::dry_wet) {
      say("forecast", "the driest place falls to " + shares(summary.driest_moisture_wet) + " moisture",
          "NRAES-54 1992, table 2.1: 40 to 65 %");
    }
    const forecast::Banded& uptake = summary.peak_uptake_g_kg_h;
    if (uptake.middle < uptake_low_g_kg_h || uptake.middle > uptake_high_g_kg_h) {
      say("forecast",
          "highest oxygen uptake " + plain::decimal(uptake.middle, 1) + " (" + plain::decimal(uptake.low, 1) + " to " +
              plain::decimal(uptake.high, 1) +
              ") g/(kg volatile solids h) lies outside 1 to 10; woody, slow blends fall below, very fresh ones above",
          "Richard, Cornell compost pages, after Haug 1993");
    }
    if (vessel_.forecast.stopped) say("forecast", "stopped early: " + *vessel_.forecast.stopped, "forecast engine");
  }

  /// What the days asked for leave out, told before any forecast.
  void days() const {
    if (plan_.site.forecast_days >= rules::harvest::least_age_days) return;
    say("goal",
        "finished compost is counted after " + std::to_string(plan_.site.forecast_days) +
            " days, before it is mature; it goes on shrinking, so more vessels may be needed",
        "harvest age: common practice, no source");
  }

  /// Filling out of doors in frost: soaked stuff freezes in the pails, and a heap that freezes before it heats may wait
  /// for spring. `begun_days`: after the first fill, on which this kind is begun.
  void frost(int begun_days) const {
    const auto start = date::parse_iso(plan_.site.start_date);
    const std::vector<double> means_c = daily_means_c(plan_.weather);
    if (!start || means_c.empty()) return;
    const double days = days_to_fill(plan_.site, vessel_);
    for (int day = 0; day < days; ++day) {
      const date::Day at = *start + std::chrono::days{begun_days + day};
      const double mean_c = means_c[static_cast<std::size_t>(date::day_of_year(at) - 1) % means_c.size()];
      if (mean_c >= practice::coldest_fill_c) continue;
      say("filling",
          "by the site's weather the mean air on " + date::to_iso(at) + " is " +
              amount(mean_c, Dimension::temperature) + ": below " +
              amount(practice::coldest_fill_c, Dimension::temperature) +
              " soaked material freezes or hardly starts; fill in milder weeks, or fewer vessels before the cold",
          "chosen");
      return;
    }
  }

  /// Says so when the harvest window opens after the day that is wanted: by age before any forecast, by the forecast's
  /// own window after it.
  void time_by_age() const {
    if (const auto opens = opens_too_late(rules::harvest::least_age_days)) say_too_late(*opens);
  }
  void time_by_forecast() const {
    if (opens_too_late(rules::harvest::least_age_days)) return;  // told already
    if (const auto opens = opens_too_late(vessel_.harvest.early_day)) say_too_late(*opens);
  }

 private:
  /// When a window that opens `early_day` days after the filling opens, if that is after the day wanted.
  [[nodiscard]] std::optional<date::Day> opens_too_late(double early_day) const {
    const auto wanted = date::parse_iso(plan_.site.goal.ready_by);
    const auto start = date::parse_iso(plan_.site.start_date);
    if (!wanted || !start) return std::nullopt;
    const date::Day opens = date::add_days(*start, early_day);
    return opens > *wanted ? std::optional(opens) : std::nullopt;
  }
  void say_too_late(date::Day opens) const {
    say("goal",
        "wanted ready by " + plan_.site.goal.ready_by + ", but the harvest window opens on " + date::to_iso(opens),
        "harvest age: common practice, no source");
  }
  [[nodiscard]] const std::string& name() const { return vessel_.design.name; }
  void say(const std::string& place, const std::string& what, const std::string& source) const {
    warnings_.push_back(
        {name() + ": " + place, quantity::retold(what, plan_.site.units), quantity::retold(source, plan_.site.units)});
  }
  [[nodiscard]] std::string amount(double si, Dimension dimension) const {
    return quantity::format(si, dimension, plan_.site.units);
  }
  [[nodiscard]] std::string ground(double pa) const { return quantity::format_ground(pa, plan_.site.units); }
  [[nodiscard]] std::string workshop(double m) const { return quantity::format_workshop(m, plan_.site.units); }
  [[nodiscard]] std::string share(double value) const { return amount(value, Dimension::fraction); }
  /// In the digits of the first sheet: whole degrees, whole percent or tenths, never more than the model knows.
  [[nodiscard]] std::string heat(const forecast::Banded& value) const {
    return quantity::whole_degrees(value.middle, plan_.site.units) + " (" +
           quantity::whole_degrees(value.low, plan_.site.units) + " to " +
           quantity::whole_degrees(value.high, plan_.site.units) + ")";
  }
  [[nodiscard]] static std::string shares(const forecast::Banded& value, int decimals = 0) {
    return quantity::percent(value.middle, decimals) + " (" + quantity::percent(value.low, decimals) + " to " +
           quantity::percent(value.high, decimals) + ")";
  }
  [[nodiscard]] std::string air_path_words() const {
    std::string words = "the longest way to air is " + workshop(vessel_.air_path.length_m) + ", wanted " +
                        workshop(plan_.site.wanted_air_path_m);
    if (vessel_.suggestion)
      return words + "; this would meet it: " + suggestion_text(*vessel_.suggestion, plan_.site.units);
    return words + "; no pattern of up to 40 channels meets it";
  }

  const Plan& plan_;
  const VesselPlan& vessel_;
  Warnings& warnings_;
};

/// Stock that is named and does not do: the list then buys cut sizes, and says so here.
void stock_warnings(const Plan& plan, Warnings& warnings) {
  for (const MaterialCuts& material : plan.cutting) {
    if (material.cuts.done()) continue;
    double longest_m = 0.0, widest_m = 0.0;
    for (const cut::Part& part : material.job.parts) {
      longest_m = std::max(longest_m, part.length_m);
      widest_m = std::max(widest_m, part.width_m);
    }
    const auto length = [&](double m) { return quantity::format_workshop(m, plan.site.units); };
    warnings.push_back({"stock: " + material.job.what,
                        "what the site file names does not suit or does not suffice; the longest piece is " +
                            length(longest_m) + (widest_m > 0.0 ? ", the widest " + length(widest_m) : "") +
                            ". The shopping list names cut sizes instead",
                        "site file"});
  }
}

}  // namespace

Warnings findings_without_forecast(const Plan& plan) {
  Warnings findings;
  stock_warnings(plan, findings);
  int begun_days = 0;
  for (const VesselPlan& vessel : plan.vessels) {
    const Collector collect(plan, vessel, findings);
    collect.blend();
    collect.structure();
    collect.loads();
    collect.wire();
    collect.watering();
    collect.days();
    collect.frost(begun_days);
    begun_days += static_cast<int>(days_to_fill(plan.site, vessel));
    collect.time_by_age();
  }
  return findings;
}

Warnings warnings_of(const Plan& plan) {
  Warnings warnings = findings_without_forecast(plan);
  for (const VesselPlan& vessel : plan.vessels) {
    const Collector collect(plan, vessel, warnings);
    collect.heat();
    collect.air_and_moisture();
    collect.time_by_forecast();
  }
  return warnings;
}

std::string warning_lines(const Warnings& warnings) {
  if (warnings.empty()) return "No warnings.\n";
  std::string text = std::to_string(warnings.size()) + (warnings.size() == 1 ? " warning:\n" : " warnings:\n");
  for (const Warning& warning : warnings) text += "  " + warning.where + ": " + warning.what + "\n";
  return text;
}

}  // namespace stillheap::plan

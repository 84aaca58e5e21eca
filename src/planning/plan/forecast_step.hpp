#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// The weather the site file chose, as an hourly year. Throws InputError when a weather file cannot be read.
[[nodiscard]] weather::Series weather_of(const site::Site& site);

/// The day of the first fill. Throws InputError when it is no date of the calendar.
[[nodiscard]] date::Day start_of(const site::Site& site);

/// Mean air of each day of the year, degC.
[[nodiscard]] std::vector<double> daily_means_c(const weather::Series& weather);

/// What the engine is asked for one kind of vessel.
[[nodiscard]] forecast::Request request_for(const site::Site& site, const weather::Series& weather,
                                            const VesselPlan& vessel);

/// Runs the forecast and fills in what follows from it: monthly water, hygiene outlook, harvest days; nothing of these
/// when the forecast was stopped by the user.
void add_forecast(VesselPlan& vessel, const site::Site& site, const weather::Series& weather,
                  const ForecastFunction& forecast, const Progress& progress);

/// The last day on which worms may go into a vessel that was filled `later_days` after the one that was forecast, by
/// the same weather; in days since the first one's filling. The vessel must have a worm window.
[[nodiscard]] double last_worm_day(const VesselPlan& vessel, const site::Site& site, const weather::Series& weather,
                                   double later_days);

/// The core temperature of a forecast as a history for the rules.
[[nodiscard]] rules::History core_history(const forecast::Result& result);

/// Values the steps choose on their own, for the reports.
[[nodiscard]] Assumptions forecast_choices(const site::Site& site, const weather::Series& weather);

}  // namespace stillheap::plan

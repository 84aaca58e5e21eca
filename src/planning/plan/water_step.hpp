#pragma once
#include <array>
#include <optional>

#include "planning/plan/plan.hpp"

/// From a forecast to the water programme, and back into the forecast.
namespace stillheap::plan {

/// Half-months (0: first half of January) in which a line is drained for frost, or in which watering by hand would
/// freeze. By a line: those that touch a frosty season or the week before it; by hand: those with a mean below 0 degC.
[[nodiscard]] std::array<bool, 24> frost_half_months(const site::Site& site, const weather::Series& weather);

/// How one vessel is watered, by the site file and the line as solved.
[[nodiscard]] water::Way way_for(const site::Site& site, const VesselPlan& vessel);

/// The request by which the programme is found: draft grid, no band, as much water as the heap loses.
[[nodiscard]] forecast::Request finding_request(const forecast::Request& request);

/// The programme for one vessel, from the answer to `finding_request`.
[[nodiscard]] water::Programme programme_from(const forecast::Result& found, const site::Site& site,
                                              const weather::Series& weather, const VesselPlan& vessel);

/// Lets a forecast sprinkle exactly the programme.
void follow_programme(forecast::Request& request, const water::Programme& programme);

/// What drains a day, mean of each row of the programme as far as the forecast that ran it came.
[[nodiscard]] std::vector<forecast::Banded> drained_by_row(const water::Programme& programme,
                                                           const forecast::Result& result);

/// The same of one row; nothing where no forecast has run the programme.
[[nodiscard]] std::optional<forecast::Banded> drained_in(const VesselPlan& vessel, std::size_t row) noexcept;

/// Salt in what drains, g a kg of water, mean of the forecast.
[[nodiscard]] double drained_salt_g_kg(const VesselPlan& vessel);

/// What the programme does not do, in words for card, page and JSON: it keeps up the mean of the heap, not its driest
/// place; and where rain covers all that the heap loses there is nothing to put on, whatever `leaching` says.
[[nodiscard]] std::string programme_limits(const VesselPlan& vessel);

/// Values the step chooses on its own, for the reports.
[[nodiscard]] Assumptions water_choices(const site::Site& site);

}  // namespace stillheap::plan

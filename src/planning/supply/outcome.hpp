#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/quantity/quantity.hpp"
#include "planning/supply/blocked.hpp"
#include "planning/supply/places.hpp"
#include "planning/supply/yard_plan.hpp"

namespace stillheap::supply {

/// A wish with its plan, as the reports need it. Parts are half-months.
struct Outcome {
  Wish wish;
  std::string site;    ///< the yard's name
  std::string vessel;  ///< what stands at the places
  date::Day start;     ///< of the first filling; the year shown begins with its half-month
  YardPlan plan;       ///< meets the wish, or is short of it as little as can be
  std::vector<Way> ways_out;
  std::vector<Stay> stays;
  std::optional<int> places_low, places_high;  ///< with the most and the least a filling may yield; nothing: cannot be
  bool met = false;
};

/// The ends of what a filling may yield.
struct YieldBand {
  double low_m3 = 0.0, high_m3 = 0.0;
};

/// Plans the year, and where the wish cannot be met plans what comes closest and looks for ways out.
[[nodiscard]] Outcome work_out(const Wish& wish, date::Day start, const std::optional<YieldBand>& band = {});

/// Half-month of the year shown -> its index in the lists of the plan.
[[nodiscard]] std::size_t part_shown(const Outcome& outcome, int ahead) noexcept;

/// Harvests of the first year by half-month shown: places are empty at its begin, so the first come late.
[[nodiscard]] std::vector<int> first_year_harvests(const Outcome& outcome);

/// What is wanted and cannot be there, a line a month: "March: 2.4 m3 of the 4 m3 wanted cannot be ready".
[[nodiscard]] std::vector<std::string> short_lines(const Outcome& outcome, UnitSystem units);

/// One way out: "11 places instead of 9 (supply.places)"; changes that must come together are joined by "and".
[[nodiscard]] std::string way_text(const Outcome& outcome, const Way& way, UnitSystem units);

/// The places that are filled (`&Stay::fill`) or emptied (`&Stay::harvest`) in a half-month of the year shown.
[[nodiscard]] std::vector<int> places_when(const Outcome& outcome, int ahead, int Stay::*when);

/// "3", "3 and 4", "3, 4 and 7": places counted from 1.
[[nodiscard]] std::string place_list(const std::vector<int>& places);

/// A row a half-month of the year shown (RFC 4180): fillings, harvests, places, compost wanted, given out, in store,
/// spare and short, hours, materials.
[[nodiscard]] std::string supply_csv(const Outcome& outcome);

/// Fillings of the first year and their harvests as whole-day entries over their half-months (RFC 5545). An entry keeps
/// its UID as long as site, work and half-month stay, so that a calendar that reads the file again changes entries
/// instead of doubling them. The same outcome gives the same bytes.
[[nodiscard]] std::string supply_ics(const Outcome& outcome, UnitSystem units);

}  // namespace stillheap::supply

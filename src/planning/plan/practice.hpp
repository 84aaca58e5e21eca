#pragma once
#include "planning/fill/fill.hpp"

/// Numbers of the work that the plan supplies on its own. Each stands among the assumptions of every report.
namespace stillheap::plan::practice {

inline constexpr double coldest_fill_c = 5.0;        // chosen: soaked in liquid water, so not frozen
inline constexpr double build_hours_a_vessel = 6.0;  // chosen: cutting, joining, lining, base; two people, 3 h
inline constexpr double forms_out_hours = 0.5;       // chosen, as the next four: hours of all people together
inline constexpr double cover_hours = 0.5;
inline constexpr double worms_hours = 0.5;
inline constexpr double least_harvest_hours = 0.5;
inline constexpr double harvest_share_of_filling = 0.6;  // less is left than was filled in, but it is sieved
inline constexpr double minutes_a_can = 2.0;             // chosen: fill, carry, pour
inline constexpr double order_days_ahead = 14.0;         // chosen
inline constexpr double build_days_ahead = 7.0;          // chosen
inline constexpr double working_day_h = fill::working_day_s / 3600.0;
inline constexpr double worms_kg_m2 = 0.5;       // chosen: with their bedding, of the top
inline constexpr double first_check_days = 2.0;  // chosen
inline constexpr double hot_c = 55.0;            // the hygiene rules' limit, 40 CFR 503 appendix B
inline constexpr double too_hot_c = 70.0;        // chosen; see domain/rules/cautions.hpp
inline constexpr double work_year_days = 365.0;
inline constexpr double drain_days_before_frost = 7.0;  // chosen
inline constexpr double most_water_mm_day = 25.0;       // chosen
inline constexpr double frost_in_normals_c = 2.0;       // chosen: mean lows hide single frosty nights
inline constexpr int join_frosts_days = 60;             // chosen: the line is not put back for a short mild spell

}  // namespace stillheap::plan::practice

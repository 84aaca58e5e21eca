#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "domain/material/blend.hpp"
#include "domain/vessel/design.hpp"
#include "domain/weather/series.hpp"

namespace stillheap::forecast {

/// How finely space and time are cut. DensityBracket uses daily mean weather; standard and fine follow day and night.
enum class Grid { draft, standard, fine };

/// How the outer faces let heat, air and vapour through. Every value is listed in the assumptions.
struct Surfaces {
  double lining_flow_resistance_pa_s_m = 400.0;  ///< cloth at the open wall
  double cover_flow_resistance_pa_s_m = 400.0;   ///< cloth over the top and the channels' mouths
  double closed_wall_resistance_m2k_w = 0.05;
  double emissivity = 0.95;
  double sun_absorptance = 0.7;
  double base_blocked_share = 0.0;  ///< 0 free, 1 shut
  double shade_share = 0.0;         ///< of the sun kept off
};

/// Water that reaches the material from above, beside rain.
struct Sprinkling {
  std::vector<double> kg_by_day;  ///< on each day since filling; days past its end are dry
  double conductivity_s_m = 0.0;
  bool automatic = true;  ///< put on what the heap lost, up to `most_kg_day`, and leave `kg_by_day` alone
  double most_kg_day = 40.0;
  double most_kept_wet = 1.0;  ///< moisture above which nothing is kept up; a heap filled wetter dries to it first
};

/// What a schedule brings between two times after filling; a day's water is spread evenly over the day.
[[nodiscard]] double scheduled_kg(const Sprinkling& sprinkling, double from_s, double to_s) noexcept;

/// Days since filling on which fields are kept when nobody chose others. Chosen: close together at first.
inline constexpr std::array<double, 20> usual_picture_days{0.5, 1,  2,  3,   5,   7,   10,  14,  21,  28,
                                                           42,  60, 90, 120, 180, 240, 300, 365, 450, 540};

/// What the readings of the very heap left open of what is not known beforehand; calibrate::learn makes it.
struct OwnReadings {
  /// Equally likely: how far each input stands off the value of its materials, as `member_at` takes it. Empty: nothing
  /// was learned, and published heaps alone speak.
  std::vector<std::vector<double>> draws;
  double misfit_k = 0.0;  ///< root mean square by which the core still misses its readings
};

/// Everything a forecast depends on. Same request, same answer, on any number of threads.
struct Request {
  vessel::Design design;
  material::Blend blend;  ///< soaked, just before filling
  weather::Series weather;
  Surfaces surfaces;
  Sprinkling sprinkling;
  double fill_temperature_c = 15.0;
  int start_day_of_year = 1;  ///< day of filling
  int days = 365;             ///< at most 540
  Grid grid = Grid::standard;
  int members = 16;  ///< of the ensemble that makes the band
  std::uint64_t seed = 1;
  std::vector<double> picture_days{usual_picture_days.begin(), usual_picture_days.end()};  ///< rising
  bool animated = false;  ///< keep frames for an animation too
  OwnReadings own;
};

}  // namespace stillheap::forecast

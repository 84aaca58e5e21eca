#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "domain/material/blend.hpp"

namespace stillheap::material {

/// A feedstock the user can get: how much at most, how much at least, and what it costs.
struct Offer {
  Feedstock feedstock;
  std::optional<double> stock_kg;  ///< nothing: as much as needed
  double at_least_kg = 0.0;
  double price_per_kg = 0.0;  ///< in the user's currency
  bool price_given = false;   ///< a price of 0 that is written is a price
};

/// An allowed range; both ends included.
struct Range {
  double low = 0.0;
  double high = 0.0;
};

/// What the blend must satisfy. Moisture and free air space hold after soaking.
struct Limits {
  Range carbon_to_nitrogen{25.0, 40.0};
  Range moisture_wet{0.60, 0.70};
  Range free_air_space{0.30, 0.60};
  double conductivity_max_s_m = 0.4;
  double mixing_volume_ratio = default_mixing_volume_ratio;  ///< see blend.hpp
};

enum class Objective { least_cost, use_up_stock };

/// One limit that cannot be met together with the others, and by how much it misses. Those that are enough alone are
/// alternatives: moving any one is all it takes. The others are parts of one answer: moved together they make a blend.
struct Conflict {
  std::string limit;  ///< "carbon to nitrogen at most 40"
  double asked = 0.0;
  double reachable = 0.0;  ///< the closest value when all other limits hold as far as they can
  bool enough_alone = false;
};

struct Found {
  bool feasible = false;
  std::vector<double> mass_wet_kg;  ///< one per offer, as delivered; empty when not feasible
  double water_kg = 0.0;            ///< to soak up
  double cost = 0.0;
  Blend blend;                      ///< soaked; only when feasible
  std::vector<Conflict> conflicts;  ///< only when not feasible
  std::vector<std::string> fight;   ///< only when not feasible: limits that cannot all hold, though all but any one can
};

/// Finds a blend that fills `volume_m3` under the limits by linear programming (GLPK).
/// All limits are linear in the masses once multiplied out by their denominators; see limit.hpp.
/// Water is added up to `moisture_target_wet` and no further; a blend that arrives wetter gets none and may stay so up
/// to the upper end of the moisture range. Among equally cheap (or equally stock-clearing) blends the one nearest the
/// middle of the C:N range is taken. Throws InputError for no offers, a volume of 0, an empty range, or a target
/// outside the moisture range. Safe to call from several threads at once.
[[nodiscard]] Found find_blend(std::span<const Offer> offers, const Limits& limits, Objective objective,
                               double volume_m3, double moisture_target_wet);

/// A soak-and-drain bath: dry feedstock is dipped, the bath is topped up by what was taken along.
/// Defaults: common practice, no source.
struct Bath {
  double volume_m3 = 0.2;   ///< water in the bath
  double load_share = 0.5;  ///< loose feedstock volume a batch, per bath volume
  double soak_s = 1800.0;
  double drain_s = 600.0;
};

struct SoakPlan {
  double water_taken_kg = 0.0;    ///< kept by the material
  double water_to_draw_kg = 0.0;  ///< taken plus the last bath left over
  int batches = 0;
  double time_s = 0.0;
  bool too_wet_already = false;  ///< as delivered it is wetter than wanted
};

/// Batches, time and water for soaking a blend in one bath that is filled once and topped up after each batch. It is
/// assumed that a batch takes up what it needs while it soaks (common practice, no source): weigh the first one.
/// A blend already wet enough gets no batch. Throws InputError for an empty bath or a load share not above 0.
[[nodiscard]] SoakPlan plan_soak(const Blend& as_delivered, double moisture_target_wet, const Bath& bath);

}  // namespace stillheap::material

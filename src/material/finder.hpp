#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "material/blend.hpp"

namespace stillheap::material {

/// A feedstock the user can get: how much at most, how much at least, and what it costs.
struct Offer {
  Feedstock feedstock;
  std::optional<double> stock_kg;     ///< nothing: as much as needed
  double at_least_kg = 0.0;
  double price_per_kg = 0.0;          ///< in the user's currency
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
};

enum class Objective { least_cost, use_up_stock };

/// One limit that cannot be met together with the others, and by how much it misses.
struct Conflict {
  std::string limit;     ///< "carbon to nitrogen at most 40"
  double asked = 0.0;
  double reachable = 0.0;  ///< the closest value when all other limits hold as far as they can
};

struct Found {
  bool feasible = false;
  std::vector<double> mass_wet_kg;   ///< one per offer, as delivered
  double water_kg = 0.0;             ///< to soak up
  double cost = 0.0;
  Blend blend;                       ///< soaked; only when feasible
  std::vector<Conflict> conflicts;   ///< only when not feasible
};

/// Finds a blend that fills `volume_m3` under the limits by linear programming (GLPK).
/// All limits are linear in the masses once multiplied out by their denominators; see finder.cpp.
[[nodiscard]] Found find_blend(std::span<const Offer> offers, const Limits& limits, Objective objective,
                               double volume_m3, double moisture_target_wet);

/// A soak-and-drain bath: dry feedstock is dipped, the bath is topped up by what was taken along.
struct Bath {
  double volume_m3 = 0.2;       ///< water in the bath
  double load_share = 0.5;      ///< loose feedstock volume a batch, per bath volume
  double soak_s = 1800.0;
  double drain_s = 600.0;
};

struct SoakPlan {
  double water_taken_kg = 0.0;     ///< kept by the material
  double water_to_draw_kg = 0.0;   ///< taken plus the last bath left over
  int batches = 0;
  double time_s = 0.0;
  bool too_wet_already = false;    ///< as delivered it is wetter than wanted
};

[[nodiscard]] SoakPlan plan_soak(const Blend& as_delivered, double moisture_target_wet, const Bath& bath);

}  // namespace stillheap::material

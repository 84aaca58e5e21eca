#pragma once
#include <array>
#include <span>
#include <string>
#include <vector>

#include "core/optimise/linear_program.hpp"
#include "domain/material/finder.hpp"

/// The blend finder's limits as rows of a linear programme. Columns: kg of each offer as delivered, then kg of water.
/// A limit on an average, sum(w a x) / sum(w x) <= b, is sum(w (a - b) x) <= 0, because sum(w x) is positive.
namespace stillheap::material {

/// What a limit bounds; `at_least` and `stock` belong to one offer. `soaking` is the moisture water is added up to.
enum class Bound {
  stock,
  at_least,
  volume,
  soaking,
  moisture_high,
  carbon_to_nitrogen_low,
  carbon_to_nitrogen_high,
  air_low,
  air_high,
  conductivity_high
};

struct Limit {
  Bound bound = Bound::volume;
  double value = 0.0;
  std::size_t offer = 0;
};

/// What every row needs to know.
struct Recipe {
  std::span<const Offer> offers;
  double mixing_volume_ratio = 1.0;
};

/// All limits that can be given up one by one, purchases first: a contradiction that is left when stocks are dropped
/// is then told without them.
[[nodiscard]] std::vector<Limit> list_limits(std::span<const Offer> offers, const Limits& limits, double volume_m3,
                                             double moisture_target_wet);

/// The row of one limit. Soaking is an equality here; see `both_ways`.
[[nodiscard]] ProgramRow to_row(const Limit& limit, const Recipe& recipe);

/// Either water is added, and then up to the target and no further, or none is and the blend arrives at or above the
/// target: two programmes, because their common hull would pour water in only to fill pores. Row i belongs to limit i;
/// the second programme has one more, without water.
[[nodiscard]] std::array<std::vector<ProgramRow>, 2> both_ways(std::span<const Limit> limits, const Recipe& recipe);

/// Loose volume of each column, m3/kg; none for water, which fills pores.
[[nodiscard]] std::vector<double> volumes(const Recipe& recipe);

/// "carbon to nitrogen at most 40".
[[nodiscard]] std::string describe(const Limit& limit, std::span<const Offer> offers);

/// True for limits that hold when the quantity is at or above the value.
[[nodiscard]] bool is_lower(Bound bound);

/// Finds which limits contradict one another and how far each would have to give. Call only when they do.
void explain(std::span<const Limit> limits, const Recipe& recipe, Found& found);

}  // namespace stillheap::material

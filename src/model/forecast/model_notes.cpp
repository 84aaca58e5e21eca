#include "model/forecast/model_notes.hpp"

#include <array>
#include <cmath>

#include "core/base/plain_number.hpp"
#include "model/forecast/band.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/physics/parameters.hpp"

namespace stillheap::forecast {
namespace {

std::string number(double value) { return plain::to_text(value, 4); }

/// `left`: of the deviation.
std::string spread_of(const physics::ParameterRow& row, double left) {
  if (row.spread == physics::Spread::lognormal) return ", spread factor " + number(1.0 + left * row.deviation);
  const std::string unit = row.unit == "-" ? "" : row.unit == "degC" ? " K" : " " + std::string(row.unit);
  return ", spread +- " + number(left * row.deviation) + unit;
}

/// How far the draws of what was learned lie apart, in deviations of the row.
double left_of(const OwnReadings& own, std::size_t input) {
  double mean = 0.0, square = 0.0;
  const auto count = static_cast<double>(own.draws.size());
  for (const std::vector<double>& one : own.draws) mean += one.at(input) / count;
  for (const std::vector<double>& one : own.draws) square += (one.at(input) - mean) * (one.at(input) - mean) / count;
  return std::sqrt(square);
}

std::string discrepancy_words() {
  return number(discrepancy.peak_k) + " K of a peak, " + number(discrepancy.average_k) +
         " K of an average, a factor of " + number(discrepancy.time_factor) + " of a time and " +
         number(discrepancy.loss_factor) + " of a loss, " + number(100.0 * discrepancy.oxygen_share) +
         " points of oxygen (one standard deviation each)";
}

const std::array<Assumption, 22>& simplifications() {
  static const std::array<Assumption, 22> list{{
      {"model: temperature response",
       "1 at 20 degC; above, the cardinal curve, nothing above the most temperature; below, a constant factor by "
       "10 K, nothing in ice",
       "Rosso et al. 1993; Kaetterer et al. 1998"},
      {"model: moisture, air space and oxygen factors", "logistic in moisture and free air space, saturating in oxygen",
       "Haug 1993, constants from memory"},
      {"model: start-up", "microbes are there from the first hour; no lag, and none after overheating", "chosen"},
      {"model: fire", "heat from chemical oxidation and dry hot spots is not in the model; it cannot foretell a fire",
       "chosen"},
      {"model: vapour", "air in wet material is saturated; over damp material it follows the water activity of wood",
       "Henderson 1952; Wood Handbook, from memory"},
      {"model: freezing",
       "water freezes as far as solids and salt let it; what falls on a frozen top stays in it until its pores are "
       "full, "
       "so air may run short there in late winter; ice does not swell",
       "Spaans & Baker 1996 and USDA Handbook 60 (1954), from memory"},
      {"model: gas", "steady Darcy flow by buoyancy alone; wind pressure through the walls is left out", "chosen"},
      {"model: ground", "under the base stands air of the outside's temperature; frozen or warm soil is left out",
       "chosen"},
      {"model: gas composition",
       "carbon dioxide replaces oxygen mole for mole; oxygen is given by volume of the dry gas", "chosen"},
      {"model: channels", "keep their first diameter and stay open to the end; air in them answers at once", "chosen"},
      {"model: slats", "the base's slats take their share of the open area evenly, not stripe by stripe", "chosen"},
      {"model: settlement", "a layer sinks evenly over the plan; cells that lost more turn looser", "chosen"},
      {"model: sprinkling", "the daily minutes are spread evenly over the day and the top", "chosen"},
      {"model: rain", "all rain on the open top goes in", "chosen"},
      {"model: water", "drains freely above the holding capacity; below it moves along its suction, upwards too",
       "Brooks & Corey 1964 between holding capacity and saturation; Campbell 1974 below"},
      {"model: salt", "all dissolved; moves with liquid water only", "chosen"},
      {"model: nitrogen", "ammonia lost is not in the model", "chosen"},
      {"model: sun on the wall", "half of the global horizontal, the same all round", "chosen"},
      {"model: wall's view of the sky", "0.354 of the sky, the rest at air temperature", "Walton 1983"},
      {"model: time", "backward Euler with adaptive steps; draft uses daily mean weather", "chosen"},
      {"model: band",
       "10th to 90th percentile of the ensemble on the draft grid, moved by what the middle line differs from its own "
       "draft run and widened by what the model misses in real heaps: " +
           discrepancy_words(),
       "fifteen published heaps (docs/validation.md); oxygen chosen"},
      {"model: weather of single years",
       "left out: the weather is one year, normals or the year of the file; hotter and wetter years are not in the "
       "band",
       "chosen"},
  }};
  return list;
}

}  // namespace

Assumptions model_notes(const Request& request) {
  Assumptions notes(simplifications().begin(), simplifications().end());
  const physics::Parameters central = middle_member(request).parameters;
  const bool learned = !request.own.draws.empty();
  std::size_t input = input_parameters;
  for (const physics::ParameterRow& row : physics::parameter_rows()) {
    const double left = learned ? left_of(request.own, input) : 1.0;
    ++input;
    const bool of_blend = central.*row.member != physics::Parameters{}.*row.member;
    const char* blend_source =
        learned ? "what this heap's own readings taught, from where its materials stood"
                : "of this blend, from its materials (docs/feedstocks.md) and what published heaps taught "
                  "(docs/validation.md); spread chosen";
    notes.push_back({"model: " + std::string(row.name),
                     number(central.*row.member) + (row.unit == "-" ? "" : " " + std::string(row.unit)) +
                         spread_of(row, left > 0.0 ? left : 1.0),
                     of_blend ? blend_source : std::string(row.source)});
  }
  const Surfaces& s = request.surfaces;
  notes.push_back({"surfaces: lining, flow resistance", number(s.lining_flow_resistance_pa_s_m) + " Pa s/m",
                   "chosen, 100 to 2000"});
  notes.push_back(
      {"surfaces: cover, flow resistance", number(s.cover_flow_resistance_pa_s_m) + " Pa s/m", "chosen, 100 to 2000"});
  notes.push_back({"surfaces: emissivity", number(s.emissivity), "plant matter and cloth, from memory"});
  notes.push_back({"surfaces: sun taken up", number(s.sun_absorptance), "brown cloth 0.55 to 0.80, from memory"});
  notes.push_back({"surfaces: base blocked", number(s.base_blocked_share), "input; 0 is free"});
  if (learned) {
    notes.push_back({"model: own readings",
                     "the forecast follows this heap's core, which it still misses by " + number(request.own.misfit_k) +
                         " K; its hottest place is taken to be missed by " +
                         number(discrepancy_of(request.own).peak_k) + " K",
                     "learned from the records; chosen that the hottest place misses as the core does"});
  }
  if (!learned)
    notes.push_back(
        {"model: spread of the blend as filled", "moisture +- 0.03, density 8 %, each pool 20 %", "chosen"});
  return notes;
}

}  // namespace stillheap::forecast

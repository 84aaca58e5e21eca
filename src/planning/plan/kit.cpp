#include "planning/plan/kit.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "domain/vessel/base.hpp"
#include "planning/plan/hours.hpp"
#include "planning/plan/practice.hpp"

namespace stillheap::plan {
namespace {

constexpr int screws_a_crossing = 2;
constexpr int screws_a_seat = 8;          // chosen: four on each side of the hole
constexpr int staples_a_stop = 4;         // chosen: two at each end
constexpr double cord_m_a_vessel = 10.0;  // chosen: four to the hoop, the water line's hangers, the cover

PricedPiece line_of(const std::string& what, const std::string& use, int count) {
  PricedPiece line;
  line.piece.what = what;
  line.piece.use = use;
  line.piece.count = count;
  line.count = count;
  line.amount = count;
  line.amount_unit = "each";
  return line;
}

PricedPiece weighed(const std::string& what, const std::string& use, double kg) {
  PricedPiece line = line_of(what, use, 1);
  line.amount = kg;
  line.amount_unit = "kg";
  return line;
}

/// Places where a slat lies on a bearer.
int crossings(const vessel::Design& design) {
  const bool along_x = vessel::slats_along_x(design);
  int count = 0;
  for (const vessel::Slat& slat : design.slats) {
    const double slat_at = along_x ? slat.from.y_m : slat.from.x_m;
    const double slat_half = 0.5 * distance_m(slat.from, slat.to);
    for (const vessel::Slat& bearer : design.bearers) {
      const double bearer_at = along_x ? bearer.from.x_m : bearer.from.y_m;
      const double bearer_half = 0.5 * distance_m(bearer.from, bearer.to);
      if (std::abs(bearer_at) <= slat_half && std::abs(slat_at) <= bearer_half) ++count;
    }
  }
  return count;
}

void add_water(const Plan& plan, std::vector<PricedPiece>& kit) {
  if (plan.site.water.by_hand) {
    kit.push_back(line_of("watering can with a rose", "watering", 1));
    if (plan.site.water.drinking_water)
      kit.push_back(line_of("back-flow preventer for a hose, kind by the local code", "watering", 1));
    return;
  }
  kit.push_back(line_of("filter with a fine screen, before the regulator", "watering", 1));
  kit.push_back(line_of("pressure regulator", "watering", 1));
  if (plan.site.water.drinking_water) {
    kit.push_back(line_of("back-flow preventer, kind by the local code", "watering", 1));
  }
  kit.push_back(line_of("timer valve", "watering", 1));
  kit.push_back(line_of("drain cock at the lowest point", "watering", 1));
  kit.push_back(line_of("hose or pipe from the tap to the vessels, length by the way", "watering", 1));
}

void add_filling(const Plan& plan, std::vector<PricedPiece>& kit) {
  const UnitSystem units = plan.site.units;
  const fill::Practice& practice = plan.site.practice;
  bool soaked = false;
  for (const VesselPlan& vessel : plan.vessels) soaked |= vessel.fill.soak.batches > 0;
  if (soaked) {
    kit.push_back(line_of("soaking bath of " + quantity::format_water(1000.0 * plan.site.bath.volume_m3, units, 2) +
                              ", with a lid that keeps children and animals out",
                          "filling", practice.baths));
  }
  kit.push_back(line_of("pail of " + quantity::format(practice.pail_m3, Dimension::volume, units) + " with a handle",
                        "filling", practice.pails_a_lift));
  kit.push_back(line_of("fork", "filling", practice.people));
  kit.push_back(line_of("rake", "filling", 1));
  kit.push_back(line_of("firm step or platform to reach over the brim", "filling", 1));
  kit.push_back(line_of("fitted dust mask, FFP2 or N95", "protection", practice.people));
  kit.push_back(line_of("pair of gloves", "protection", practice.people));
  kit.push_back(line_of("eye protection", "protection", practice.people));
}

/// Hoops and battens go with the forms from vessel to vessel.
void add_holders(const Plan& plan, std::vector<PricedPiece>& kit) {
  for (const VesselPlan& vessel : plan.vessels) {
    const vessel::FormHolder holder = vessel::form_holder_of(vessel.design);
    if (holder.count == 0) continue;
    PricedPiece line = line_of(
        holder.hoop ? "rod or thin pipe, bent to a hoop that holds the forms" : "batten, two for each row of forms",
        "filling, " + vessel.design.name, holder.count * filled_in_a_day(vessel));
    line.piece.length_m = holder.length_m;
    kit.push_back(line);
  }
}

void add_building(const Plan& plan, std::vector<PricedPiece>& kit) {
  int screws = 0, staples = 0, vessels = 0;
  std::set<long> cutters;  // whole tenths of a millimetre
  for (const VesselPlan& vessel : plan.vessels) {
    const vessel::Design& design = vessel.design;
    vessels += design.count;
    const int seats = static_cast<int>(vessel::seats_of(design).size());
    screws += design.count * (screws_a_crossing * crossings(design) + screws_a_seat * seats);
    if (!design.base_open) continue;
    staples += design.count * staples_a_stop * static_cast<int>(design.channels.size());
    for (const vessel::Channel& channel : design.channels) cutters.insert(std::lround(channel.diameter_m * 1e4));
  }
  for (const long diameter : cutters) {
    PricedPiece line = line_of("hole cutter", "building", 1);
    line.piece.diameter_m = static_cast<double>(diameter) * 1e-4;
    kit.push_back(line);
  }
  if (screws > 0)
    kit.push_back(line_of("screw, stainless or galvanised, three times the deck's thickness", "building", screws));
  if (staples > 0) kit.push_back(line_of("staple for the stops", "building", staples));
  PricedPiece cord = line_of("cord that does not rot", "filling and watering", 1);
  cord.amount = cord_m_a_vessel * vessels;
  cord.amount_unit = "m";
  kit.push_back(cord);
}

}  // namespace

std::string kit_choices(UnitSystem units) {
  return std::to_string(screws_a_crossing) + " screws a crossing and " + std::to_string(screws_a_seat) +
         " a seat board, " + std::to_string(staples_a_stop) + " staples a stop, " +
         quantity::format(cord_m_a_vessel, Dimension::length, units) + " of cord a vessel";
}

std::vector<PricedPiece> kit_of(const Plan& plan) {
  std::vector<PricedPiece> kit;
  add_building(plan, kit);
  add_holders(plan, kit);
  add_filling(plan, kit);
  add_water(plan, kit);
  kit.push_back(line_of("probe thermometer, long enough for the core", "checks", 1));
  double top_m2 = 0.0;
  for (const VesselPlan& vessel : plan.vessels) top_m2 += vessel.design.count * vessel::material_area_m2(vessel.design);
  kit.push_back(weighed("compost worms with their bedding, of a kind that lives there already", "once it has cooled",
                        practice::worms_kg_m2 * top_m2));
  return kit;
}

}  // namespace stillheap::plan

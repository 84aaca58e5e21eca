#include "planning/plan/vessel_step.hpp"

#include "domain/vessel/base.hpp"

namespace stillheap::plan {
namespace {

constexpr double common_channel_m = 0.1016;  // 4 in, common practice without source; for vessels without channels

std::optional<vessel::Suggestion> suggestion_for(const site::Site& site, const vessel::Design& design,
                                                 const vessel::AirPath& path) {
  if (path.length_m <= site.wanted_air_path_m) return std::nullopt;
  const double diameter_m = design.channels.empty() ? common_channel_m : design.channels.front().diameter_m;
  return vessel::suggest_channels(design, site.wanted_air_path_m, diameter_m);
}

std::vector<vessel::Clash> lesser_clashes(const vessel::Design& design) {
  std::vector<vessel::Clash> lesser;
  for (const vessel::Clash& clash : vessel::find_clashes(design)) {
    if (!clash.refused) lesser.push_back(clash);
  }
  return lesser;
}

/// Parts of the cage as cut, and the water line as it was solved rather than as a rule of thumb has it.
std::vector<vessel::Piece> pieces_for(const vessel::Design& design, const water::Line& line, bool by_hand) {
  std::vector<vessel::Piece> pieces = vessel::pieces_of(design);
  std::erase_if(pieces, [](const vessel::Piece& piece) {
    return piece.price_key == "line" || piece.price_key == "spray" || piece.price_key == "fitting";
  });
  if (by_hand) return pieces;
  const char* const closing = line.ring ? "tee that closes the line into a ring" : "end cap";
  pieces.push_back(
      {"water line with drilled holes", "watering", 1, line.length_m, 0.0, line.inside_diameter_m, "line"});
  pieces.push_back({closing, "watering", 1, 0.0, 0.0, 0.0, "fitting"});
  pieces.push_back({"shut-off valve", "watering", 1, 0.0, 0.0, 0.0, "fitting"});
  if (line.sprays > 0) pieces.push_back({"small spray", "watering, over the top", line.sprays, 0.0, 0.0, 0.0, "spray"});
  return pieces;
}

/// Bearers for the full vessel, just soaked, on the ground of the site.
vessel::BearerWish wish_for(const site::Site& site, const vessel::Design& design, double soaked_kg_m3) {
  vessel::BearerWish wish;
  wish.width_m = site.loads.bearer_width_m;
  wish.ground_bears_pa = site.soil_bearing_pa;
  wish.mean_pressure_pa = vessel::loads_of(design, soaked_kg_m3, site.loads).ground_pressure_pa;
  return wish;
}

}  // namespace

water::Line line_for(const site::Site& site, const vessel::Design& design) {
  water::Line line = site.water.line;
  if (line.length_m <= 0.0) line.length_m = vessel::perimeter_m(design);
  return line;
}

VesselPlan plan_vessel(const site::Site& site, const vessel::Design& laid_out, const material::Blend& as_delivered,
                       double moisture_wet) {
  VesselPlan plan;
  plan.blend_as_delivered = as_delivered;
  plan.blend_soaked = material::soaked_to(as_delivered, moisture_wet);
  const double soaked_kg_m3 = plan.blend_soaked.bulk_density_kg_m3;
  plan.design = vessel::with_base(laid_out, wish_for(site, laid_out, soaked_kg_m3));
  const vessel::Design& design = plan.design;
  plan.air_path = vessel::longest_air_path(design);
  plan.warnings = lesser_clashes(design);
  plan.suggestion = suggestion_for(site, design, plan.air_path);
  plan.loads = vessel::loads_of(design, soaked_kg_m3, site.loads);
  plan.loads_waterlogged = vessel::loads_of(
      design, vessel::waterlogged_density_kg_m3(soaked_kg_m3, plan.blend_soaked.free_air_space), site.loads);
  const water::Line line = line_for(site, design);
  plan.pieces = pieces_for(design, line, site.water.by_hand);
  plan.fill = fill::plan_fill(design, as_delivered, moisture_wet, site.bath, site.practice, site.units);
  if (!site.water.by_hand) plan.line_flow = water::solve_line(line, site.water.supply);
  return plan;
}

}  // namespace stillheap::plan

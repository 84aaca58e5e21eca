// Heaps of one kind of material against what the trade knows of them, with wide limits. Table: sanity.toml.
#include <gtest/gtest.h>

#include <algorithm>

#include "../unit/model/forecast/sample_request.hpp"
#include "check.hpp"
#include "model/forecast/central.hpp"
#include "model/forecast/run_history.hpp"
#include "model/forecast/stages.hpp"

namespace stillheap {
namespace {

using forecast::Request;
using forecast::RunHistory;
using outside::expect;

/// What goes in, as shares of dry mass, at a moisture and a dry density.
struct Filling {
  std::vector<std::pair<const char*, double>> dry_shares;
  double moisture_wet;
  double dry_kg_m3;
};

material::Blend blend_of(const Filling& filling) {
  std::vector<material::Part> parts;
  for (const auto& [id, share] : filling.dry_shares) {
    const material::Feedstock feedstock = material::find_typical(id).value();
    parts.push_back({feedstock, share / (1.0 - feedstock.moisture_wet)});
  }
  material::Blend blend = material::at_moisture(material::mix(parts), filling.moisture_wet);
  blend.bulk_density_kg_m3 = filling.dry_kg_m3 / (1.0 - blend.moisture_wet);
  blend.volume_m3 = blend.mass_wet_kg / blend.bulk_density_kg_m3;
  blend.free_air_space = material::free_air_space(blend.bulk_density_kg_m3, blend.moisture_wet, blend.ash_dry);
  return blend;
}

RunHistory run_of(Request request) {
  request.sprinkling.automatic = true;
  const Request draft = forecast::on_grid(request, forecast::Grid::draft);
  return forecast::follow(forecast::make_heap(draft, forecast::central_parameters(draft.blend),
                                              forecast::grid_size(draft.design, forecast::Grid::draft)),
                          forecast::step_rule(forecast::Grid::draft), {21600.0, false, false},
                          [](double) { return true; });
}

/// The common round vessel filled on a day at that day's usual air.
Request vessel_of(const Filling& filling, int day_of_year, double fill_c, int days) {
  Request request = forecast::common_request(days);
  request.blend = blend_of(filling);
  request.start_day_of_year = day_of_year;
  request.fill_temperature_c = fill_c;
  return request;
}

/// A plain cylinder as high as it is wide, without channels.
Request cylinder_of(const Filling& filling, double volume_m3, int days) {
  Request request = vessel_of(filling, 288, 11.0, days);
  const double width = std::cbrt(4.0 * volume_m3 / 3.14159265);
  request.design.channels.clear();
  request.design.slats.clear();
  request.design.diameter_m = request.design.height_m = request.design.fill_height_m = width;
  return request;
}

const Filling horse{{{"horse-manure", 1.0}}, 0.65, 165.0};

TEST(Sanity, S01FreshGrass) {
  const RunHistory run = run_of(vessel_of({{{"grass-clippings", 1.0}}, 0.78, 50.0}, 190, 22.0, 330));
  expect("S01", "peak_c", run.peak_c);
  expect("S01", "peak_day", run.peak_day);
}

TEST(Sanity, S02HorseManureThroughTheYear) {
  expect("S02", "april_c", run_of(vessel_of(horse, 108, 10.0, 40)).peak_c);
  expect("S02", "july_c", run_of(vessel_of(horse, 199, 22.0, 40)).peak_c);
  expect("S02", "october_c", run_of(vessel_of(horse, 291, 11.0, 40)).peak_c);
  expect("S02", "january_c", run_of(vessel_of(horse, 18, 1.0, 60)).peak_c);
}

TEST(Sanity, S03SizeDecides) {
  std::vector<double> peaks;
  for (const double volume_m3 : {0.01, 0.1, 1.0, 10.0})
    peaks.push_back(run_of(cylinder_of(horse, volume_m3, 30)).peak_c);
  expect("S03", "ten_litres_c", peaks.front());
  // Near the ceiling of decay a larger one is no hotter: half a degree is no difference.
  const bool grows = std::is_sorted(peaks.begin(), peaks.end(), [](double a, double b) { return a < b - 0.5; });
  expect("S03", "grows_with_size", grows ? 1.0 : 0.0);
}

TEST(Sanity, S04FoodAndLitter) {
  expect("S04", "food_c",
         run_of(vessel_of({{{"food-scraps", 0.6}, {"leaves", 0.4}}, 0.65, 130.0}, 190, 22.0, 30)).peak_c);
  expect("S04", "litter_c", run_of(vessel_of({{{"broiler-litter", 1.0}}, 0.5, 250.0}, 190, 22.0, 30)).peak_c);
}

TEST(Sanity, S05SlowOnes) {
  expect("S05", "chips_lost", run_of(vessel_of({{{"wood-chips", 1.0}}, 0.5, 160.0}, 108, 10.0, 180)).solids_lost);
  expect("S05", "leaves_lost", run_of(vessel_of({{{"leaves", 1.0}}, 0.6, 80.0}, 291, 11.0, 365)).solids_lost);
  expect("S05", "ripe_c", run_of(vessel_of({{{"finished-compost", 1.0}}, 0.5, 300.0}, 108, 10.0, 120)).peak_c);
}

TEST(Sanity, S06HenManureWithoutAir) {
  const Filling packed{{{"layer-manure", 1.0}}, 0.66, 365.0};
  const material::Blend blend = blend_of(packed);
  EXPECT_NEAR(blend.free_air_space, 0.07, 0.03);
  const RunHistory run = run_of(vessel_of(packed, 199, 22.0, 60));
  double mean = -300.0;
  for (const forecast::HistoryRow& row : run.history) mean = std::max(mean, row.mean_c);
  expect("S06", "mean_c", mean);
}

}  // namespace
}  // namespace stillheap

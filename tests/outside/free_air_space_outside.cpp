#include <gtest/gtest.h>

#include "check.hpp"
#include "domain/material/blend.hpp"

namespace stillheap::material {
namespace {

using outside::expect;

TEST(FreeAirSpace, FromParticleDensities) { expect("F01", "free_air_space", free_air_space(500.0, 0.6, 0.15)); }

TEST(FreeAirSpace, HangsOnTheOrganicDensity) {
  const ParticleDensity older{.water_kg_m3 = 1000.0, .organic_kg_m3 = 1000.0, .mineral_kg_m3 = 2500.0};
  expect("F03", "free_air_space", free_air_space(500.0, 0.6, 0.15, older));
}

TEST(FreeAirSpace, OfBulkingMaterials) {
  for (const char* id : {"maize-stalks", "wheat-straw", "oat-straw", "leaves", "grass-hay", "maize-silage",
                         "wood-shavings", "sawdust"}) {
    expect("F05", id, mix(std::vector<Part>{{*find_typical(id), 100.0}}).free_air_space);
  }
}

TEST(FreeAirSpace, FollowsTheStraightLine) {
  expect("F06", "at_300", free_air_space(300.0, 0.6, 0.2));
  expect("F06", "at_500", free_air_space(500.0, 0.6, 0.2));
  expect("F06", "at_700", free_air_space(700.0, 0.6, 0.2));
}

TEST(FreeAirSpace, OfDairyManureWithMuchStraw) {
  const Feedstock straw = *find_typical("wheat-straw");
  const Feedstock manure = *find_typical("dairy-manure");
  const Blend blend =
      mix(std::vector<Part>{{straw, 0.75 / (1.0 - straw.moisture_wet)}, {manure, 0.25 / (1.0 - manure.moisture_wet)}});
  expect("F07", "free_air_space", blend.free_air_space);
  std::string finding;
  for (const Warning& warning : check_ranges(blend)) {
    if (warning.where == "air space") finding = warning.what.substr(0, warning.what.find(':'));
  }
  expect("F07", "finding", finding);
}

}  // namespace
}  // namespace stillheap::material

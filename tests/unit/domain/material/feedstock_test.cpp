#include "domain/material/feedstock.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "domain/material/estimate.hpp"

namespace stillheap::material {
namespace {

TEST(TypicalFeedstocks, AreAtLeastThirtyWithIdsOfTheirOwn) {
  std::set<std::string> ids;
  for (const Feedstock& f : typical_feedstocks()) ids.insert(f.id);
  EXPECT_GE(ids.size(), 30U);
  EXPECT_EQ(ids.size(), typical_feedstocks().size());
}

TEST(TypicalFeedstocks, ArePhysicallyPossible) {
  for (const Feedstock& f : typical_feedstocks()) {
    const double pools = f.pool_dry[fast] + f.pool_dry[medium] + f.pool_dry[slow];
    EXPECT_LE(pools, 1.0 - f.ash_dry) << f.id;
    EXPECT_LE(f.carbon_dry + f.nitrogen_dry, 1.0 - f.ash_dry) << f.id;
    EXPECT_GT(f.pool_rate_20c_per_s[fast], f.pool_rate_20c_per_s[medium]) << f.id;
    EXPECT_GT(f.pool_rate_20c_per_s[medium], f.pool_rate_20c_per_s[slow]) << f.id;
    EXPECT_GT(f.moisture_wet, 0.0) << f.id;
    EXPECT_LT(f.moisture_wet, 0.95) << f.id;
    EXPECT_GT(f.conductivity_s_m, 0.0) << f.id;
    EXPECT_GT(f.bulk_density_kg_m3, 50.0) << f.id;
  }
}

TEST(TypicalFeedstocks, HaveHabitsThatCanBe) {
  for (const Feedstock& f : typical_feedstocks()) {
    EXPECT_GT(f.habit.particle_size_m, 0.1e-3) << f.id;
    EXPECT_LT(f.habit.particle_size_m, 2e-3) << f.id;
    EXPECT_LT(f.habit.envelope_kg_m3, 1600.0) << f.id << ": an envelope holds pores";
    EXPECT_GT(f.habit.most_c, f.habit.best_c + 10.0) << f.id;
    // What comes out of the shower drier than it went in would be a sponge that sheds its own sap.
    if (f.kind != Kind::fresh || f.moisture_wet >= 0.86) continue;
    EXPECT_GT(f.habit.holding_dry, 0.9 * f.moisture_wet / (1.0 - f.moisture_wet)) << f.id;
  }
}

TEST(TypicalFeedstocks, StartSlowerWhereTheyDecayedBefore) {
  const auto uptake = [](const char* id) {
    const Feedstock f = find_typical(id).value();
    double sum = 0.0;
    for (std::size_t p = 0; p < pool_count; ++p) sum += f.pool_dry[p] * f.pool_rate_20c_per_s[p] / (1.0 - f.ash_dry);
    return sum;
  };
  EXPECT_LT(uptake("broiler-litter"), 0.5 * uptake("layer-manure"));
  EXPECT_LT(uptake("deep-litter"), 0.5 * uptake("cattle-manure"));
  EXPECT_GT(uptake("grass-clippings"), 2.0 * uptake("grass-hay"));
  EXPECT_LT(uptake("finished-compost"), 0.1 * uptake("horse-manure"));
}

TEST(TypicalFeedstocks, HoldCarbonWithinTheBandOfVolatileSolids) {
  for (const Feedstock& f : typical_feedstocks()) {
    const double of_volatile = f.carbon_dry / (1.0 - f.ash_dry);
    EXPECT_GT(of_volatile, 0.39) << f.id;  // cellulose 0.44; sheets' C:N of paper is rough
    EXPECT_LT(of_volatile, 0.60) << f.id;
  }
}

TEST(TypicalFeedstocks, CiteASourceForEveryValue) {
  for (const Feedstock& f : typical_feedstocks()) {
    for (const char* field :
         {"moisture_wet", "carbon_dry", "nitrogen_dry", "ash_dry", "bulk_density_kg_m3", "conductivity_s_m", "pool_dry",
          "pool_rate_20c_per_s", "particle_size_m", "holding_dry", "best_c"}) {
      const auto source = f.source.find(field);
      ASSERT_NE(source, f.source.end()) << f.id << " " << field;
      EXPECT_GE(source->second.size(), 20U) << f.id << " " << field;
    }
  }
}

TEST(TypicalFeedstocks, AreFoundByIdOnly) {
  ASSERT_TRUE(find_typical("wheat-straw"));
  EXPECT_EQ(find_typical("wheat-straw")->name, "Wheat straw");
  EXPECT_FALSE(find_typical("Wheat straw"));
}

TEST(NearestIds, MendAMistypedId) {
  EXPECT_EQ(nearest_ids("wood-chip", 1), std::vector<std::string>{"wood-chips"});
  EXPECT_EQ(nearest_ids("leafs", 1), std::vector<std::string>{"leaves"});
  const auto straws = nearest_ids("straw");
  EXPECT_EQ(straws.size(), 3U);
  EXPECT_NE(std::find(straws.begin(), straws.end(), "wheat-straw"), straws.end());
}

TEST(NearestIds, NeverExceedTheTable) { EXPECT_EQ(nearest_ids("x", 10000).size(), typical_feedstocks().size()); }

TEST(Estimates, NeverGoBelowNothing) {
  EXPECT_EQ(degradable_share_from_lignin(0.5), 0.0);
  EXPECT_NEAR(degradable_share_from_lignin(0.10), 0.55, 1e-12);
}

/// To write the page anew: STILLHEAP_WRITE_DOCS=1 in the environment of this test.
TEST(FeedstockPage, IsTheOneInTheDocs) {
  const std::string file = std::string(STILLHEAP_SOURCE_DIR) + "/docs/feedstocks.md";
  if (std::getenv("STILLHEAP_WRITE_DOCS") != nullptr) std::ofstream(file) << feedstock_markdown();
  std::ostringstream text;
  text << std::ifstream(file).rdbuf();
  EXPECT_EQ(text.str(), feedstock_markdown()) << "docs/feedstocks.md is stale";
}

}  // namespace
}  // namespace stillheap::material

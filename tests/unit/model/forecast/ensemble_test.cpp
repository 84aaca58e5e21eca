#include "model/forecast/ensemble.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "model/forecast/central.hpp"
#include "sample_request.hpp"

namespace stillheap::forecast {
namespace {

bool always(double) { return true; }

TEST(Percentile, LiesOnALineBetweenOrderedValues) {
  EXPECT_EQ(percentile({}, 0.5), 0.0);
  EXPECT_EQ(percentile({7.0}, 0.9), 7.0);
  EXPECT_DOUBLE_EQ(percentile({4.0, 1.0, 3.0, 2.0}, 0.0), 1.0);
  EXPECT_DOUBLE_EQ(percentile({4.0, 1.0, 3.0, 2.0}, 1.0), 4.0);
  EXPECT_DOUBLE_EQ(percentile({4.0, 1.0, 3.0, 2.0}, 0.5), 2.5);
  EXPECT_DOUBLE_EQ(percentile({0.0, 10.0, 20.0}, 0.1), 2.0);
}

TEST(Members, AreTheSameForTheSameSeedAndOthersForAnother) {
  const Request request = common_request(5);
  const auto a = draw_members(request, 8, 3), b = draw_members(request, 8, 3), c = draw_members(request, 8, 4);
  ASSERT_EQ(a.size(), 8U);
  for (std::size_t m = 0; m < a.size(); ++m) {
    EXPECT_EQ(a[m].request.blend.moisture_wet, b[m].request.blend.moisture_wet);
    EXPECT_NE(a[m].request.blend.moisture_wet, c[m].request.blend.moisture_wet);
    for (const physics::ParameterRow& row : physics::parameter_rows())
      EXPECT_EQ(a[m].parameters.*row.member, b[m].parameters.*row.member) << row.name;
  }
}

TEST(Members, DoNotChangeWhenMoreAreAsked) {
  const Request request = common_request(5);
  const auto few = draw_members(request, 4, 1), many = draw_members(request, 16, 1);
  for (std::size_t m = 0; m < few.size(); ++m) EXPECT_EQ(few[m].parameters.rate_factor, many[m].parameters.rate_factor);
}

TEST(Members, SpreadEveryParameterAboutAsWideAsItsRowSays) {
  const Request request = common_request(5);
  Request unmixed = request;
  unmixed.blend.habit = {}, unmixed.blend.kind_dry = {}, unmixed.blend.kind_uptake = {};
  const auto members = draw_members(unmixed, 256, 1);
  const physics::Parameters central = material_parameters(unmixed.blend);
  for (const physics::ParameterRow& row : physics::parameter_rows()) {
    double sum = 0.0, sum2 = 0.0;
    for (const Member& member : members) {
      const double value = member.parameters.*row.member;
      const double off = row.spread == physics::Spread::lognormal ? std::log(value / (central.*row.member))
                                                                  : value - central.*row.member;
      sum += off;
      sum2 += off * off;
    }
    const double n = static_cast<double>(members.size());
    EXPECT_NEAR(sum / n, 0.0, 0.1 * row.deviation) << row.name;
    EXPECT_NEAR(std::sqrt(sum2 / n) / row.deviation, 1.0, 0.1) << row.name;
  }
}

TEST(CentralParameters, AreThoseOfTheBlendsMaterialsOrTheModelsOwn) {
  const material::Blend chips = blend_of({{"wood-chips", 1.0}}, 0.5), manure = blend_of({{"horse-manure", 1.0}}, 0.65);
  EXPECT_GT(central_parameters(manure).temperature_most_c, central_parameters(chips).temperature_most_c);
  EXPECT_LT(central_parameters(manure).particle_size_m, central_parameters(chips).particle_size_m);
  EXPECT_GT(central_parameters(manure).holding_capacity, central_parameters(chips).holding_capacity);
  EXPECT_EQ(central_parameters({}).holding_capacity, physics::Parameters{}.holding_capacity);
}

TEST(Members, HoldBlendsThatCanBe) {
  for (const Member& member : draw_members(common_request(5), 64, 9)) {
    const material::Blend& blend = member.request.blend;
    EXPECT_GT(blend.moisture_wet, 0.0);
    EXPECT_LT(blend.moisture_wet, 1.0);
    double pools_dry = blend.ash_dry;
    for (const double pool : blend.pool_dry) pools_dry += pool;
    EXPECT_LE(pools_dry, 1.0);
  }
}

TEST(RunMembers, GiveTheSameNumbersAgainInTheirOrderAndDiffer) {
  const Request request = draft_weather(common_request(4));
  const auto members = draw_members(request, 5, 2);
  const auto together = run_members(members, always);
  ASSERT_EQ(together.size(), members.size());
  std::set<double> peaks;
  for (std::size_t m = 0; m < members.size(); ++m) {
    // One member alone runs on one thread, whatever the machine has.
    const auto alone = run_members({members[m]}, always);
    ASSERT_EQ(alone.size(), 1U);
    EXPECT_EQ(alone[0].peak_c, together[m].peak_c);
    EXPECT_EQ(alone[0].solids_lost, together[m].solids_lost);
    EXPECT_EQ(alone[0].lowest_oxygen, together[m].lowest_oxygen);
    peaks.insert(together[m].peak_c);
  }
  EXPECT_EQ(peaks.size(), members.size());
}

TEST(RunMembers, StopWhenAsked) {
  const auto members = draw_members(draft_weather(common_request(3)), 4, 2);
  EXPECT_LT(run_members(members, [](double) { return false; }).size(), members.size());
}

TEST(OwnReadings, TakeThePlaceOfThePublishedHeaps) {
  Request request = common_request(5);
  const Member before = middle_member(request);
  EXPECT_EQ(before.parameters.rate_factor, central_parameters(request.blend).rate_factor);
  std::vector<double> low(input_count(), 0.0), high(input_count(), 0.0);
  low[input_moisture] = -1.0;
  high[input_moisture] = 2.0;
  request.own = {{low, high}, 1.5};
  EXPECT_NEAR(middle_member(request).request.blend.moisture_wet, request.blend.moisture_wet + 0.5 * moisture_deviation,
              1e-12)
      << "the mean of the draws";
  const auto members = draw_members(request, 4, 1);
  ASSERT_EQ(members.size(), 4U);
  EXPECT_NEAR(members[0].request.blend.moisture_wet, request.blend.moisture_wet - moisture_deviation, 1e-12);
  EXPECT_NEAR(members[3].request.blend.moisture_wet, request.blend.moisture_wet + 2.0 * moisture_deviation, 1e-12);
  EXPECT_TRUE(members[0].request.own.draws.empty());
}

}  // namespace
}  // namespace stillheap::forecast

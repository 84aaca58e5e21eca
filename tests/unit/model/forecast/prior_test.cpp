#include "model/forecast/prior.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "model/forecast/central.hpp"
#include "model/forecast/ensemble.hpp"
#include "sample_request.hpp"

namespace stillheap::forecast {
namespace {

std::size_t place_of(double physics::Parameters::*constant) {
  return static_cast<std::size_t>(std::find(learned_constants.begin(), learned_constants.end(), constant) -
                                  learned_constants.begin());
}

TEST(Prior, LearnedConstantsAreRowsOfTheTableOnceEach) {
  std::set<std::size_t> rows;
  for (std::size_t i = 0; i < learned_constants.size(); ++i) {
    rows.insert(row_of_learned(i));
    EXPECT_EQ(physics::parameter_rows()[row_of_learned(i)].member, learned_constants[i]);
  }
  EXPECT_EQ(rows.size(), learned_constants.size());
}

TEST(Prior, ShiftOfABlendLiesBetweenThoseOfItsClassesByTheirShares) {
  PriorDraw draw{};
  for (std::size_t k = 0; k < material::kind_count; ++k) draw[k].fill(static_cast<double>(k));
  const material::Blend blend = blend_of({{"wood-chips", 0.5}, {"horse-manure", 0.5}}, 0.6);
  const Shift shift = shift_of(blend, draw);
  const auto manure = static_cast<std::size_t>(material::Kind::manure);
  EXPECT_NEAR(shift[place_of(&physics::Parameters::rate_factor)],
              static_cast<double>(manure) * blend.kind_uptake[manure], 1e-12);
  EXPECT_NEAR(shift[place_of(&physics::Parameters::particle_size_m)],
              static_cast<double>(manure) * blend.kind_dry[manure], 1e-12);
}

TEST(Prior, BlendThatWasNotMixedKeepsTheModelsOwnConstants) {
  for (const double shift : mean_shift({})) EXPECT_EQ(shift, 0.0);
  for (const double deviation : deviation_of_one_heap({})) EXPECT_EQ(deviation, 1.0);
}

TEST(Prior, MembersSpreadRoundTheMiddleLine) {
  const Request request = common_request(5);
  const Shift middle = mean_shift(request.blend), alone = deviation_of_one_heap(request.blend);
  const auto rows = member_deviations(request.blend, 512, 1);
  for (std::size_t i = 0; i < middle.size(); ++i) {
    double sum = 0.0, square = 0.0;
    for (const auto& row : rows) {
      const double value = row[input_parameters + row_of_learned(i)];
      sum += value;
      square += (value - middle[i]) * (value - middle[i]);
    }
    const double n = static_cast<double>(rows.size());
    EXPECT_NEAR(sum / n, middle[i], 0.1) << physics::parameter_rows()[row_of_learned(i)].name;
    EXPECT_GT(std::sqrt(square / n), 0.9 * alone[i]);
  }
}

TEST(Prior, DrawsAreAPowerOfTwoSoThatSobolPointsMeetThemEvenly) {
  const std::size_t count = prior_draws().size();
  EXPECT_GE(count, 64U);
  EXPECT_EQ(count & (count - 1), 0U);
}

}  // namespace
}  // namespace stillheap::forecast

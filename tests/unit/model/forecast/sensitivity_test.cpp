#include "model/forecast/sensitivity.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "model/forecast/ensemble.hpp"
#include "model/forecast/first_order.hpp"

namespace stillheap::forecast {
namespace {

/// Tracks whose answers follow from the members' deviations by plain laws.
std::vector<std::optional<RunHistory>> tracks_by_law(int count) {
  std::vector<std::optional<RunHistory>> tracks;
  for (const auto& z : member_deviations({}, count, 1)) {
    RunHistory track;
    track.history.resize(2);
    track.peak_c = 60.0 + 2.0 * z[input_moisture];
    track.heat_ended = true;
    track.heat_end_day = 100.0 + 6.0 * z[input_moisture] + 8.0 * z[input_density];
    track.lowest_oxygen = 0.1;
    track.driest = 0.5 + 0.02 * z[input_pools] + 0.02 * z[input_pools + 1];
    track.solids_lost = std::exp(0.1 * z[input_density]);
    tracks.emplace_back(track);
  }
  return tracks;
}

const Unknown& named(const Sensitivity& all, const std::string& begin) {
  for (const Unknown& one : all.unknowns)
    if (one.what.rfind(begin, 0) == 0) return one;
  throw std::runtime_error("no unknown " + begin);
}

TEST(FirstOrder, SeesALineExactly) {
  const auto points = normal_points(4, 40, 1);
  std::vector<double> answers;
  for (const auto& z : points) answers.push_back(5.0 + 3.0 * z[0] - 4.0 * z[2]);
  const auto found = first_order(points, answers);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->share[0], 0.36, 1e-9);
  EXPECT_NEAR(found->share[2], 0.64, 1e-9);
  EXPECT_EQ(found->share[1], 0.0);
  EXPECT_NEAR(found->unexplained, 0.0, 1e-9);
  EXPECT_EQ(found->terms, 2);
}

TEST(FirstOrder, SeesNothingInNoise) {
  const auto points = normal_points(29, 64, 1);
  std::vector<std::vector<double>> inputs;
  std::vector<double> answers;
  for (const auto& z : points) {
    inputs.emplace_back(z.begin(), z.end() - 1);
    answers.push_back(z.back());
  }
  const auto found = first_order(inputs, answers);
  ASSERT_TRUE(found);
  EXPECT_GT(found->unexplained, 0.9);
}

TEST(FirstOrder, HasNothingToSayOfAnswersThatDoNotDiffer) {
  const auto points = normal_points(3, 40, 1);
  EXPECT_FALSE(first_order(points, std::vector<double>(40, 7.0)));
  EXPECT_FALSE(first_order(normal_points(3, 5, 1), std::vector<double>{1, 2, 3, 4, 5}));
}

TEST(Sensitivity, PutsEveryInputInOneGroup) {
  std::set<std::size_t> seen;
  std::size_t count = 0;
  for (const UnknownInputs& one : unknown_inputs()) {
    seen.insert(one.inputs.begin(), one.inputs.end());
    count += one.inputs.size();
  }
  const std::size_t all = member_deviations({}, 1, 1).front().size();
  EXPECT_EQ(count, all);
  EXPECT_EQ(seen.size(), all);
  EXPECT_EQ(*seen.rbegin(), all - 1);
}

TEST(Sensitivity, NamesWhatDrivesEachAnswerAndWhatMeasuringItWouldDo) {
  const Sensitivity found = sensitivity(tracks_by_law(64), {}, 1);
  ASSERT_EQ(found.answers.size(), 4U) << "lowest oxygen does not differ and is left out";
  EXPECT_EQ(found.answers[2].name, "driest moisture");
  const Unknown& moisture = named(found, "moisture");
  EXPECT_NEAR(moisture.share[0].middle, 1.0, 1e-9);
  EXPECT_NEAR(moisture.narrowing[0], 1.0 - 0.33, 1e-9);
  EXPECT_NEAR(moisture.share[1].middle, 0.36, 1e-9);
  EXPECT_NEAR(named(found, "bulk density").share[1].middle, 0.64, 1e-9);
  EXPECT_NEAR(named(found, "how lively").share[2].middle, 1.0, 1e-9);
  EXPECT_NEAR(named(found, "how lively").narrowing[2], 0.5, 1e-9);
  EXPECT_TRUE(found.unknowns.back().how.empty()) << "what nobody can measure stands last";
  for (std::size_t i = 1; i + 1 < found.unknowns.size(); ++i)
    EXPECT_GE(found.unknowns[i - 1].mean_narrowing, found.unknowns[i].mean_narrowing);
}

TEST(Sensitivity, SaysWhyThereIsNoneWithFewRuns) {
  const Sensitivity found = sensitivity(tracks_by_law(16), {}, 1);
  EXPECT_TRUE(found.answers.empty());
  EXPECT_NE(found.why_none.find("at least 32"), std::string::npos);
}

TEST(Sensitivity, SkipsMembersThatDidNotEnd) {
  auto tracks = tracks_by_law(64);
  tracks[3].reset();
  tracks[9]->stopped = "too dry";
  const Sensitivity found = sensitivity(tracks, {}, 1);
  ASSERT_FALSE(found.answers.empty());
  EXPECT_EQ(found.answers[0].runs, 62);
  EXPECT_NEAR(named(found, "moisture").share[0].middle, 1.0, 1e-9);
}

}  // namespace
}  // namespace stillheap::forecast

#include "model/calibrate/learn.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "../forecast/sample_request.hpp"
#include "core/base/error.hpp"
#include "model/calibrate/learnables.hpp"
#include "model/forecast/central.hpp"

namespace stillheap::calibrate {
namespace {

std::vector<Observation> flat(int days, double celsius = 40.0) {
  std::vector<Observation> readings;
  for (int day = 0; day < days; ++day) readings.push_back({day + 0.5, celsius});
  return readings;
}

TEST(Learn, RefusesTooLittle) {
  EXPECT_TRUE(too_little({}).has_value());
  EXPECT_TRUE(too_little(flat(9)).has_value());
  EXPECT_FALSE(too_little(flat(11)).has_value());
  std::vector<Observation> often;
  for (int i = 0; i < 200; ++i) often.push_back({3.0 + i * 0.01, 40.0});
  EXPECT_TRUE(too_little(often).has_value()) << "many readings of two days";
  EXPECT_THROW((void)learn({}, flat(5)), InputError);
}

TEST(Learn, IgnoresReadingsAfterItsLastDay) {
  LearnOptions options;
  options.last_day = 5.0;
  EXPECT_TRUE(too_little(flat(30), options).has_value());
}

TEST(Learn, StopsOnRequest) {
  LearnOptions options;
  options.members = 8;
  EXPECT_THROW((void)draw_prior(forecast::common_request(30), options, [](double) { return false; }), RunError);
}

TEST(Learnables, AreTheDeviationsThatMembersAreDrawnWith) {
  const forecast::Request request = forecast::common_request(30);
  const std::vector<forecast::Member> members = forecast::draw_members(request, 8, 5);
  const std::vector<std::vector<double>> drawn = forecast::member_deviations(request.blend, 8, 5);
  const auto rows = physics::parameter_rows();
  for (std::size_t m = 0; m < members.size(); ++m) {
    const std::vector<double> values = read_values(members[m], request);
    ASSERT_EQ(values.size(), learnables().size());
    std::size_t at = 0;
    for (std::size_t i = 0; i < drawn[m].size(); ++i) {
      const bool constant = i >= forecast::input_parameters;
      const auto* row = constant ? &rows[i - forecast::input_parameters] : nullptr;
      if (row != nullptr && row->member == &physics::Parameters::salt_per_conductivity) continue;
      EXPECT_NEAR(values[at], drawn[m][i], 1e-9) << learnables()[at].name;
      ++at;
    }
    EXPECT_EQ(at, values.size());
  }
}

/// `hot` days at 40 degC, then `rest` days at 16 degC; the hottest place stays at 40 degC for `late` days more.
Course course(int hot, int rest, int late = 0) {
  Course one;
  for (int day = 0; day < hot + rest; ++day) {
    one.push_back({static_cast<double>(day), day < hot ? 40.0 : 16.0, day < hot + late ? 40.0 : 16.0});
  }
  return one;
}

Course flat_course(int days, double celsius) {
  Course one;
  for (int day = 0; day < days; ++day) one.push_back({static_cast<double>(day), celsius, celsius});
  return one;
}

TEST(Outlook, EndsOnlyOnceTheHottestPlaceRestsToo) {
  const Course twin = flat_course(60, 15.0);
  const Course core_first = course(20, 40, 10);
  const Outlook outlook = outlook_of(core_first, {core_first, core_first, core_first}, {}, twin);
  ASSERT_TRUE(outlook.cool_day.has_value());
  EXPECT_EQ(outlook.cool_day->middle, 30.0) << "the core alone rests from day 20";
  EXPECT_LE(outlook.cool_day->low, 30.0);
  EXPECT_EQ(outlook_of(course(20, 35, 30), {core_first}, {}, twin).cool_day, std::nullopt) << "five days are not 14";
}

TEST(Outlook, TellsHeapsThatWereNeverWarmFromThoseStillWarm) {
  const Course twin = flat_course(40, 15.0);
  const std::vector<Course> four = {course(0, 40), course(40, 0), course(3, 37), course(0, 40)};
  const Outlook outlook = outlook_of({}, four, {}, twin);
  EXPECT_EQ(outlook.never_warm_share, 0.5);
  EXPECT_EQ(outlook.cool_share_of_members, 0.25);
  const Outlook never = outlook_of(course(0, 40), four, {}, twin);
  EXPECT_FALSE(never.heated);
  EXPECT_FALSE(never.cool_day.has_value()) << "as on the card";
  EXPECT_FALSE(outlook_of(course(40, 0), four, {}, twin).cool_day.has_value());
}

/// A prior without a run: courses that hang on the dry density alone, members as drawn.
Prior made_up_prior(int members) {
  Prior prior;
  prior.request = forecast::common_request(60);
  prior.members = forecast::draw_members(prior.request, members, 3);
  prior.twin = flat_course(61, 32.0);  // heat counts from 35 degC up
  for (const forecast::Member& member : prior.members) {
    const double z = read_values(member, prior.request).front();
    Course& course = prior.courses.emplace_back();
    std::vector<forecast::HistoryRow>& history = prior.histories.emplace_back();
    for (int day = 0; day <= 60; ++day) {
      const double celsius = 45.0 + 4.0 * z - 0.5 * day;
      course.push_back({static_cast<double>(day), celsius, celsius});
      forecast::HistoryRow& row = history.emplace_back();
      row.day = day;
      row.core_c = celsius;
      row.mean_moisture_wet = 0.6 + 0.05 * read_values(member, prior.request)[1] - 0.002 * day;
      row.mean_oxygen = 0.15;
    }
  }
  return prior;
}

TEST(Learn, FindsAHiddenValueAndTheDayThatFollowsFromIt) {
  const Prior prior = made_up_prior(256);
  std::vector<Observation> readings;
  for (int day = 1; day <= 21; ++day) readings.push_back({day + 0.25, 45.0 + 4.0 * 1.3 - 0.5 * (day + 0.25)});
  const Learned learned = learn(prior, readings);
  EXPECT_TRUE(learned.follows);
  EXPECT_LT(learned.after.misfit_k, 0.3);
  EXPECT_NEAR(learned.values.front().mean, 1.3, 0.1);
  // 21 readings, each 2 K off, of what moves 4 K a deviation
  EXPECT_NEAR(learned.values.front().deviation, 2.0 / 4.0 / std::sqrt(21.0), 0.03);
  EXPECT_NEAR(learned.values[3].deviation, 1.0, 0.2) << "what no reading turns on stays as it was";
  const double cool = (45.0 + 4.0 * 1.3 - 35.0) / 0.5;
  ASSERT_TRUE(learned.before.cool_day && learned.after.cool_day);
  const forecast::Banded before = *learned.before.cool_day, after = *learned.after.cool_day;
  EXPECT_NEAR(after.middle, cool, 1.0);
  EXPECT_LT(after.low, cool);
  EXPECT_GT(after.high, cool);
  EXPECT_GT(before.high - before.low, 2.0 * (after.high - after.low)) << "the band of times keeps its own factor";
}

TEST(Learn, SaysWhenTheModelCannotFollow) {
  const Prior prior = made_up_prior(128);
  const Learned hot = learn(prior, flat(21, 90.0));
  EXPECT_FALSE(hot.follows);
  for (const Course& course : hot.courses) EXPECT_LE(course[10].core_c, 40.0 + 4.0 * 2.51) << "hotter than any run";
  // Drawn within 2.5 deviations; 0.7 more, chosen: the learned constants are drawn round a mean of their own.
  const std::vector<double> shift =
      read_values({prior.request, forecast::central_parameters(prior.request.blend)}, prior.request);
  for (std::size_t i = 0; i < shift.size(); ++i)
    EXPECT_LE(std::abs(hot.values[i].mean - shift[i]), 3.2) << hot.values[i].name;
}

std::vector<Observation> core_and(std::vector<Observation> others) {
  std::vector<Observation> readings;
  for (int day = 1; day <= 21; ++day) readings.push_back({day + 0.25, 45.0 - 0.5 * (day + 0.25)});
  readings.insert(readings.end(), others.begin(), others.end());
  return readings;
}

TEST(Learn, TakesMoistureOfAKnownErrorForWhatItSays) {
  const Prior prior = made_up_prior(256);
  const auto wet = [](double day) { return 0.6 + 0.05 * 1.2 - 0.002 * day; };
  const Learned learned = learn(prior, core_and({{22.0, wet(22.0), Sensed::moisture, 0.01},  // issue 19.1
                                                 {30.0, wet(30.0), Sensed::moisture, 0.01}}));
  EXPECT_EQ(learned.readings, 21);
  EXPECT_EQ(learned.observations, 23);
  EXPECT_EQ(learned.left_out, 0);
  EXPECT_TRUE(learned.follows);
  EXPECT_NEAR(learned.values[1].mean, 1.2, 0.15) << learned.values[1].name;
  EXPECT_NEAR(learned.values[1].deviation, 0.01 / 0.05 / std::sqrt(2.0), 0.05);
  EXPECT_NEAR(learned.values.front().mean, 0.0, 0.15);
}

TEST(Learn, CountsMoistureOfOnePlaceOnce) {
  const Prior prior = made_up_prior(256);
  std::vector<Observation> once, often;
  for (int i = 0; i < 25; ++i) often.push_back({22.0 + i, 0.7 - 0.002 * (22.0 + i), Sensed::moisture});
  once = {often[12]};
  const double of_one = learn(prior, core_and(once)).values[1].deviation;
  EXPECT_NEAR(learn(prior, core_and(often)).values[1].deviation, of_one, 0.12);
  EXPECT_GT(of_one, 0.5) << "0.06 off, of what moves 0.05 a deviation: most of the spread stays";
}

TEST(Learn, LeavesOutAMoistureThatNoRunComesNear) {
  const Prior prior = made_up_prior(128);
  const Learned learned = learn(prior, core_and({{22.0, 0.05, Sensed::moisture}, {23.0, 0.14, Sensed::oxygen}}));
  EXPECT_EQ(learned.left_out, 1);
  EXPECT_TRUE(learned.follows) << "one dry corner does not spoil what the core tells";
  EXPECT_TRUE(too_little(std::vector<Observation>(30, {3.0, 0.5, Sensed::moisture})).has_value());
}

TEST(Learn, RefusesReadingsBeyondTheForecast) { EXPECT_THROW((void)learn(made_up_prior(16), flat(70)), InputError); }

}  // namespace
}  // namespace stillheap::calibrate

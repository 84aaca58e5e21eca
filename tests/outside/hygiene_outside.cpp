#include <gtest/gtest.h>

#include "domain/rules/hygiene.hpp"
#include "outside/check.hpp"

namespace stillheap::rules {
namespace {

constexpr double hour_s = 3600.0;

History hold(double hours, double celsius) {
  History history;
  for (double at_h = 0.0; at_h < hours; at_h += 6.0) history.push_back({at_h * hour_s, celsius});
  history.push_back({hours * hour_s, celsius});
  return history;
}

double from_fahrenheit(double fahrenheit) { return (fahrenheit - 32.0) / 1.8; }

std::string pass(bool met) { return met ? "pass" : "fail"; }

TEST(TimeTemperature, AsksForThePublishedHoldingTimes) {
  outside::expect("H01", "days_at_55", required_hold_s(55.0) / 86400.0);
  outside::expect("H01", "days_at_60", required_hold_s(60.0) / 86400.0);
  outside::expect("H01", "hours_at_55", required_hold_s(55.0) / hour_s);
  outside::expect("H01", "hours_at_60", required_hold_s(60.0) / hour_s);
}

TEST(TimeTemperature, JudgesUnbrokenHolds) {
  const auto verdict = [](const char* key, const History& history, double solids_wet = 0.4) {
    const bool met = judge_time_temperature(history, {.solids_wet = solids_wet}).met;
    outside::expect("H01-rule", key, std::string(met ? "met" : "not met"));
  };
  verdict("hold_64_h_at_55", hold(64.0, 55.0));
  verdict("hold_62_h_at_55", hold(62.0, 55.0));
  verdict("hold_13_h_at_60", hold(13.0, 60.0));
  verdict("hold_12_h_at_60", hold(12.0, 60.0));
  verdict("hold_19_min_at_75", hold(19.0 / 60.0, 75.0));
  verdict("hold_21_min_at_75", hold(21.0 / 60.0, 75.0));
  verdict("hold_64_h_at_55_solids_6", hold(64.0, 55.0), 0.06);
  verdict("hold_400_h_at_49", hold(400.0, 49.0));
}

TEST(Lethality, SumsAHistoryInSteps) {
  const History steps = {{0.0, 55.0},           {24.0 * hour_s, 55.0}, {24.0 * hour_s, 58.0},
                         {36.0 * hour_s, 58.0}, {36.0 * hour_s, 60.0}, {42.0 * hour_s, 60.0}};
  outside::expect("H03", "lethality", fractional_lethality(steps));
}

TEST(HoldRules, JudgeStaticAndWindrow) {
  const HoldRule& still = hold_rule("static-aerated-55");
  outside::expect("H04", "static_72_h_at_55", pass(judge(still, hold(72.0, 55.0), {}).met));
  outside::expect("H04", "static_71_h_at_55", pass(judge(still, hold(71.0, 55.0), {}).met));
  outside::expect("H04", "static_3_days_at_54_9", pass(judge(still, hold(72.0, 54.9), {}).met));
  const HoldRule& windrow = hold_rule("windrow-55");
  const auto turned = [&](int turnings) {
    return judge(windrow, hold(15.0 * 24.0, 55.0), {.method = Method::windrow, .turnings = turnings}).met;
  };
  outside::expect("H04", "windrow_15_days_4_turnings", pass(turned(4)));
  outside::expect("H04", "windrow_15_days_5_turnings", pass(turned(5)));
}

TEST(HoldRules, JudgeOrganicProduction) {
  const HoldRule& rule = hold_rule("organic-static-aerated");
  const auto verdict = [&](double fahrenheit, double carbon_to_nitrogen) {
    return pass(judge(rule, hold(72.0, from_fahrenheit(fahrenheit)), {.carbon_to_nitrogen = carbon_to_nitrogen}).met);
  };
  History sweep = hold(72.0, from_fahrenheit(140.0));
  sweep.front().celsius = from_fahrenheit(131.0);
  sweep.back().celsius = from_fahrenheit(170.0);
  outside::expect("H06", "three_days_131_to_170_f", pass(judge(rule, sweep, {.carbon_to_nitrogen = 30.0}).met));
  outside::expect("H06", "three_days_exactly_131_f", verdict(131.0, 30.0));
  outside::expect("H06", "three_days_175_f", verdict(175.0, 30.0));
  outside::expect("H06", "carbon_to_nitrogen_45", verdict(140.0, 45.0));
  outside::expect("H06", "carbon_to_nitrogen_25", verdict(140.0, 25.0));
}

}  // namespace
}  // namespace stillheap::rules

#include <gtest/gtest.h>

#include <cmath>

#include "domain/rules/hygiene.hpp"
#include "outside/check.hpp"
#include "yard/insight/heap_hygiene.hpp"
#include "yard/insight/phase.hpp"
#include "yard/state/material_points.hpp"

namespace stillheap::insight {
namespace {

constexpr double hour_s = 3600.0;
constexpr double day_s = 24.0 * hour_s;

std::string met(bool yes) { return yes ? "met" : "not met"; }

/// Readings every six hours at one temperature, from where the history ends on.
void hold(rules::History& history, double hours, double celsius) {
  const double begin_s = history.empty() ? 0.0 : history.back().time_s;
  for (double at_h = 0.0; at_h < hours; at_h += 6.0) history.push_back({begin_s + at_h * hour_s, celsius});
  history.push_back({begin_s + hours * hour_s, celsius});
}

rules::History hold(double hours, double celsius) {
  rules::History history;
  hold(history, hours, celsius);
  return history;
}

TEST(TimeTemperature, HasTheWorkedHoldingTimes) {
  outside::expect("YR1", "days_at_50", rules::required_hold_s(50.0) / day_s);
  outside::expect("YR1", "days_at_62", rules::required_hold_s(62.0) / day_s);
  outside::expect("YR1", "days_at_65", rules::required_hold_s(65.0) / day_s);
  outside::expect("YR1", "minutes_at_70", rules::required_hold_s(70.0) / 60.0);
  double low_c = 50.0;
  double high_c = 70.0;
  while (high_c - low_c > 1e-6)
    (rules::required_hold_s(0.5 * (low_c + high_c)) > day_s ? low_c : high_c) = 0.5 * (low_c + high_c);
  outside::expect("YR1", "temperature_of_one_day", low_c);
}

TEST(StaticRule, CountsADailyRecordAsWorkedByHand) {
  const auto record = [](double shift_k, bool all = true) {
    Track track;
    const double values[] = {45.0, 50.0, 60.0, 61.0, 61.0, 49.0, 45.0};
    for (int i = 0; i < 7; ++i) {
      if (all || i != 3) track.samples.push_back({i * day_s, values[i] + shift_k});
    }
    return heap_hygiene(std::vector<Track>{track}, {}, {}, 10.0 * day_s).front().probes.front().verdict;
  };
  const rules::Verdict plain = record(0.0);
  outside::expect("YR2", "two_crossings_hours", plain.longest.length_s() / hour_s);
  outside::expect("YR2", "two_crossings", met(plain.met));
  outside::expect("YR2", "met_at_hours", plain.met_at_s.value_or(NAN) / hour_s);
  const rules::Verdict cooler = record(-0.1);
  outside::expect("YR2", "a_tenth_cooler_hours", cooler.longest.length_s() / hour_s);
  outside::expect("YR2", "a_tenth_cooler", met(cooler.met));
  outside::expect("YR2", "a_day_not_read", met(record(0.0, false).met));
}

TEST(LesserRule, IsMetAsWritten) {
  const auto run = [](double days, double peak_hours, double peak_c) {
    rules::History history = hold(24.0, 41.0);
    hold(history, peak_hours, peak_c);
    hold(history, days * 24.0 - 24.0 - peak_hours, 41.0);
    return met(rules::judge_significant_reduction(history).met);
  };
  outside::expect("YR3", "five_days_four_hours", run(5.0, 4.0, 56.0));
  outside::expect("YR3", "five_days_three_hours", run(5.0, 3.0, 56.0));
  outside::expect("YR3", "four_days_four_hours", run(4.0, 4.0, 56.0));
  outside::expect("YR3", "five_days_never_over_55", run(5.0, 4.0, 55.0));
}

TEST(VerminRule, IsMetAsWritten) {
  const auto judged = [](const rules::History& history) { return met(rules::judge_vector_attraction(history).met); };
  outside::expect("YR4", "fourteen_days_at_46", judged(hold(14.0 * 24.0, 46.0)));
  outside::expect("YR4", "fourteen_days_at_44", judged(hold(14.0 * 24.0, 44.0)));
  outside::expect("YR4", "thirteen_days_at_60", judged(hold(13.0 * 24.0, 60.0)));
  rules::History mixed = hold(10.0 * 24.0, 42.0);
  hold(mixed, 4.0 * 24.0, 60.0);
  outside::expect("YR4", "ten_at_42_four_at_60", judged(mixed));
}

TEST(EuropeanProfiles, AreMetOneByOne) {
  const auto first_met = [](double days, double celsius) {
    for (const rules::HoldRule& rule : rules::further_hold_rules()) {
      if (rules::judge(rule, hold(days * 24.0, celsius), {.method = rules::Method::turned_or_forced_air}).met)
        return std::string(rule.id);
    }
    return std::string("none");
  };
  outside::expect("YR5", "three_days_at_70", first_met(3.0, 70.0));
  outside::expect("YR5", "five_days_at_65", first_met(5.0, 65.0));
  outside::expect("YR5", "seven_days_at_60", first_met(7.0, 60.0));
  outside::expect("YR5", "fourteen_days_at_55", first_met(14.0, 55.0));
  outside::expect("YR5", "thirteen_days_at_55", first_met(13.0, 55.0));
  outside::expect("YR5", "four_days_at_69", first_met(4.0, 69.0));
}

TEST(Phases, FollowATextbookHeap) {
  Track track;
  const auto line = [&](int from, int to, double from_c, double to_c) {
    for (int day = from; day < to; ++day) {
      track.samples.push_back({(day + 0.5) * day_s, from_c + (to_c - from_c) * (day - from) / (to - from)});
    }
  };
  line(0, 3, 25.0, 40.0);
  line(3, 20, 55.0, 60.0);
  line(20, 60, 58.0, 22.0);
  line(60, 121, 20.0, 18.0);
  const auto phase = [&](double day) {
    return std::string(name_of(phase_of(std::vector<Track>{track}, day * day_s).now));
  };
  outside::expect("YR6", "day_2_at_35", phase(2.6));
  outside::expect("YR6", "day_10_at_60", phase(10.6));
  outside::expect("YR6", "day_45_at_33", phase(45.6));
  outside::expect("YR6", "day_120_at_18", phase(120.6));
}

TEST(SpokenShare, IsThatOfACylinder) {
  vessel::Design design;
  design.diameter_m = 1.5;
  design.height_m = 1.3;
  design.fill_height_m = 1.2;
  const auto material = yard::material_points(design);
  const ProbePoint probe{{0.0, 0.5}, 0.6, yard::to_face_m(design, {0.0, 0.5}, 0.6)};
  const Spoken spoken = spoken_for(material, std::vector<ProbePoint>{probe});
  outside::expect("YR7", "as_deep", spoken.as_deep);
  outside::expect("YR7", "near", spoken.near);
}

}  // namespace
}  // namespace stillheap::insight

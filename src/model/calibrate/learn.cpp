#include "model/calibrate/learn.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>
#include <utility>

#include "core/base/error.hpp"
#include "model/calibrate/ensemble_smoother.hpp"
#include "model/calibrate/held_against.hpp"
#include "model/calibrate/learnables.hpp"
#include "model/forecast/band.hpp"
#include "model/forecast/cold_twin.hpp"
#include "model/forecast/stages.hpp"

namespace stillheap::calibrate {
namespace {

using forecast::Member;
using forecast::RunHistory;

constexpr double most_deviations_off = 1.5;
constexpr int parts = 3;               // of the readings; chosen
constexpr double shifted_share = 0.5;  // of the members that weighing leaves in effect in each part; chosen
constexpr double prior_share = 0.7;    // of the work, as progress shows it; chosen, as the next
constexpr double parts_share = 0.5;    // of what is left

/// Progress of a piece of the work.
Progress part_of(const Progress& progress, double from, double to) {
  return [&progress, from, to](double share) { return !progress || progress(from + (to - from) * share); };
}

double most_misfit_k(const LearnOptions& options) { return most_deviations_off * options.deviation_k; }

double core_at(const Course& course, double day) { return rules::at_day(course, day).core_c; }

std::vector<Observation> used(std::span<const Observation> readings, const LearnOptions& options) {
  std::vector<Observation> those;
  for (const Observation& one : readings) {
    if (one.day <= options.last_day) those.push_back(one);
  }
  return those;
}

forecast::Banded band_of(const std::vector<double>& values) {
  return {forecast::percentile(values, 0.5), forecast::percentile(values, 0.1), forecast::percentile(values, 0.9)};
}

forecast::Banded core_band(const std::vector<Course>& courses, double day) {
  std::vector<double> core;
  core.reserve(courses.size());
  for (const Course& one : courses) core.push_back(core_at(one, day));
  return band_of(core);
}

/// Root mean square of the core's readings less `core`, a function of the day; 0 without any.
template <class Core>
double misfit_k(std::span<const Observation> readings, Core&& core) {
  double square = 0.0;
  int count = 0;
  for (const Observation& one : readings) {
    if (!is_core(one)) continue;
    square += std::pow(one.value - core(one.day), 2);
    ++count;
  }
  return count == 0 ? 0.0 : std::sqrt(square / count);
}

LearnedValue value_of(const Learnable& name, const Vectors& states, std::size_t at) {
  LearnedValue value{std::string(name.name), std::string(name.what), 0.0, 0.0};
  const auto count = static_cast<double>(states.size());
  for (const std::vector<double>& one : states) value.mean += one[at] / count;
  for (const std::vector<double>& one : states) value.deviation += std::pow(one[at] - value.mean, 2) / (count - 1.0);
  value.deviation = std::sqrt(value.deviation);
  return value;
}

/// Of states that hold the learned values from `at` on.
std::vector<LearnedValue> values_of(const Vectors& states, std::size_t at) {
  std::vector<LearnedValue> values;
  for (const Learnable& name : learnables()) values.push_back(value_of(name, states, at++));
  return values;
}

/// A member's state: the core's course, that of the hottest place, and behind them what is learned.
Vectors states_of(const Prior& prior) {
  Vectors states;
  for (std::size_t m = 0; m < prior.courses.size(); ++m) {
    std::vector<double>& one = states.emplace_back();
    for (const rules::HeatDay& day : prior.courses[m]) one.push_back(day.core_c);
    for (const rules::HeatDay& day : prior.courses[m]) one.push_back(day.hottest_c);
    const std::vector<double> values = read_values(prior.members[m], prior.request);
    one.insert(one.end(), values.begin(), values.end());
  }
  return states;
}

/// Of a state, on the days of `like`. Shifting may leave the hottest place below the core: it is no colder.
Course course_in(const std::vector<double>& state, const Course& like) {
  Course course = like;
  for (std::size_t i = 0; i < course.size(); ++i) {
    course[i].core_c = state[i];
    course[i].hottest_c = std::max(state[i], state[course.size() + i]);
  }
  return course;
}

/// Shifting goes along a straight line and may leave what is possible: the core stays inside what any run reached on
/// that day, the values inside the bounds they were drawn in.
void hold_possible(Vectors& states, const Vectors& drawn) {
  for (std::size_t i = 0; i < states.front().size(); ++i) {
    const auto [least, most] =
        std::minmax_element(drawn.begin(), drawn.end(),
                            [i](const std::vector<double>& a, const std::vector<double>& b) { return a[i] < b[i]; });
    for (std::vector<double>& one : states) one[i] = std::clamp(one[i], (*least)[i], (*most)[i]);
  }
}

/// Each day's medians.
Course medians_of(const std::vector<Course>& courses) {
  Course line = courses.front();
  for (std::size_t i = 0; i < line.size(); ++i) {
    std::vector<double> core, hottest;
    for (const Course& one : courses) {
      core.push_back(one[i].core_c);
      hottest.push_back(one[i].hottest_c);
    }
    line[i].core_c = forecast::percentile(core, 0.5);
    line[i].hottest_c = forecast::percentile(hottest, 0.5);
  }
  return line;
}

/// What a forecast needs to follow the readings. The states are in no order that matters: evenly spaced ones serve.
forecast::OwnReadings own_of(const Vectors& states) {
  forecast::OwnReadings own;
  const std::size_t count = std::min(most_draws, states.size());
  for (std::size_t m = 0; m < count; ++m) own.draws.push_back(deviations_of(states[m * states.size() / count]));
  return own;
}

/// One a member; nothing where its run stopped early. Throws RunError when progress asks to stop.
std::vector<std::optional<History>> histories_of(const std::vector<Member>& members, const Progress& progress) {
  bool stopped = false;
  std::vector<std::optional<RunHistory>> runs;
  forecast::run_members(
      members, runs,
      [&](double share) {
        if (progress && !progress(share)) stopped = true;
        return !stopped;
      },
      [] {});
  if (stopped) throw RunError("calibration", "stopped on request", "nothing was kept");
  std::vector<std::optional<History>> histories;
  for (std::optional<RunHistory>& run : runs) {
    const bool ended = run && !run->stopped && run->history.size() > 1;
    histories.push_back(ended ? std::optional(std::move(run->history)) : std::nullopt);
  }
  return histories;
}

/// Of two lists side by side what stands where there is a history.
template <class One>
std::pair<std::vector<One>, std::vector<History>> those_with(std::vector<One> all,
                                                             std::vector<std::optional<History>> histories) {
  std::pair<std::vector<One>, std::vector<History>> some;
  for (std::size_t m = 0; m < all.size(); ++m) {
    if (!histories[m]) continue;
    some.first.push_back(std::move(all[m]));
    some.second.push_back(std::move(*histories[m]));
  }
  return some;
}

std::vector<Course> courses_of(const std::vector<History>& histories) {
  std::vector<Course> courses;
  for (const History& one : histories) courses.push_back(forecast::heat_days(one));
  return courses;
}

/// The learned values alone, learned in `parts` steps from runs anew, each with errors as much larger as makes all
/// steps together count the readings once. The first step has the prior's runs; the others run no farther than the
/// readings. Source: Emerick and Reynolds 2013, "Ensemble smoother with multiple data assimilation", Computers &
/// Geosciences 55, 3-15 (from memory).
Vectors in_parts(const Prior& prior, const std::vector<Observation>& readings, const LearnOptions& options,
                 const Progress& progress) {
  Observed observed = observed_of(readings, options.deviation_k);
  for (double& one : observed.deviations) one *= std::sqrt(static_cast<double>(parts));
  const SmootherRule rule{shifted_share, options.seed};
  Vectors states;
  for (const Member& member : prior.members) states.push_back(read_values(member, prior.request));
  const Vectors drawn = states;
  std::vector<History> histories = prior.histories;
  for (int part = 0; part < parts; ++part) {
    if (part > 0) {
      forecast::Request as_far = prior.request;
      as_far.days = std::min(prior.request.days, static_cast<int>(std::ceil(readings.back().day)) + 1);
      std::vector<Member> members;
      for (const std::vector<double>& one : states) members.push_back(forecast::member_at(as_far, deviations_of(one)));
      const auto told = [&](double share) { return !progress || progress((part - 1 + share) / (parts - 1)); };
      std::tie(states, histories) = those_with(std::move(states), histories_of(members, told));
    }
    states = bridge(states, predictions_of(histories, readings), observed, rule).states;
    hold_possible(states, drawn);
  }
  return states;
}

void check(const Prior& prior, const std::vector<Observation>& readings, const LearnOptions& options) {
  if (const auto why = too_little(readings, options)) {
    throw InputError("calibration", *why, "read the core daily and try again; until then the forecast stands as it is");
  }
  if (readings.front().day >= 0.0 && readings.back().day <= prior.request.days) return;
  throw InputError("calibration", "a reading lies outside the forecast's days", "forecast for longer");
}

}  // namespace

Prior draw_prior(const forecast::Request& request, const LearnOptions& options, const Progress& progress) {
  Prior prior{forecast::on_grid(request, forecast::Grid::draft), {}, {}, {}, {}, {}};
  prior.request.own = {};  // all readings are learned from together, from where the materials stand
  std::vector<Member> members = forecast::draw_members(prior.request, options.members, options.seed, options.heaps);
  members.push_back(forecast::middle_member(prior.request, options.heaps));
  std::vector<std::optional<History>> histories = histories_of(members, progress);
  if (histories.back()) prior.middle = forecast::heat_days(*histories.back());
  members.pop_back();
  histories.pop_back();
  std::tie(prior.members, prior.histories) = those_with(std::move(members), std::move(histories));
  prior.courses = courses_of(prior.histories);
  prior.twin = forecast::cold_twin(request, [](double) { return true; });
  return prior;
}

Outlook outlook_of(const Course& line, const std::vector<Course>& courses, std::span<const Observation> readings,
                   const Course& twin) {
  Outlook outlook;
  if (courses.empty()) return outlook;
  for (const rules::HeatDay& day : courses.front()) outlook.core_c.push_back(core_band(courses, day.day));
  std::vector<double> ends;
  int never = 0;
  for (const Course& course : courses) {
    const rules::SelfHeating heat = rules::self_heating(course, twin);
    if (heat.end_day()) ends.push_back(*heat.end_day());
    never += heat.began_day ? 0 : 1;
  }
  const auto count = static_cast<double>(courses.size());
  outlook.cool_share_of_members = static_cast<double>(ends.size()) / count;
  outlook.never_warm_share = never / count;
  const rules::SelfHeating heat = rules::self_heating(line.empty() ? medians_of(courses) : line, twin);
  outlook.heated = heat.began_day.has_value();
  outlook.cool_day = forecast::cool_day_band({heat.end_day(), heat.end_day(), ends}, forecast::Grid::draft);
  outlook.misfit_k = misfit_k(readings, [&](double day) { return core_band(courses, day).middle; });
  return outlook;
}

int core_days(std::span<const Observation> readings) {
  std::set<int> days;
  for (const Observation& one : readings) {
    if (is_core(one)) days.insert(static_cast<int>(std::floor(one.day)));
  }
  return static_cast<int>(days.size());
}

std::optional<std::string> too_little(std::span<const Observation> readings, const LearnOptions& options) {
  std::vector<Observation> those = used(readings, options);
  std::erase_if(those, [](const Observation& one) { return !is_core(one); });
  const int count = core_days(those);
  if (count < options.least_days) {
    return "the core was read on " + std::to_string(count) + " days, at least " + std::to_string(options.least_days) +
           " are needed to learn from";
  }
  if (those.back().day - those.front().day < options.least_span_days) {
    return "the readings span too few days to learn from";
  }
  return std::nullopt;
}

Learned learn(const Prior& prior, std::span<const Observation> readings, const LearnOptions& options) {
  const std::vector<Observation> all = used(readings, options);
  check(prior, all, options);
  const std::vector<Observation> those = without_outliers(all, prior.histories, options.deviation_k);
  const Observed observed = observed_of(those, options.deviation_k);
  const Vectors predictions = predictions_of(prior.histories, those);
  SmootherRule rule;
  rule.seed = options.seed;
  const Vectors drawn = states_of(prior);
  Smoothed bridged = bridge(drawn, predictions, observed, rule);
  hold_possible(bridged.states, drawn);
  Learned learned;
  learned.readings = core_days(all);
  learned.observations = static_cast<int>(all.size());
  learned.left_out = static_cast<int>(all.size() - those.size());
  learned.effective = bridged.effective;
  const Course& like = prior.courses.front();
  learned.values = values_of(bridged.states, 2 * like.size());
  for (const std::vector<double>& one : bridged.states) learned.courses.push_back(course_in(one, like));
  learned.before = outlook_of(prior.middle, prior.courses, those, prior.twin);
  learned.after = outlook_of({}, learned.courses, those, prior.twin);
  learned.follows =
      learned.after.misfit_k <= most_misfit_k(options) && !is_strange(predictions, observed, options.seed);
  return learned;
}

Learned teach(const forecast::Request& request, std::span<const Observation> readings, const LearnOptions& options,
              const Progress& progress) {
  const Prior prior = draw_prior(request, options, part_of(progress, 0.0, prior_share));
  return teach(prior, readings, options, part_of(progress, prior_share, 1.0));
}

Learned teach(const Prior& prior, std::span<const Observation> readings, const LearnOptions& options,
              const Progress& progress) {
  const std::vector<Observation> those =
      without_outliers(used(readings, options), prior.histories, options.deviation_k);
  Learned learned = learn(prior, readings, options);
  if (!learned.follows) return learned;
  const Vectors states = in_parts(prior, those, options, part_of(progress, 0.0, parts_share));
  forecast::Request follows = prior.request;
  follows.own = own_of(states);
  const std::vector<Member> draws =
      forecast::draw_members(follows, static_cast<int>(follows.own.draws.size()), options.seed);
  const std::vector<Course> courses =
      courses_of(those_with(draws, histories_of(draws, part_of(progress, parts_share, 1.0))).second);
  const std::optional<History> middle = histories_of({forecast::middle_member(follows)}, {}).front();
  if (!middle || courses.size() < 3) return learned;
  const Course line = forecast::heat_days(*middle);
  follows.own.misfit_k = misfit_k(those, [&](double day) { return core_at(line, day); });
  learned.own.misfit_k = follows.own.misfit_k;
  if (follows.own.misfit_k > most_misfit_k(options)) return learned;
  learned.own = follows.own;
  learned.courses = courses;
  learned.after = outlook_of(line, courses, those, prior.twin);
  learned.values = values_of(states, 0);
  return learned;
}

}  // namespace stillheap::calibrate

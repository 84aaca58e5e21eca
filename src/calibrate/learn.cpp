#include "calibrate/learn.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/error.hpp"
#include "calibrate/learnables.hpp"
#include "calibrate/smoother.hpp"

namespace stillheap::calibrate {
namespace {

using forecast::Member;
using forecast::Track;

constexpr double farthest_deviations = 2.5;  // as the ensemble of the forecast is drawn

constexpr double most_deviations_off = 1.5;

/// Calls of several parts told as one share, and the wish to stop remembered.
class Steps {
 public:
  explicit Steps(const Progress& progress) : progress_(progress) {}
  /// The next part, which is this share of the whole.
  void begin(double share) {
    done_ += part_;
    part_ = share;
  }
  bool operator()(double share_of_part) {
    if (progress_ && !progress_(std::min(1.0, done_ + part_ * share_of_part))) stop_ = true;
    return !stop_;
  }
  void refuse_if_stopped() const {
    if (stop_) throw RunError("calibration", "stopped on request", "nothing was kept");
  }

 private:
  const Progress& progress_;
  double done_ = 0.0, part_ = 0.0;
  bool stop_ = false;
};

/// One track a member; nothing for a member that stopped early.
std::vector<std::optional<Track>> follow_all(const std::vector<Member>& members, Steps& steps) {
  std::vector<std::optional<Track>> all(members.size());
  forecast::run_members(
      members, all, [&](double share) { return steps(share); }, [] {});
  steps.refuse_if_stopped();
  for (std::optional<Track>& track : all) {
    if (track && (track->stopped || track->history.size() < 2)) track.reset();
  }
  return all;
}

double core_at(const Track& track, double day) {
  const auto& rows = track.history;
  const auto after = std::upper_bound(rows.begin(), rows.end(), day,
                                      [](double at, const forecast::HistoryRow& row) { return at < row.day; });
  if (after == rows.begin()) return rows.front().core_c;
  if (after == rows.end()) return rows.back().core_c;
  const auto before = after - 1;
  return before->core_c + (after->core_c - before->core_c) * (day - before->day) / (after->day - before->day);
}

std::vector<CoreReading> used(std::span<const CoreReading> readings, const LearnOptions& options) {
  std::vector<CoreReading> those;
  for (const CoreReading& one : readings) {
    if (one.day <= options.last_day) those.push_back(one);
  }
  return those;
}

Observed observed_of(const std::vector<CoreReading>& readings, const LearnOptions& options) {
  Observed observed;
  for (const CoreReading& one : readings) {
    observed.values.push_back(one.celsius);
    observed.deviations.push_back(options.deviation_k);
  }
  return observed;
}

forecast::Banded band_of(const std::vector<double>& values) {
  return {forecast::percentile(values, 0.5), forecast::percentile(values, 0.1), forecast::percentile(values, 0.9)};
}

void describe(Learned& learned, const Vectors& values) {
  const std::vector<Learnable> names = learnables();
  const auto count = static_cast<double>(values.size());
  for (std::size_t i = 0; i < names.size(); ++i) {
    LearnedValue value{names[i].name, names[i].what, 0.0, 0.0};
    for (const std::vector<double>& one : values) value.mean += one[i] / count;
    for (const std::vector<double>& one : values) value.deviation += std::pow(one[i] - value.mean, 2) / (count - 1.0);
    value.deviation = std::sqrt(value.deviation);
    learned.values.push_back(value);
  }
}

/// Members with the values written in, cut to the days that are needed.
std::vector<Member> with_values(const Prior& prior, const Vectors& values, int days) {
  std::vector<Member> members = prior.members;
  for (std::size_t m = 0; m < members.size(); ++m) {
    write_values(members[m], prior.request, values[m]);
    members[m].request.days = days;
  }
  return members;
}

/// Days that have to be run to predict the readings.
int days_of(const Prior& prior, const std::vector<CoreReading>& readings) {
  return std::min(prior.request.days, static_cast<int>(std::ceil(readings.back().day)) + 1);
}

Vectors predict(const Prior& prior, const Vectors& values, const std::vector<CoreReading>& readings, Steps& steps) {
  Vectors predictions;
  for (const std::optional<Track>& track : follow_all(with_values(prior, values, days_of(prior, readings)), steps)) {
    std::vector<double> one;
    for (const CoreReading& reading : readings) {
      if (track) one.push_back(core_at(*track, reading.day));
    }
    predictions.push_back(std::move(one));
  }
  return predictions;
}

void check(const Prior& prior, const std::vector<CoreReading>& readings, const LearnOptions& options) {
  if (const auto why = too_little(readings, options)) {
    throw InputError("calibration", *why, "read the core daily and try again; until then the forecast stands as it is");
  }
  if (readings.front().day >= 0.0 && readings.back().day <= prior.request.days) return;
  throw InputError("calibration", "a reading lies outside the forecast's days", "forecast for longer");
}

}  // namespace

Prior draw_prior(const forecast::Request& request, const LearnOptions& options, const Progress& progress) {
  Prior prior{request, {}, {}};
  std::vector<Member> members = forecast::draw_members(request, options.members, options.seed);
  Steps steps(progress);
  steps.begin(1.0);
  std::vector<std::optional<Track>> tracks = follow_all(members, steps);
  for (std::size_t m = 0; m < members.size(); ++m) {
    if (!tracks[m]) continue;
    prior.members.push_back(std::move(members[m]));
    prior.tracks.push_back(std::move(*tracks[m]));
  }
  return prior;
}

Outlook outlook_of(const std::vector<Track>& tracks, int days, std::span<const CoreReading> readings) {
  Outlook outlook;
  if (tracks.empty()) return outlook;
  const auto core_band = [&](double day) {
    std::vector<double> core;
    core.reserve(tracks.size());
    for (const Track& track : tracks) core.push_back(core_at(track, day));
    return band_of(core);
  };
  for (int day = 0; day <= days; ++day) outlook.core_c.push_back(core_band(day));
  std::vector<double> cool;
  cool.reserve(tracks.size());
  for (const Track& track : tracks) {
    cool.push_back(track.cool_at_end ? track.last_warm_day : days);
    outlook.cool_share_of_members += (track.cool_at_end ? 1.0 : 0.0) / static_cast<double>(tracks.size());
  }
  outlook.cool_day = band_of(cool);
  double square = 0.0;
  for (const CoreReading& one : readings) square += std::pow(one.celsius - core_band(one.day).middle, 2);
  if (!readings.empty()) outlook.misfit_k = std::sqrt(square / static_cast<double>(readings.size()));
  return outlook;
}

std::optional<std::string> too_little(std::span<const CoreReading> readings, const LearnOptions& options) {
  const std::vector<CoreReading> those = used(readings, options);
  std::set<int> days;
  for (const CoreReading& one : those) days.insert(static_cast<int>(std::floor(one.day)));
  const auto count = static_cast<int>(days.size());
  if (count < options.least_days) {
    return "the core was read on " + std::to_string(count) + " days, at least " + std::to_string(options.least_days) +
           " are needed to learn from";
  }
  if (those.back().day - those.front().day < options.least_span_days) {
    return "the readings span too few days to learn from";
  }
  return std::nullopt;
}

Learned learn(const Prior& prior, std::span<const CoreReading> readings, const LearnOptions& options,
              const Progress& progress) {
  const std::vector<CoreReading> those = used(readings, options);
  check(prior, those, options);
  Vectors values;
  values.reserve(prior.members.size());
  for (const Member& member : prior.members) values.push_back(read_values(member, prior.request));
  const double short_days = days_of(prior, those);
  const double all_days = options.times * short_days + prior.request.days;
  Steps steps(progress);
  smooth(
      values,
      [&](const Vectors& now) {
        steps.begin(short_days / all_days);
        return predict(prior, now, those, steps);
      },
      observed_of(those, options), options.times, farthest_deviations, options.seed);
  Learned learned;
  learned.readings = static_cast<int>(those.size());
  learned.members = with_values(prior, values, prior.request.days);
  steps.begin(prior.request.days / all_days);
  for (std::optional<Track>& track : follow_all(learned.members, steps)) {
    if (track) learned.tracks.push_back(std::move(*track));
  }
  if (learned.tracks.size() < 3) {
    throw RunError("calibration", "the learned members do not run to their end", "keep the forecast as it was");
  }
  learned.before = outlook_of(prior.tracks, prior.request.days, those);
  learned.after = outlook_of(learned.tracks, prior.request.days, those);
  learned.follows = learned.after.misfit_k <= most_deviations_off * options.deviation_k;
  describe(learned, values);
  return learned;
}

}  // namespace stillheap::calibrate

#include "calibrate/smoother.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "base/error.hpp"

namespace stillheap::calibrate {
namespace {

std::vector<std::size_t> predicting(const Vectors& predictions) {
  std::vector<std::size_t> those;
  for (std::size_t j = 0; j < predictions.size(); ++j) {
    if (!predictions[j].empty()) those.push_back(j);
  }
  return those;
}

/// Mean over some of the members.
std::vector<double> mean_of(const Vectors& vectors, const std::vector<std::size_t>& those) {
  std::vector<double> mean(vectors[those.front()].size(), 0.0);
  for (const std::size_t j : those) {
    for (std::size_t i = 0; i < mean.size(); ++i) mean[i] += vectors[j][i];
  }
  for (double& value : mean) value /= static_cast<double>(those.size());
  return mean;
}

void check(const Vectors& members, const Vectors& predictions, const Observed& observed,
           const std::vector<std::size_t>& those) {
  const std::size_t n = observed.values.size();
  const bool shapes =
      n > 0 && observed.deviations.size() == n && predictions.size() == members.size() &&
      std::all_of(those.begin(), those.end(), [&](std::size_t j) { return predictions[j].size() == n; });
  if (!shapes) {
    throw InputError("calibration", "predictions and observations do not match", "predict every observation once");
  }
  if (those.size() >= 3) return;
  throw InputError("calibration", "only " + std::to_string(those.size()) + " members ran to their end",
                   "check that the vessel's forecast runs");
}

/// C_dd + a C_d, row-major.
std::vector<double> spread_of(const Vectors& predictions, const std::vector<double>& mean,
                              const std::vector<std::size_t>& those, const Observed& observed, double inflation) {
  const std::size_t n = mean.size();
  std::vector<double> spread(n * n, 0.0);
  const double share = 1.0 / static_cast<double>(those.size() - 1);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k <= i; ++k) {
      double sum = 0.0;
      for (const std::size_t j : those) sum += (predictions[j][i] - mean[i]) * (predictions[j][k] - mean[k]);
      spread[i * n + k] = spread[k * n + i] = sum * share;
    }
    spread[i * n + i] += inflation * observed.deviations[i] * observed.deviations[i];
  }
  return spread;
}

/// d + noise - d_j for each predicting member.
Vectors innovations(const Vectors& predictions, const std::vector<std::size_t>& those, const Observed& observed,
                    double inflation, std::uint64_t seed) {
  std::mt19937_64 generator(seed);
  std::normal_distribution<double> normal;
  const std::size_t n = observed.values.size();
  Vectors noise(those.size(), std::vector<double>(n));
  for (std::vector<double>& one : noise) {
    for (double& value : one) value = normal(generator);
  }
  for (std::size_t i = 0; i < n; ++i) {
    double mean = 0.0;
    for (const std::vector<double>& one : noise) mean += one[i] / static_cast<double>(those.size());
    for (std::size_t j = 0; j < those.size(); ++j) {
      noise[j][i] = observed.values[i] + std::sqrt(inflation) * observed.deviations[i] * (noise[j][i] - mean) -
                    predictions[those[j]][i];
    }
  }
  return noise;
}

}  // namespace

void solve_positive(std::vector<double>& a, std::size_t n, Vectors& right_sides) {
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k <= i; ++k) {
      double sum = a[i * n + k];
      for (std::size_t l = 0; l < k; ++l) sum -= a[i * n + l] * a[k * n + l];
      if (k < i) {
        a[i * n + k] = sum / a[k * n + k];
        continue;
      }
      if (!(sum > 0.0)) throw RunError("calibration", "the spread of predictions is singular", "widen the deviations");
      a[i * n + i] = std::sqrt(sum);
    }
  }
  for (std::vector<double>& x : right_sides) {
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t l = 0; l < i; ++l) x[i] -= a[i * n + l] * x[l];
      x[i] /= a[i * n + i];
    }
    for (std::size_t i = n; i-- > 0;) {
      for (std::size_t l = i + 1; l < n; ++l) x[i] -= a[l * n + i] * x[l];
      x[i] /= a[i * n + i];
    }
  }
}

void assimilate(Vectors& members, const Vectors& predictions, const Observed& observed, double inflation,
                std::uint64_t seed) {
  const std::vector<std::size_t> those = predicting(predictions);
  check(members, predictions, observed, those);
  const std::vector<double> prediction_mean = mean_of(predictions, those);
  const std::vector<double> member_mean = mean_of(members, those);
  std::vector<double> spread = spread_of(predictions, prediction_mean, those, observed, inflation);
  Vectors weights = innovations(predictions, those, observed, inflation, seed);
  solve_positive(spread, observed.values.size(), weights);
  // C_md w = sum_l (m_l - m) ((d_l - d) . w) / (N - 1): the matrix itself is never formed.
  Vectors moved = members;
  for (std::size_t j = 0; j < those.size(); ++j) {
    for (const std::size_t l : those) {
      double along = 0.0;
      for (std::size_t i = 0; i < prediction_mean.size(); ++i) {
        along += (predictions[l][i] - prediction_mean[i]) * weights[j][i];
      }
      along /= static_cast<double>(those.size() - 1);
      for (std::size_t p = 0; p < member_mean.size(); ++p) {
        moved[those[j]][p] += (members[l][p] - member_mean[p]) * along;
      }
    }
  }
  members = std::move(moved);
}

void smooth(Vectors& members, const Predict& predict, const Observed& observed, int times, double keep_within,
            std::uint64_t seed) {
  for (int time = 0; time < times; ++time) {
    assimilate(members, predict(members), observed, times, seed + static_cast<std::uint64_t>(time));
    for (std::vector<double>& member : members) {
      for (double& value : member) value = std::clamp(value, -keep_within, keep_within);
    }
  }
}

}  // namespace stillheap::calibrate

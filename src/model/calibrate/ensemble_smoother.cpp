#include "model/calibrate/ensemble_smoother.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <random>
#include <string>

#include "core/base/error.hpp"

namespace stillheap::calibrate {
namespace {

void check(const Vectors& states, const Vectors& predictions, const Observed& observed) {
  const std::size_t n = observed.values.size();
  const bool shapes =
      n > 0 && observed.deviations.size() == n && predictions.size() == states.size() &&
      std::all_of(predictions.begin(), predictions.end(), [&](const auto& one) { return one.size() == n; }) &&
      std::all_of(states.begin(), states.end(), [&](const auto& one) { return one.size() == states.front().size(); });
  if (!shapes) {
    throw InputError("calibration", "predictions and observations do not match", "predict every observation once");
  }
  if (states.size() >= 3) return;
  throw InputError("calibration", "only " + std::to_string(states.size()) + " members ran to their end",
                   "check that the vessel's forecast runs");
}

/// Squared distance in deviations.
double distance2(const std::vector<double>& a, const std::vector<double>& b, const Observed& observed) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += std::pow((a[i] - b[i]) / observed.deviations[i], 2);
  return sum;
}

/// exp(-g q / 2), summing to one.
std::vector<double> weights_at(double g, const std::vector<double>& far2) {
  const double nearest = *std::min_element(far2.begin(), far2.end());
  std::vector<double> weights(far2.size());
  std::transform(far2.begin(), far2.end(), weights.begin(),
                 [&](double q) { return std::exp(-0.5 * g * (q - nearest)); });
  const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
  for (double& one : weights) one /= sum;
  return weights;
}

double sum_of_squares(const std::vector<double>& values) {
  return std::inner_product(values.begin(), values.end(), values.begin(), 0.0);
}

double effective(const std::vector<double>& weights) { return 1.0 / sum_of_squares(weights); }

/// The largest exponent that leaves that many members in effect. Their number falls as it rises.
double exponent_for(double wanted, const std::vector<double>& far2) {
  if (effective(weights_at(1.0, far2)) >= wanted) return 1.0;
  double low = 0.0;
  double high = 1.0;
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = 0.5 * (low + high);
    (effective(weights_at(middle, far2)) >= wanted ? low : high) = middle;
  }
  return low;
}

/// Which member each new one is drawn from: evenly spaced shares of the summed weights, which adds the least noise.
std::vector<std::size_t> drawn_by(const std::vector<double>& weights, std::mt19937_64& generator) {
  const auto count = static_cast<double>(weights.size());
  const double shift = std::uniform_real_distribution<double>(0.0, 1.0)(generator);
  std::vector<std::size_t> drawn;
  double sum = weights.front();
  std::size_t at = 0;
  for (std::size_t j = 0; j < weights.size(); ++j) {
    const double share = (static_cast<double>(j) + shift) / count;
    while (sum < share && at + 1 < weights.size()) sum += weights[++at];
    drawn.push_back(at);
  }
  return drawn;
}

/// Less their weighted mean.
Vectors off_mean(const Vectors& vectors, const std::vector<double>& weights) {
  std::vector<double> mean(vectors.front().size(), 0.0);
  for (std::size_t j = 0; j < vectors.size(); ++j) {
    for (std::size_t i = 0; i < mean.size(); ++i) mean[i] += weights[j] * vectors[j][i];
  }
  Vectors off = vectors;
  for (std::vector<double>& one : off) {
    for (std::size_t i = 0; i < mean.size(); ++i) one[i] -= mean[i];
  }
  return off;
}

/// C_dd + R, row-major. `scale` makes the weighted covariance that of the population.
std::vector<double> spread_of(const Vectors& off, const std::vector<double>& weights, double scale,
                              const Observed& observed, double inflation) {
  const std::size_t n = observed.values.size();
  std::vector<double> spread(n * n, 0.0);
  for (std::size_t j = 0; j < off.size(); ++j) {
    for (std::size_t i = 0; i < n; ++i) {
      const double factor = scale * weights[j] * off[j][i];
      for (std::size_t k = 0; k <= i; ++k) spread[i * n + k] += factor * off[j][k];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    spread[i * n + i] += inflation * observed.deviations[i] * observed.deviations[i];
    for (std::size_t k = 0; k < i; ++k) spread[k * n + i] = spread[i * n + k];
  }
  return spread;
}

/// Normal errors, one vector a member, with mean zero over the members.
Vectors errors_of(std::size_t members, const Observed& observed, double inflation, std::mt19937_64& generator) {
  std::normal_distribution<double> normal;
  const std::size_t n = observed.values.size();
  Vectors errors(members, std::vector<double>(n));
  for (std::vector<double>& one : errors) {
    for (double& value : one) value = normal(generator);
  }
  for (std::size_t i = 0; i < n; ++i) {
    double mean = 0.0;
    for (const std::vector<double>& one : errors) mean += one[i] / static_cast<double>(members);
    for (std::vector<double>& one : errors) one[i] = std::sqrt(inflation) * observed.deviations[i] * (one[i] - mean);
  }
  return errors;
}

/// The second part. C_xd w = sum_l w_l x_l' (d_l' . w): the matrix itself is never formed.
void shift(Vectors& moved, const std::vector<std::size_t>& drawn, const Vectors& states, const Vectors& predictions,
           const Observed& observed, const std::vector<double>& weights, double inflation, std::mt19937_64& generator) {
  const Vectors off_state = off_mean(states, weights);
  const Vectors off_prediction = off_mean(predictions, weights);
  const double scale = 1.0 / (1.0 - sum_of_squares(weights));
  std::vector<double> spread = spread_of(off_prediction, weights, scale, observed, inflation);
  Vectors pull = errors_of(moved.size(), observed, inflation, generator);
  for (std::size_t j = 0; j < moved.size(); ++j) {
    for (std::size_t i = 0; i < observed.values.size(); ++i) {
      pull[j][i] += observed.values[i] - predictions[drawn[j]][i];
    }
  }
  solve_positive(spread, observed.values.size(), pull);
  for (std::size_t j = 0; j < moved.size(); ++j) {
    for (std::size_t l = 0; l < states.size(); ++l) {
      const std::vector<double>& off = off_prediction[l];
      const double along = scale * weights[l] * std::inner_product(off.begin(), off.end(), pull[j].begin(), 0.0);
      for (std::size_t p = 0; p < moved[j].size(); ++p) moved[j][p] += along * off_state[l][p];
    }
  }
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

Smoothed bridge(const Vectors& states, const Vectors& predictions, const Observed& observed, const SmootherRule& rule) {
  check(states, predictions, observed);
  std::vector<double> far2;
  far2.reserve(states.size());
  for (const std::vector<double>& one : predictions) far2.push_back(distance2(observed.values, one, observed));
  Smoothed bridged;
  bridged.weighed = exponent_for(rule.effective_share * static_cast<double>(states.size()), far2);
  const std::vector<double> weights = weights_at(bridged.weighed, far2);
  bridged.effective = effective(weights);
  std::mt19937_64 generator(rule.seed);
  const std::vector<std::size_t> drawn = drawn_by(weights, generator);
  bridged.states.reserve(states.size());
  for (const std::size_t from : drawn) bridged.states.push_back(states[from]);
  if (bridged.weighed < 1.0) {
    shift(bridged.states, drawn, states, predictions, observed, weights, 1.0 / (1.0 - bridged.weighed), generator);
  }
  return bridged;
}

bool is_strange(const Vectors& predictions, const Observed& observed, std::uint64_t seed) {
  std::mt19937_64 generator(seed);
  const Vectors errors = errors_of(predictions.size(), observed, 1.0, generator);
  const auto nearest2 = [&](const std::vector<double>& to, std::size_t but) {
    double nearest = std::numeric_limits<double>::infinity();
    for (std::size_t j = 0; j < predictions.size(); ++j) {
      if (j != but) nearest = std::min(nearest, distance2(to, predictions[j], observed));
    }
    return nearest;
  };
  double farthest = 0.0;
  for (std::size_t j = 0; j < predictions.size(); ++j) {
    std::vector<double> seen = predictions[j];
    for (std::size_t i = 0; i < seen.size(); ++i) seen[i] += errors[j][i];
    farthest = std::max(farthest, nearest2(seen, j));
  }
  return nearest2(observed.values, predictions.size()) > farthest;
}

}  // namespace stillheap::calibrate

#include "model/forecast/first_order.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

namespace stillheap::forecast {
namespace {

using Values = std::vector<double>;

constexpr std::size_t fewest_runs = 8;
constexpr double hardly_differ = 1e-12;  ///< of the square of the mean

/// Orthonormal polynomials of degree 1 and up at one place, by their three-term recurrences (Abramowitz & Stegun,
/// ch. 22): He_{d+1} = x He_d - d He_{d-1}, norm d!; (d+1) L_{d+1} = (2d+1) t L_d - d L_{d-1}, norm 1/(2d+1).
Values polynomials(InputLaw law, double x, int highest_degree) {
  Values values;
  const double t = law == InputLaw::normal ? x : 2.0 * x - 1.0;
  double before = 1.0, now = t, factorial = 1.0;
  for (int d = 1; d <= highest_degree; ++d) {
    factorial *= d;
    values.push_back(law == InputLaw::normal ? now / std::sqrt(factorial) : now * std::sqrt(2.0 * d + 1.0));
    const double next =
        law == InputLaw::normal ? t * now - d * before : ((2.0 * d + 1.0) * t * now - d * before) / (d + 1.0);
    before = now;
    now = next;
  }
  return values;
}

/// One candidate: an input, and the polynomial's value in every run.
struct Term {
  std::size_t input = 0;
  Values value;
};

std::vector<Term> all_terms(const std::vector<Values>& inputs, const FirstOrderRule& rule) {
  const auto degrees = static_cast<std::size_t>(rule.highest_degree);
  std::vector<Term> terms(inputs.front().size() * degrees);
  for (const Values& run : inputs) {
    for (std::size_t i = 0; i < run.size(); ++i) {
      const Values values = polynomials(rule.law, run[i], rule.highest_degree);
      for (std::size_t d = 0; d < degrees; ++d) {
        terms[i * degrees + d].input = i;
        terms[i * degrees + d].value.push_back(values[d]);
      }
    }
  }
  return terms;
}

double dot(const Values& a, const Values& b) { return std::inner_product(a.begin(), a.end(), b.begin(), 0.0); }

void take_out(Values& from, const Values& unit) {
  const double part = dot(from, unit);
  for (std::size_t i = 0; i < from.size(); ++i) from[i] -= part * unit[i];
}

/// Orthogonal least squares: every candidate is kept at right angles to the mean and to all terms chosen so far, so
/// that its squared cosine with what is left is just what it would take away.
std::vector<std::size_t> choose_terms(const std::vector<Term>& terms, const Values& answers) {
  const double n = static_cast<double>(answers.size());
  const double price = std::log(n) + 2.0 * std::log(static_cast<double>(terms.size()));
  std::vector<Values> rest(terms.size());
  std::transform(terms.begin(), terms.end(), rest.begin(), [](const Term& term) { return term.value; });
  Values left = answers;
  const Values mean(answers.size(), 1.0 / std::sqrt(n));
  take_out(left, mean);
  for (Values& candidate : rest) take_out(candidate, mean);
  std::vector<std::size_t> chosen;
  std::vector<bool> taken(terms.size(), false);
  double miss = dot(left, left);
  const double rounding = 1e-20 * miss;
  while (chosen.size() < std::min(terms.size(), answers.size() / 2) && miss > rounding) {
    std::size_t best = 0;
    double most = 0.0;
    for (std::size_t c = 0; c < rest.size(); ++c) {
      const double norm = dot(rest[c], rest[c]);
      if (taken[c] || norm < 1e-9 * n) continue;
      const double part = dot(rest[c], left);
      if (part * part / norm > most) most = part * part / norm, best = c;
    }
    const double after = std::max(miss - most, 1e-30 * miss);
    if (n * std::log(after / miss) + price >= 0.0) break;
    const double norm = std::sqrt(dot(rest[best], rest[best]));
    Values unit = rest[best];
    for (double& v : unit) v /= norm;
    take_out(left, unit);
    for (std::size_t c = 0; c < rest.size(); ++c)
      if (!taken[c]) take_out(rest[c], unit);
    taken[best] = true;
    chosen.push_back(best);
    miss = dot(left, left);
  }
  return chosen;
}

struct Line {
  Values coefficient;
  double noise = 0.0;  ///< variance of what is left, freed of the coefficients' share
};

/// Least squares of the answers on a mean and the columns, by Gram-Schmidt and back substitution.
Line least_squares(std::vector<Values> columns, Values left) {
  const double n = static_cast<double>(left.size());
  const std::size_t k = columns.size();
  const Values mean(left.size(), 1.0 / std::sqrt(n));
  std::vector<Values> upper(k);  // column of each term, its own norm last
  for (std::size_t j = 0; j < k; ++j) {
    take_out(columns[j], mean);
    for (std::size_t i = 0; i < j; ++i) {
      upper[j].push_back(dot(columns[j], columns[i]));
      take_out(columns[j], columns[i]);
    }
    const double norm = std::max(std::sqrt(dot(columns[j], columns[j])), 1e-12);
    upper[j].push_back(norm);
    for (double& v : columns[j]) v /= norm;
  }
  take_out(left, mean);
  Line line{Values(k, 0.0)};
  for (std::size_t j = 0; j < k; ++j) {
    line.coefficient[j] = dot(left, columns[j]);
    take_out(left, columns[j]);
  }
  line.noise = dot(left, left) / std::max(1.0, n - 1.0 - static_cast<double>(k));
  for (std::size_t j = k; j-- > 0;) {
    for (std::size_t l = j + 1; l < k; ++l) line.coefficient[j] -= upper[l][j] * line.coefficient[l];
    line.coefficient[j] /= upper[j].back();
  }
  return line;
}

struct Fit {
  Values share;
  double unexplained = 1.0;
};

/// Shares from the chosen terms on the named runs.
Fit fit(const std::vector<Term>& terms, const std::vector<std::size_t>& chosen, const Values& answers,
        const std::vector<std::size_t>& runs, std::size_t inputs) {
  const auto at_runs = [&](const Values& all) {
    Values some(runs.size());
    std::transform(runs.begin(), runs.end(), some.begin(), [&](std::size_t run) { return all[run]; });
    return some;
  };
  std::vector<Values> columns(chosen.size());
  std::transform(chosen.begin(), chosen.end(), columns.begin(), [&](std::size_t c) { return at_runs(terms[c].value); });
  const Line line = least_squares(std::move(columns), at_runs(answers));
  Fit result{Values(inputs, 0.0)};
  double explained = 0.0;
  for (std::size_t j = 0; j < chosen.size(); ++j) {
    const double by_chance = line.noise / static_cast<double>(runs.size());
    const double square = std::max(0.0, line.coefficient[j] * line.coefficient[j] - by_chance);
    result.share[terms[chosen[j]].input] += square;
    explained += square;
  }
  const double all = explained + line.noise;
  if (!(all > 0.0)) return result;
  for (double& share : result.share) share /= all;
  result.unexplained = line.noise / all;
  return result;
}

}  // namespace

std::optional<FirstOrder> first_order(const std::vector<Values>& inputs, std::span<const double> answers,
                                      const FirstOrderRule& rule) {
  const std::size_t runs = answers.size();
  if (runs < fewest_runs || inputs.size() != runs) return std::nullopt;
  const Values y(answers.begin(), answers.end());
  const double mean = std::accumulate(y.begin(), y.end(), 0.0) / static_cast<double>(runs);
  double variance = 0.0;
  for (const double v : y) variance += (v - mean) * (v - mean) / static_cast<double>(runs);
  if (!(variance > hardly_differ * mean * mean) || !std::isfinite(variance)) return std::nullopt;

  const std::vector<Term> terms = all_terms(inputs, rule);
  const std::vector<std::size_t> chosen = choose_terms(terms, y);
  std::vector<std::size_t> order(runs);
  std::iota(order.begin(), order.end(), std::size_t{0});
  const std::size_t dimensions = inputs.front().size();
  const Fit all = fit(terms, chosen, y, order, dimensions);
  FirstOrder result{all.share, {}, all.unexplained, static_cast<int>(chosen.size())};
  std::mt19937_64 generator(rule.seed);
  for (int r = 0; r < rule.resamples; ++r) {
    // A plain remainder: the draw is then the same with every standard library.
    for (std::size_t& run : order) run = static_cast<std::size_t>(generator() % runs);
    result.resampled.push_back(fit(terms, chosen, y, order, dimensions).share);
  }
  return result;
}

}  // namespace stillheap::forecast

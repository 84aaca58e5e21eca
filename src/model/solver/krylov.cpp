#include "model/solver/krylov.hpp"

#include <algorithm>
#include <cmath>

#include "model/solver/clones.hpp"
#include "model/solver/incomplete_factors.hpp"
#include "model/solver/vector_kernels.hpp"

namespace stillheap::solver {

namespace {

// One start in single precision may bring down what is missing by so much: within it the rounds' own count of the rest
// stays true. Where a start leaves more than a half of what it found, the next ones are double. Chosen;
// docs/decisions/0004.
constexpr double least_goal_single = 1e-4;
constexpr double most_left = 0.5;
constexpr int most_starts = 10;

// Share of the dropped fill that goes to the factors' diagonal, measured on our own heaps: near 1 serves elliptic
// systems best (Gustafsson 1978), less where the flow makes the matrix lopsided.
constexpr float kept_fill_symmetric = 0.95F;
constexpr float kept_fill_general = 0.5F;

/// The vectors of the rounds of one start: A correction = residual, scaled to a residual of norm 1.
template <typename Real>
struct Rounds {
  std::vector<Real> residual, correction;
  std::vector<Real> along, along_guided, along_product;  ///< the direction p, M^-1 p, A M^-1 p
  std::vector<Real> first, rest_guided, rest_product;    ///< of the general method: r_0, M^-1 s, A M^-1 s
};

template <typename Real>
Rounds<Real> make_rounds(Kind kind, int rows) {
  Rounds<Real> w;
  for (auto* v : {&w.residual, &w.correction, &w.along, &w.along_guided, &w.along_product}) v->resize(rows);
  if (kind == Kind::general)
    for (auto* v : {&w.first, &w.rest_guided, &w.rest_product}) v->resize(rows);
  return w;
}

/// What the rounds read: the matrix's pattern, its entries in their precision, its factors.
template <typename Real>
struct System {
  const Sparse& pattern;
  const Real* value;
  const Factor& factor;
};

enum class Outcome { reached, stalled };

/// Conjugate gradients from zero; M. R. Hestenes and E. Stiefel, J. Res. NBS 49 (1952) 409.
template <typename Real>
[[gnu::always_inline]] inline Outcome conjugate_gradients(const System<Real>& system, Rounds<Real>& w, double goal,
                                                          int most_rounds) {
  const std::size_t n = w.residual.size();
  Real* const r = w.residual.data();
  Real* const z = w.along_guided.data();
  Real* const p = w.along.data();
  Real* const q = w.along_product.data();
  solve_factors(system.pattern, system.factor, r, p);
  double slope = dot(n, r, p);
  for (int round = 0; round < most_rounds; ++round) {
    const double stiffness = multiply_dot(system.pattern, system.value, p, q, p);
    if (!(stiffness > 0.0)) return Outcome::stalled;
    const double norm2 = advance(n, static_cast<Real>(slope / stiffness), p, q, w.correction.data(), r);
    if (std::sqrt(norm2) <= goal) return Outcome::reached;
    solve_factors(system.pattern, system.factor, r, z);
    const double next = dot(n, r, z);
    if (!std::isfinite(next)) return Outcome::stalled;
    turn(n, z, static_cast<Real>(next / slope), p);
    slope = next;
  }
  return Outcome::stalled;
}

/// Stabilised bi-conjugate gradients from zero; H. A. van der Vorst, SIAM J. Sci. Stat. Comput. 13 (1992) 631. Guided
/// from the right, so the residual is the system's own, and looked at after each half.
template <typename Real>
[[gnu::always_inline]] inline Outcome stabilised_gradients(const System<Real>& system, Rounds<Real>& w, double goal,
                                                           int most_rounds) {
  const std::size_t n = w.residual.size();
  Real* const r = w.residual.data();
  Real* const x = w.correction.data();
  w.first = w.residual;
  w.along = w.residual;
  double onto_first = dot(n, r, r);
  for (int round = 0; round < most_rounds; ++round) {
    solve_factors(system.pattern, system.factor, w.along.data(), w.along_guided.data());
    const double lost =
        multiply_dot(system.pattern, system.value, w.along_guided.data(), w.along_product.data(), w.first.data());
    const auto alpha = static_cast<Real>(onto_first / lost);
    if (!std::isfinite(alpha)) return Outcome::stalled;
    if (std::sqrt(subtract(n, alpha, w.along_product.data(), r)) <= goal) {
      add(n, alpha, w.along_guided.data(), x);
      return Outcome::reached;
    }
    solve_factors(system.pattern, system.factor, r, w.rest_guided.data());
    const Dots dots = multiply_dots(system.pattern, system.value, w.rest_guided.data(), w.rest_product.data(), r);
    const auto omega = static_cast<Real>(dots.with_itself > 0.0 ? dots.with_w / dots.with_itself : 0.0);
    const Dots left = advance_twice(n, alpha, w.along_guided.data(), omega, w.rest_guided.data(), w.rest_product.data(),
                                    x, r, w.first.data());
    if (std::sqrt(left.with_itself) <= goal) return Outcome::reached;
    const auto beta = static_cast<Real>(left.with_w / onto_first) * (alpha / omega);
    if (!std::isfinite(beta)) return Outcome::stalled;
    turn_away(n, r, beta, omega, w.along_product.data(), w.along.data());
    onto_first = left.with_w;
  }
  return Outcome::stalled;
}

STILLHEAP_CLONES Outcome run_rounds(Kind kind, const System<float>& system, Rounds<float>& w, double goal, int most) {
  return kind == Kind::symmetric ? conjugate_gradients(system, w, goal, most)
                                 : stabilised_gradients(system, w, goal, most);
}

STILLHEAP_CLONES Outcome run_rounds(Kind kind, const System<double>& system, Rounds<double>& w, double goal, int most) {
  return kind == Kind::symmetric ? conjugate_gradients(system, w, goal, most)
                                 : stabilised_gradients(system, w, goal, most);
}

/// One start of rounds on what x misses, of norm `norm`: brings it down to `goal` of that and adds the correction.
template <typename Real>
Outcome start_rounds(Kind kind, const System<Real>& system, const std::vector<double>& missing, double norm,
                     double goal, int most, Rounds<Real>& w, std::vector<double>& x) {
  for (std::size_t i = 0; i < x.size(); ++i) w.residual[i] = static_cast<Real>(missing[i] / norm);
  std::fill(w.correction.begin(), w.correction.end(), Real{0});
  const Outcome outcome = run_rounds(kind, system, w, goal, most);
  if (outcome == Outcome::reached) add(x.size(), norm, w.correction.data(), x.data());
  return outcome;
}

/// missing = b - A x; returns its 2-norm.
STILLHEAP_CLONES double measure_missing(const Sparse& matrix, const std::vector<double>& b,
                                        const std::vector<double>& x, std::vector<double>& missing) {
  if (std::all_of(x.begin(), x.end(), [](double v) { return v == 0.0; })) {
    missing = b;
  } else {
    multiply(matrix, x.data(), missing.data());
    for (std::size_t i = 0; i < b.size(); ++i) missing[i] = b[i] - missing[i];
  }
  return std::sqrt(dot(missing.size(), missing.data(), missing.data()));
}

}  // namespace

struct Krylov::Workspace {
  Kind kind = Kind::general;
  int most_iterations = 0;
  float kept_fill = 0.0F;
  Factor factor;
  std::vector<double> missing;
  std::vector<float> value;  ///< the matrix in single precision
  Rounds<float> single;
  Rounds<double> twofold;
};

namespace {

using Work = Krylov::Workspace;

Outcome start_single(const Sparse& matrix, double norm, double goal, Work& w, std::vector<double>& x) {
  const System<float> system{matrix, w.value.data(), w.factor};
  return start_rounds(w.kind, system, w.missing, norm, goal, w.most_iterations, w.single, x);
}

Outcome start_double(const Sparse& matrix, double norm, double goal, Work& w, std::vector<double>& x) {
  const System<double> system{matrix, matrix.value.data(), w.factor};
  return start_rounds(w.kind, system, w.missing, norm, goal, w.most_iterations, w.twofold, x);
}

}  // namespace

Krylov::Krylov(const Sparse& pattern, Kind kind, Fill fill, int most_iterations)
    : work_(std::make_unique<Workspace>()) {
  Workspace& w = *work_;
  w.kind = kind;
  w.most_iterations = most_iterations;
  if (fill == Fill::shared) w.kept_fill = kind == Kind::symmetric ? kept_fill_symmetric : kept_fill_general;
  w.factor = make_factor(pattern);
  w.missing.resize(pattern.rows());
  w.value.resize(pattern.value.size());
  w.single = make_rounds<float>(kind, pattern.rows());
  w.twofold = make_rounds<double>(kind, pattern.rows());
}

Krylov::~Krylov() = default;
Krylov::Krylov(Krylov&&) noexcept = default;
Krylov& Krylov::operator=(Krylov&&) noexcept = default;

Status Krylov::solve(const Sparse& matrix, const std::vector<double>& b, std::vector<double>& x, double tolerance,
                     Factors factors) {
  Workspace& w = *work_;
  double before = measure_missing(matrix, b, x, w.missing);
  if (!std::isfinite(before)) return Status::not_converged;
  if (before <= tolerance) return Status::converged;
  if (factors == Factors::renew) factorise(matrix, w.factor, w.kept_fill);
  std::copy(matrix.value.begin(), matrix.value.end(), w.value.begin());
  bool single = true;
  for (int start = 0; start < most_starts; ++start) {
    const double asked = tolerance / before;
    const double goal = single ? std::max(asked, least_goal_single) : asked;
    const Outcome outcome =
        single ? start_single(matrix, before, goal, w, x) : start_double(matrix, before, goal, w, x);
    if (outcome == Outcome::reached && goal <= asked) return Status::converged;
    const double missing = measure_missing(matrix, b, x, w.missing);
    if (!std::isfinite(missing)) return Status::not_converged;
    if (missing <= tolerance) return Status::converged;
    if (missing > most_left * before) {
      if (!single) return Status::not_converged;
      single = false;
    }
    before = missing;
  }
  return Status::not_converged;
}

}  // namespace stillheap::solver

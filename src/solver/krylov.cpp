#include "solver/krylov.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "solver/incomplete_factors.hpp"
#include "solver/vector_kernels.hpp"

namespace stillheap::solver {

namespace {

constexpr int most_starts = 3;

// Share of the dropped fill that goes to the factors' diagonal, measured on our own heaps: near 1 serves elliptic
// systems best (Gustafsson 1978), less where the flow makes the matrix lopsided.
constexpr float kept_fill_symmetric = 0.95F;
constexpr float kept_fill_general = 0.5F;

}  // namespace

struct Krylov::Workspace {
  Kind kind = Kind::general;
  int most_iterations = 0;
  float kept_fill = 0.0F;
  Factor factor;
  std::vector<double> residual, correction;
  std::vector<double> along, along_guided, along_product;  ///< the direction p, M^-1 p, A M^-1 p
  std::vector<double> first, rest_guided, rest_product;    ///< of the general method: r_0, M^-1 s, A M^-1 s
};

namespace {

using Work = Krylov::Workspace;

enum class Outcome { reached, stalled };

/// Conjugate gradients on A correction = residual, from zero; M. R. Hestenes and E. Stiefel, J. Res. NBS 49 (1952) 409.
Outcome conjugate_gradients(const Sparse& matrix, Work& w, double tolerance) {
  const std::size_t n = w.residual.size();
  double* const r = w.residual.data();
  double* const z = w.along_guided.data();
  double* const p = w.along.data();
  double* const q = w.along_product.data();
  solve_factors(matrix, w.factor, r, p);
  double slope = dot(n, r, p);
  for (int round = 0; round < w.most_iterations; ++round) {
    const double stiffness = multiply_dot(matrix, p, q, p);
    if (!(stiffness > 0.0)) return Outcome::stalled;
    const double norm2 = advance(n, slope / stiffness, p, q, w.correction.data(), r);
    if (std::sqrt(norm2) <= tolerance) return Outcome::reached;
    solve_factors(matrix, w.factor, r, z);
    const double next = dot(n, r, z);
    if (!std::isfinite(next)) return Outcome::stalled;
    turn(n, z, next / slope, p);
    slope = next;
  }
  return Outcome::stalled;
}

/// Stabilised bi-conjugate gradients on A correction = residual, from zero; H. A. van der Vorst, SIAM J. Sci. Stat.
/// Comput. 13 (1992) 631. Guided from the right, so the residual is the system's own, and looked at after each half.
Outcome stabilised_gradients(const Sparse& matrix, Work& w, double tolerance) {
  const std::size_t n = w.residual.size();
  double* const r = w.residual.data();
  double* const x = w.correction.data();
  w.first = w.residual;
  w.along = w.residual;
  double onto_first = dot(n, r, r);
  for (int round = 0; round < w.most_iterations; ++round) {
    solve_factors(matrix, w.factor, w.along.data(), w.along_guided.data());
    const double lost = multiply_dot(matrix, w.along_guided.data(), w.along_product.data(), w.first.data());
    const double alpha = onto_first / lost;
    if (!std::isfinite(alpha)) return Outcome::stalled;
    if (std::sqrt(subtract(n, alpha, w.along_product.data(), r)) <= tolerance) {
      add(n, alpha, w.along_guided.data(), x);
      return Outcome::reached;
    }
    solve_factors(matrix, w.factor, r, w.rest_guided.data());
    const Dots dots = multiply_dots(matrix, w.rest_guided.data(), w.rest_product.data(), r);
    const double omega = dots.with_itself > 0.0 ? dots.with_w / dots.with_itself : 0.0;
    const Dots left = advance_twice(n, alpha, w.along_guided.data(), omega, w.rest_guided.data(), w.rest_product.data(),
                                    x, r, w.first.data());
    if (std::sqrt(left.with_itself) <= tolerance) return Outcome::reached;
    const double beta = left.with_w / onto_first * (alpha / omega);
    if (!std::isfinite(beta)) return Outcome::stalled;
    turn_away(n, r, beta, omega, w.along_product.data(), w.along.data());
    onto_first = left.with_w;
  }
  return Outcome::stalled;
}

/// r = b - A x; returns its 2-norm.
double find_residual(const Sparse& matrix, const std::vector<double>& b, const std::vector<double>& x,
                     std::vector<double>& residual) {
  if (std::all_of(x.begin(), x.end(), [](double v) { return v == 0.0; })) {
    residual = b;
  } else {
    multiply(matrix, x.data(), residual.data());
    for (std::size_t i = 0; i < b.size(); ++i) residual[i] = b[i] - residual[i];
  }
  return std::sqrt(dot(residual.size(), residual.data(), residual.data()));
}

}  // namespace

Krylov::Krylov(const Sparse& pattern, Kind kind, Fill fill, int most_iterations)
    : work_(std::make_unique<Workspace>()) {
  Workspace& w = *work_;
  w.kind = kind;
  w.most_iterations = most_iterations;
  if (fill == Fill::shared) w.kept_fill = kind == Kind::symmetric ? kept_fill_symmetric : kept_fill_general;
  w.factor = make_factor(pattern);
  for (auto* v : {&w.residual, &w.correction, &w.along, &w.along_guided, &w.along_product}) v->resize(pattern.rows());
  if (kind == Kind::general)
    for (auto* v : {&w.first, &w.rest_guided, &w.rest_product}) v->resize(pattern.rows());
}

Krylov::~Krylov() = default;
Krylov::Krylov(Krylov&&) noexcept = default;
Krylov& Krylov::operator=(Krylov&&) noexcept = default;

Status Krylov::solve(const Sparse& matrix, const std::vector<double>& b, std::vector<double>& x, double tolerance,
                     Factors factors) {
  Workspace& w = *work_;
  const bool symmetric = w.kind == Kind::symmetric;
  double before = 0.0;
  // What the recurrences lose by rounding a fresh start from the true residual brings back.
  for (int start = 0; start < most_starts; ++start) {
    const double missing = find_residual(matrix, b, x, w.residual);
    if (!std::isfinite(missing)) return Status::not_converged;
    if (missing <= tolerance) return Status::converged;
    if (start > 0 && missing >= before) return Status::not_converged;
    if (start == 0 && factors == Factors::renew) factorise(matrix, w.factor, w.kept_fill);
    before = missing;
    std::fill(w.correction.begin(), w.correction.end(), 0.0);
    const Outcome outcome =
        symmetric ? conjugate_gradients(matrix, w, tolerance) : stabilised_gradients(matrix, w, tolerance);
    add(x.size(), 1.0, w.correction.data(), x.data());
    if (outcome == Outcome::reached) return Status::converged;
  }
  return Status::not_converged;
}

}  // namespace stillheap::solver

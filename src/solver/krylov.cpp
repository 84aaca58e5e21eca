#include "solver/krylov.hpp"

#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_pcg.h>
#include <sunlinsol/sunlinsol_spbcgs.h>

#include <cmath>

#include "base/error.hpp"
#include "solver/incomplete_factors.hpp"
#include "solver/vector_kernels.hpp"

namespace stillheap::solver {

namespace {

constexpr int most_starts = 3;

// Share of the dropped fill that goes to the factors' diagonal, measured on our own heaps: near 1 serves elliptic
// systems best (Gustafsson 1978), less where the flow makes the matrix lopsided.
constexpr float kept_fill_symmetric = 0.9F;
constexpr float kept_fill_general = 0.5F;

/// What the solver's callbacks need: the matrix and its factors.
struct System {
  const Sparse* matrix = nullptr;
  Factor factor;
};

}  // namespace

struct Krylov::Workspace {
  SUNContext context = nullptr;
  SUNLinearSolver linear = nullptr;
  N_Vector x = nullptr;
  N_Vector b = nullptr;
  System system;
  float kept_fill = 0.0F;
  std::vector<double> residual, correction;

  ~Workspace() {
    if (x != nullptr) N_VDestroy(x);
    if (b != nullptr) N_VDestroy(b);
    if (linear != nullptr) SUNLinSolFree(linear);
    if (context != nullptr) SUNContext_Free(&context);
  }
};

namespace {

int apply_matrix(void* data, N_Vector in, N_Vector out) {
  multiply(*static_cast<const System*>(data)->matrix, NV_DATA_S(in), NV_DATA_S(out));
  return 0;
}

int apply_preconditioner(void* data, N_Vector in, N_Vector out, realtype, int) {
  const auto& with = *static_cast<const System*>(data);
  solve_factors(*with.matrix, with.factor, NV_DATA_S(in), NV_DATA_S(out));
  return 0;
}

int nothing_to_set_up(void*) { return 0; }

/// r = b - A x; returns its 2-norm.
double find_residual(const Sparse& matrix, const std::vector<double>& b, const std::vector<double>& x,
                     std::vector<double>& residual) {
  multiply(matrix, x.data(), residual.data());
  double norm2 = 0.0;
  for (std::size_t i = 0; i < b.size(); ++i) {
    residual[i] = b[i] - residual[i];
    norm2 += residual[i] * residual[i];
  }
  return std::sqrt(norm2);
}

}  // namespace

Krylov::Krylov(const Sparse& pattern, Kind kind, int most_iterations) : work_(std::make_unique<Workspace>()) {
  Workspace& w = *work_;
  w.system.factor = make_factor(pattern);
  w.residual.resize(pattern.rows());
  w.correction.resize(pattern.rows());
  if (SUNContext_Create(nullptr, &w.context) != 0) throw RunError("solver", "SUNDIALS gave no context", "");
  w.x = N_VMake_Serial(pattern.rows(), w.correction.data(), w.context);
  w.b = N_VMake_Serial(pattern.rows(), w.residual.data(), w.context);
  use_our_kernels(w.x);  // the solver's own vectors are cloned from x
  use_our_kernels(w.b);
  w.kept_fill = kind == Kind::symmetric ? kept_fill_symmetric : kept_fill_general;
  w.linear = kind == Kind::symmetric ? SUNLinSol_PCG(w.x, SUN_PREC_LEFT, most_iterations, w.context)
                                     : SUNLinSol_SPBCGS(w.x, SUN_PREC_RIGHT, most_iterations, w.context);
  if (w.linear == nullptr) throw RunError("solver", "SUNDIALS gave no linear solver", "");
  SUNLinSolSetATimes(w.linear, &w.system, apply_matrix);
  SUNLinSolSetPreconditioner(w.linear, &w.system, nothing_to_set_up, apply_preconditioner);
  SUNLinSolInitialize(w.linear);
}

Krylov::~Krylov() = default;
Krylov::Krylov(Krylov&&) noexcept = default;
Krylov& Krylov::operator=(Krylov&&) noexcept = default;

Status Krylov::solve(const Sparse& matrix, const std::vector<double>& b, std::vector<double>& x, double tolerance,
                     Factors factors) {
  Workspace& w = *work_;
  w.system.matrix = &matrix;
  // What the recurrences lose by rounding a fresh start from the true residual brings back.
  for (int start = 0; start < most_starts; ++start) {
    const double missing = find_residual(matrix, b, x, w.residual);
    if (!std::isfinite(missing)) return Status::not_converged;
    if (missing <= tolerance) return Status::converged;
    if (start == 0 && factors == Factors::renew) factorise(matrix, w.system.factor, w.kept_fill);
    SUNLinSolSetup(w.linear, nullptr);
    std::fill(w.correction.begin(), w.correction.end(), 0.0);
    SUNLinSolSetZeroGuess(w.linear, SUNTRUE);
    const int flag = SUNLinSolSolve(w.linear, nullptr, w.x, w.b, tolerance);
    if (flag != SUNLS_SUCCESS && flag != SUNLS_RES_REDUCED) return Status::not_converged;
    for (std::size_t i = 0; i < x.size(); ++i) x[i] += w.correction[i];
    if (flag == SUNLS_SUCCESS) return Status::converged;
  }
  return Status::not_converged;
}

}  // namespace stillheap::solver

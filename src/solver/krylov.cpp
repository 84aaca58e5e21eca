#include "solver/krylov.hpp"

#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_pcg.h>
#include <sunlinsol/sunlinsol_spbcgs.h>

#include <cmath>

#include "base/error.hpp"
#include "solver/vector_kernels.hpp"

namespace stillheap::solver {

struct Krylov::Workspace {
  SUNContext context = nullptr;
  SUNLinearSolver linear = nullptr;
  N_Vector x = nullptr;
  N_Vector b = nullptr;
  const Sparse* matrix = nullptr;
  Factor factor;
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
  multiply(**static_cast<const Sparse**>(data), NV_DATA_S(in), NV_DATA_S(out));
  return 0;
}

int apply_preconditioner(void* data, N_Vector in, N_Vector out, realtype, int) {
  solve_factors(*static_cast<const Factor*>(data), NV_DATA_S(in), NV_DATA_S(out));
  return 0;
}

int nothing_to_set_up(void*) { return 0; }

}  // namespace

Krylov::Krylov(const Sparse& pattern, Kind kind, int most_iterations) : work_(std::make_unique<Workspace>()) {
  Workspace& w = *work_;
  w.factor = make_factor(pattern);
  w.residual.resize(pattern.rows());
  w.correction.resize(pattern.rows());
  if (SUNContext_Create(nullptr, &w.context) != 0) throw RunError("solver", "SUNDIALS gave no context", "");
  w.x = N_VMake_Serial(pattern.rows(), w.correction.data(), w.context);
  w.b = N_VMake_Serial(pattern.rows(), w.residual.data(), w.context);
  use_our_kernels(w.x);  // the solver's own vectors are cloned from x
  use_our_kernels(w.b);
  w.linear = kind == Kind::symmetric ? SUNLinSol_PCG(w.x, SUN_PREC_LEFT, most_iterations, w.context)
                                     : SUNLinSol_SPBCGS(w.x, SUN_PREC_RIGHT, most_iterations, w.context);
  if (w.linear == nullptr) throw RunError("solver", "SUNDIALS gave no linear solver", "");
  SUNLinSolSetATimes(w.linear, &w.matrix, apply_matrix);
  SUNLinSolSetPreconditioner(w.linear, &w.factor, nothing_to_set_up, apply_preconditioner);
  SUNLinSolInitialize(w.linear);
}

Krylov::~Krylov() = default;
Krylov::Krylov(Krylov&&) noexcept = default;
Krylov& Krylov::operator=(Krylov&&) noexcept = default;

Status Krylov::solve(const Sparse& matrix, const std::vector<double>& b, std::vector<double>& x, double tolerance,
                     Factors factors) {
  Workspace& w = *work_;
  w.matrix = &matrix;
  multiply(matrix, x.data(), w.residual.data());
  double norm2 = 0.0;
  for (std::size_t i = 0; i < b.size(); ++i) {
    w.residual[i] = b[i] - w.residual[i];
    norm2 += w.residual[i] * w.residual[i];
  }
  if (!std::isfinite(norm2)) return Status::not_converged;
  if (std::sqrt(norm2) <= tolerance) return Status::converged;
  if (factors == Factors::renew) factorise(matrix, w.factor);
  SUNLinSolSetup(w.linear, nullptr);
  std::fill(w.correction.begin(), w.correction.end(), 0.0);
  SUNLinSolSetZeroGuess(w.linear, SUNTRUE);
  const int flag = SUNLinSolSolve(w.linear, nullptr, w.x, w.b, tolerance);
  if (flag != SUNLS_SUCCESS && flag != SUNLS_RES_REDUCED) return Status::not_converged;
  for (std::size_t i = 0; i < x.size(); ++i) x[i] += w.correction[i];
  return flag == SUNLS_SUCCESS ? Status::converged : Status::not_converged;
}

}  // namespace stillheap::solver

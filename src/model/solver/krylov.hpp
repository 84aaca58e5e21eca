#pragma once
#include <memory>
#include <vector>

#include "model/solver/sparse.hpp"

namespace stillheap::solver {

enum class Kind { symmetric, general };

enum class Factors { renew, keep };

/// What becomes of fill the incomplete factors have no room for: a share of it goes to their diagonal, which serves
/// transport, or nothing does, which serves systems whose rows do not sum to about zero.
enum class Fill { shared, dropped };

enum class [[nodiscard]] Status{converged, not_converged};

/// Solves sparse systems again and again on one pattern: conjugate gradients (symmetric) or stabilised bi-conjugate
/// gradients (general), with the incomplete factors as preconditioner. What is missing and the answer are double; the
/// rounds that correct it are single precision where that serves, else double too (docs/decisions/0004).
/// Allocates on construction only.
class Krylov {
 public:
  Krylov(const Sparse& pattern, Kind kind, Fill fill = Fill::shared, int most_iterations = 1000);
  ~Krylov();
  Krylov(Krylov&&) noexcept;
  Krylov& operator=(Krylov&&) noexcept;

  /// Solves A x = b until the residual's 2-norm is below `tolerance`; x is the first guess and the answer.
  /// `factors` says whether the matrix changed enough to factorise anew or the last factors still serve.
  Status solve(const Sparse& matrix, const std::vector<double>& b, std::vector<double>& x, double tolerance,
               Factors factors = Factors::renew);

  struct Workspace;

 private:
  std::unique_ptr<Workspace> work_;
};

}  // namespace stillheap::solver

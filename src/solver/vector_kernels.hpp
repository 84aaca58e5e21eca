#pragma once
#include <cstddef>

#include "solver/sparse.hpp"

/// The loops over whole vectors of the Krylov methods, each doing in one pass what the method does between two
/// products. Sums are carried in lanes whose order is fixed, so the same input gives the same bits.
namespace stillheap::solver {

[[nodiscard]] double dot(std::size_t n, const double* a, const double* b) noexcept;

/// y = A x. Returns y w.
double multiply_dot(const Sparse& matrix, const double* x, double* y, const double* w) noexcept;

struct Dots {
  double with_w = 0.0;
  double with_itself = 0.0;
};
/// y = A x. Returns y w and y y.
Dots multiply_dots(const Sparse& matrix, const double* x, double* y, const double* w) noexcept;

/// x += a p and r -= a q. Returns r r.
double advance(std::size_t n, double a, const double* p, const double* q, double* x, double* r) noexcept;

/// r -= a q. Returns r r.
double subtract(std::size_t n, double a, const double* q, double* r) noexcept;

/// x += a p + c s and r -= c t. Returns r w and r r.
Dots advance_twice(std::size_t n, double a, const double* p, double c, const double* s, const double* t, double* x,
                   double* r, const double* w) noexcept;

/// x += a p.
void add(std::size_t n, double a, const double* p, double* x) noexcept;

/// p = r + b p.
void turn(std::size_t n, const double* r, double b, double* p) noexcept;

/// p = r + b (p - c v).
void turn_away(std::size_t n, const double* r, double b, double c, const double* v, double* p) noexcept;

}  // namespace stillheap::solver

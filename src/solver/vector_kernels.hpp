#pragma once
#include <sundials/sundials_nvector.h>

namespace stillheap::solver {

/// Gives a serial SUNDIALS vector our loops for what its Krylov solvers do most: sums, scalings and inner
/// products. The packaged ones carry one sum from element to element, which cannot run in step; ours carry eight.
/// The order of summing is fixed, so the same input gives the same bits.
void use_our_kernels(N_Vector vector) noexcept;

}  // namespace stillheap::solver

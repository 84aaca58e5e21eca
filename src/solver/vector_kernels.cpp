#include "solver/vector_kernels.hpp"

#include <nvector/nvector_serial.h>

#include <array>

#include "solver/clones.hpp"

namespace stillheap::solver {
namespace {

constexpr sunindextype lanes = 8;

STILLHEAP_CLONES realtype dot(N_Vector x, N_Vector y) {
  const sunindextype n = NV_LENGTH_S(x);
  const realtype* a = NV_DATA_S(x);
  const realtype* b = NV_DATA_S(y);
  std::array<realtype, lanes> sum{};
  sunindextype i = 0;
  for (; i + lanes <= n; i += lanes)
    for (sunindextype lane = 0; lane < lanes; ++lane) sum[lane] += a[i + lane] * b[i + lane];
  realtype total = 0.0;
  for (; i < n; ++i) total += a[i] * b[i];
  for (const realtype s : sum) total += s;
  return total;
}

/// z = a x + b y; z may be x or y.
STILLHEAP_CLONES void linear_sum(realtype a, N_Vector x, realtype b, N_Vector y, N_Vector z) {
  const sunindextype n = NV_LENGTH_S(x);
  const realtype* p = NV_DATA_S(x);
  const realtype* q = NV_DATA_S(y);
  realtype* out = NV_DATA_S(z);
#pragma GCC ivdep
  for (sunindextype i = 0; i < n; ++i) out[i] = a * p[i] + b * q[i];
}

STILLHEAP_CLONES void scale(realtype a, N_Vector x, N_Vector z) {
  const sunindextype n = NV_LENGTH_S(x);
  const realtype* p = NV_DATA_S(x);
  realtype* out = NV_DATA_S(z);
#pragma GCC ivdep
  for (sunindextype i = 0; i < n; ++i) out[i] = a * p[i];
}

/// z = sum of c_k x_k; z may be x_0.
STILLHEAP_CLONES int linear_combination(int count, realtype* c, N_Vector* x, N_Vector z) {
  if (count == 3) {
    const sunindextype n = NV_LENGTH_S(z);
    const realtype* p = NV_DATA_S(x[0]);
    const realtype* q = NV_DATA_S(x[1]);
    const realtype* r = NV_DATA_S(x[2]);
    realtype* out = NV_DATA_S(z);
#pragma GCC ivdep
    for (sunindextype i = 0; i < n; ++i) out[i] = c[0] * p[i] + c[1] * q[i] + c[2] * r[i];
    return 0;
  }
  scale(c[0], x[0], z);
  for (int k = 1; k < count; ++k) linear_sum(1.0, z, c[k], x[k], z);
  return 0;
}

}  // namespace

void use_our_kernels(N_Vector vector) noexcept {
  vector->ops->nvdotprod = dot;
  vector->ops->nvlinearsum = linear_sum;
  vector->ops->nvscale = scale;
  vector->ops->nvlinearcombination = linear_combination;
}

}  // namespace stillheap::solver

#pragma once
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

/// Ensemble smoother with multiple data assimilation. Source: Emerick and Reynolds 2013, "Ensemble smoother with
/// multiple data assimilation", Computers & Geosciences 55, 3-15.
namespace stillheap::calibrate {

/// One vector a member: of parameters, or of predictions.
using Vectors = std::vector<std::vector<double>>;

/// What was observed, and how far each value may be off (one standard deviation, errors independent).
struct Observed {
  std::vector<double> values;
  std::vector<double> deviations;
};

/// One assimilation with the errors' variance inflated by `inflation`:
///
///   m_j <- m_j + C_md (C_dd + a C_d)^-1 (d + sqrt(a) C_d^(1/2) z_j - d_j)
///
/// with covariances from the ensemble and z_j standard normal; its equations 11 and 12. The noise z is drawn from
/// `seed` and shifted so that its mean over the members is zero, which takes its sampling error out of the mean.
/// A member whose prediction is empty (its run failed) gives no covariance and stays as it is.
/// Throws InputError when fewer than three members predict or shapes do not agree.
void assimilate(Vectors& members, const Vectors& predictions, const Observed& observed, double inflation,
                std::uint64_t seed);

/// Predictions of all members, in their order; empty for one whose run failed.
using Predict = std::function<Vectors(const Vectors& members)>;

/// `times` assimilations with equal inflation, so that the inverses add up to one (its section 4). `keep_within`
/// holds every parameter inside -x..x after each. The first predictions may be given.
void smooth(Vectors& members, const Predict& predict, const Observed& observed, int times, double keep_within,
            std::uint64_t seed);

/// Solves A x = b for all right sides by Cholesky; A symmetric positive definite, row-major n x n, destroyed.
/// Throws RunError when A is not positive definite.
void solve_positive(std::vector<double>& a, std::size_t n, Vectors& right_sides);

}  // namespace stillheap::calibrate

#pragma once
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "model/forecast/prior.hpp"
#include "model/forecast/run_history.hpp"

namespace stillheap::forecast {

/// One member: the request with its materials shifted, and its parameters.
struct Member {
  Request request;
  physics::Parameters parameters;
};

/// Quasi-random points, evenly spread between 0 and 1: Sobol points shifted by the seed. One row a point.
[[nodiscard]] std::vector<std::vector<double>> even_points(std::size_t dimensions, int count, std::uint64_t seed);

/// The same, spread as standard normal numbers and held within 2.5 standard deviations.
[[nodiscard]] std::vector<std::vector<double>> normal_points(std::size_t dimensions, int count, std::uint64_t seed);

/// Where the inputs stand in a row of `member_deviations`: the blend's first, then the rows of `parameter_rows()`.
enum Input : std::size_t { input_density, input_moisture, input_pools, input_parameters = input_pools + pools };

[[nodiscard]] std::size_t input_count() noexcept;

// Spreads of the blend as filled against the blend as planned. Chosen.
inline constexpr double moisture_deviation = 0.03;  // wet basis, absolute
inline constexpr double density_deviation = 0.08;   // of the logarithm
inline constexpr double pool_deviation = 0.20;      // of the logarithm, each pool

/// The request as one member: its blend and its constants, so many deviations off those of its materials. One deviate
/// an input; more are not looked at.
[[nodiscard]] Member member_at(const Request& request, const std::vector<double>& deviations);

/// How far each input of each member stands off the value of its materials, in its standard deviations. One row a
/// member. What published heaps taught is a draw of prior.hpp for each member, with the heap's own deviate on it.
/// `draws` other than those are for a heap that must not know what it taught itself, here and below.
[[nodiscard]] std::vector<std::vector<double>> member_deviations(const material::Blend& blend, int count,
                                                                 std::uint64_t seed,
                                                                 std::span<const PriorDraw> draws = prior_draws());

/// The member of the middle line: central constants (central.hpp), or the mean of what the heap's own readings left.
[[nodiscard]] Member middle_member(const Request& request, std::span<const PriorDraw> draws = prior_draws());

/// Draws members quasi-randomly (Sobol points, shifted by the seed): every row of `parameter_rows()`, and the
/// blend's moisture, density and pools. Nobody knows their mix better than that before measuring. Of a heap that
/// learned from its own readings the members are its draws.
[[nodiscard]] std::vector<Member> draw_members(const Request& request, int count, std::uint64_t seed,
                                               std::span<const PriorDraw> draws = prior_draws());

/// Runs all members on the draft grid, on as many threads as there are processors. Results stand in the order of
/// the members, whatever thread ran them. Stops early and returns fewer when `keep_on` says so.
[[nodiscard]] std::vector<RunHistory> run_members(const std::vector<Member>& members,
                                                  const std::function<bool(double)>& keep_on);

/// Runs those members that have no track yet and gives them theirs, in any order. `keep_on` is asked after each step of
/// each member, `changed` told after each member; neither is called twice at once. A member that is stopped on the way
/// gets none. `most_threads` 0: as many as there are processors.
void run_members(const std::vector<Member>& members, std::vector<std::optional<RunHistory>>& tracks,
                 const std::function<bool(double)>& keep_on, const std::function<void()>& changed,
                 unsigned most_threads = 0);

/// The tracks that can make a band: of members that came to their end.
[[nodiscard]] std::vector<RunHistory> finished_tracks(const std::vector<std::optional<RunHistory>>& tracks);

/// Percentile of a sample, 0..1, linear between order statistics.
[[nodiscard]] double percentile(std::vector<double> values, double share);

}  // namespace stillheap::forecast

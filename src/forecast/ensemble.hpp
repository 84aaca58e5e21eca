#pragma once
#include <functional>
#include <optional>
#include <vector>

#include "forecast/track.hpp"

namespace stillheap::forecast {

/// One member: the request with its materials shifted, and its parameters.
struct Member {
  Request request;
  physics::Parameters parameters;
};

/// Draws members quasi-randomly (Sobol points, shifted by the seed): every row of `parameter_rows()`, and the
/// blend's moisture, density and pools. Nobody knows their mix better than that before measuring.
[[nodiscard]] std::vector<Member> draw_members(const Request& request, int count, std::uint64_t seed);

/// Runs all members on the draft grid, on as many threads as there are processors. Results stand in the order of
/// the members, whatever thread ran them. Stops early and returns fewer when `keep_on` says so.
[[nodiscard]] std::vector<Track> run_members(const std::vector<Member>& members,
                                             const std::function<bool(double)>& keep_on);

/// Runs those members that have no track yet and gives them theirs, in any order. `keep_on` is asked after each step of
/// each member, `changed` told after each member; neither is called twice at once. A member that is stopped on the way
/// gets none.
void run_members(const std::vector<Member>& members, std::vector<std::optional<Track>>& tracks,
                 const std::function<bool(double)>& keep_on, const std::function<void()>& changed);

/// The tracks that can make a band: of members that came to their end.
[[nodiscard]] std::vector<Track> finished_tracks(const std::vector<std::optional<Track>>& tracks);

/// Percentile of a sample, 0..1, linear between order statistics.
[[nodiscard]] double percentile(std::vector<double> values, double share);

}  // namespace stillheap::forecast

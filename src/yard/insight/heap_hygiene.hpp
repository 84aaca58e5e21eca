#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/base/geometry.hpp"
#include "domain/rules/hygiene.hpp"
#include "yard/insight/track.hpp"

/// Hygiene rules on what the probes read, position by position, and for how much of the heap that speaks.
namespace stillheap::insight {

/// A piece of the material: all pieces are of one size.
struct MaterialPoint {
  Point plan;
  double height_m = 0.0;
  double to_face_m = 0.0;  ///< to the nearest cooling face: wall, channel, top or base
};

/// A probe in the material.
struct ProbePoint {
  Point plan;
  double height_m = 0.0;
  double to_face_m = 0.0;
};

/// A probe speaks for the material this near. Chosen: heat evens out over sqrt(k / C * t) = 0.14 m in the three days of
/// the hold rules, with k = 0.2 W/(m K) and C = 2.5 MJ/(m3 K) out of the ranges of Ahn et al. 2009; rounded.
inline constexpr double near_probe_m = 0.15;

/// For how much of the material a set of probes speaks.
struct Spoken {
  double near = 0.0;     ///< share within near_probe_m of one of them: read, or nearly
  double as_deep = 0.0;  ///< share that lies at least as far from every cooling face as the shallowest of them:
                         ///< reasoned, since a heap is hottest far from its cool faces, not read
};
[[nodiscard]] Spoken spoken_for(std::span<const MaterialPoint> material, std::span<const ProbePoint> probes);

/// One rule at one probe position.
struct ProbeVerdict {
  Spot spot;
  rules::Verdict verdict;
};

/// One rule over all positions.
struct RuleFinding {
  std::string rule_id;
  std::vector<ProbeVerdict> probes;
  bool met_at_every_probe = false;
  std::optional<Spoken> spoken;  ///< of the positions that met it and stand in the material; nothing while none is
                                 ///< known to, or the vessel is not known
  Statement statement;
  [[nodiscard]] std::size_t probes_met() const noexcept;
};

/// What is known of the vessel: where the material is and where each track's probe is, if it can be told.
struct ProbeView {
  std::vector<MaterialPoint> material;            ///< empty: not known
  std::vector<std::optional<ProbePoint>> probes;  ///< one a track, or empty
};

/// Judges every rule at every position that has temperature readings, up to `now_s`.
/// No rule is called met for the heap: the statement says at how many positions and for what share.
[[nodiscard]] std::vector<RuleFinding> heap_hygiene(std::span<const Track> tracks, const ProbeView& view,
                                                    const rules::Circumstances& circumstances, double now_s);

}  // namespace stillheap::insight

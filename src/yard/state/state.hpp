#pragma once
#include <optional>
#include <string>
#include <vector>

#include "planning/site/site.hpp"
#include "yard/insight/adviser.hpp"
#include "yard/insight/alerts.hpp"
#include "yard/insight/heap_hygiene.hpp"
#include "yard/insight/phase.hpp"
#include "yard/insight/readiness.hpp"
#include "yard/record/read.hpp"
#include "yard/state/outside.hpp"

/// What the records say of a vessel: the bridge between record and insight.
namespace stillheap::yard {

/// All that insight says of one fill at one moment.
struct VesselState {
  record::VesselGlance glance;
  record::Instant at{};
  std::vector<insight::Track> tracks;
  insight::PhaseAnswer phase;
  std::vector<insight::RuleFinding> hygiene;
  std::vector<insight::Statement> alerts;
  insight::Readiness worms, harvest;
  std::vector<insight::Statement> tests;
  std::optional<insight::Statement> salt;
  bool worms_are_in = false;
  std::optional<std::string> no_sprinkling;  ///< why the day's sprinkling is not asked for
  bool hands_off = false;                    ///< a danger: no other work at the heap is asked for
};

/// The design of a vessel in the site file: by the name of its design, else by its own name, else the only one there is
/// when the vessel names none; nothing when no site is given.
[[nodiscard]] const vessel::Design* design_of(const record::Vessel& vessel, const site::Site* site);

/// The state of the fill in a vessel. Reads all readings of the fill. The glance must have a fill.
[[nodiscard]] VesselState state_of(const record::Store& store, const record::VesselGlance& glance,
                                   const Setting& setting, record::Instant at);

/// The same without a store, from rows already read. `readings`, `tests` and `lot_tests` in order of time.
[[nodiscard]] VesselState state_from(const record::VesselGlance& glance, std::span<const record::Reading> readings,
                                     std::span<const record::LabTest> tests, std::span<const record::LabTest> lot_tests,
                                     const vessel::Design* design, record::Instant at,
                                     const insight::Outside& outside = {});

/// The hygiene statement worth one line: of the rules met at most positions, the one that speaks for most. Nothing when
/// none is met anywhere.
[[nodiscard]] const insight::RuleFinding* best_rule(const VesselState& state) noexcept;

}  // namespace stillheap::yard

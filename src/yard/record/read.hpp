#pragma once
#include <map>
#include <optional>
#include <vector>

#include "yard/record/entries.hpp"
#include "yard/record/store.hpp"

/// Reading the store. Unless it says history, only what stands now: not corrected, not withdrawn.
namespace stillheap::record {

/// All entries of a kind that stand now, in the order they were first stored.
template <class Entry>
[[nodiscard]] std::vector<Entry> all(const Store& store);

/// Every statement about one thing, oldest first, corrected and withdrawn ones too. `id`: of any of them.
/// Empty when nothing has this id.
template <class Entry>
[[nodiscard]] std::vector<Entry> history(const Store& store, const std::string& id);

/// The statement with this id, or what stands for it now. Nothing when unknown or withdrawn.
template <class Entry>
[[nodiscard]] std::optional<Entry> current(const Store& store, const std::string& id);

/// Entries that stand now and speak of one fill, in order of time (or of storing). Not for vessels, lots and the like.
template <class Entry>
[[nodiscard]] std::vector<Entry> of_fill(const Store& store, const std::string& fill_id);

/// Readings of a fill with begin <= at < end, in order of time. One measure, or all.
[[nodiscard]] std::vector<Reading> readings_between(const Store& store, const std::string& fill_id, Instant begin,
                                                    Instant end, std::optional<Measure> measure = std::nullopt);

/// Readings of a fill that stand and correct another, in order of time.
[[nodiscard]] std::vector<Reading> correcting_readings(const Store& store, const std::string& fill_id);

/// The last reading of each place and measure of a fill. One index look-up each, however many readings there are.
[[nodiscard]] std::vector<Reading> last_readings(const Store& store, const std::string& fill_id);

/// A vessel as the yard's first page shows it.
struct VesselGlance {
  Vessel vessel;
  std::optional<Fill> fill;           ///< the one that is in it now: latest, neither harvested nor emptied
  std::vector<Reading> last;          ///< of that fill, one a place and measure
  std::map<EventKind, Event> events;  ///< the last of each kind
};

/// Later than anything that is noted.
inline constexpr Instant end_of_time{std::chrono::seconds{1LL << 60}};

/// All vessels that stand now, by name, as they were at `until`: no fill, reading or event of later counts.
[[nodiscard]] std::vector<VesselGlance> yard(const Store& store, Instant until = end_of_time);

/// Of a lot, what has gone into fills; without the use `but` (an id, may be empty).
[[nodiscard]] double used_of_lot_kg(const Store& store, const std::string& lot_id, const std::string& but);

/// A fill and what ended it.
struct VesselFill {
  Fill fill;
  std::optional<Event> ended;  ///< the first time it was harvested or emptied; nothing while it is in the vessel
};

/// Every fill of a vessel that stands now, the latest first. Empty when the vessel is unknown.
[[nodiscard]] std::vector<VesselFill> fills_of(const Store& store, const std::string& vessel_id);

/// How many statements there are of each kind, corrected ones too: {"readings", 5000000}. Counts whole tables.
[[nodiscard]] std::map<std::string, long long> counts(const Store& store);

}  // namespace stillheap::record

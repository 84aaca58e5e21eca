#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/base/error.hpp"
#include "yard/record/entries.hpp"
#include "yard/record/store.hpp"

/// What can be but hardly ever is. The impossible is refused by `add` wherever an entry comes from; the unlikely is
/// asked back on the page, needs --sure on the command line, and is held and listed by the import.
namespace stillheap::record {

/// What is known of the yard beside its records. Empty lists: not known, so nothing is asked of it.
struct YardFacts {
  UnitSystem units = UnitSystem::metric;  ///< in which it is asked back
  struct Design {
    std::string name;
    double fill_height_m = 0.0;
    double reach_m = 0.0;  ///< from the middle to the farthest wall
    double volume_m3 = 0.0;
    struct Box {
      double half_length_m = 0.0, half_width_m = 0.0;  ///< along east and along north, as angles count
    };
    std::optional<Box> box{};  ///< of a rectangular vessel: its wall is nearer than `reach_m` in most directions
  };
  struct LabKey {
    std::string key, unit;
  };
  std::vector<Design> designs;
  std::vector<std::string> feedstocks;
  std::vector<LabKey> lab_keys;
};

using Doubts = std::vector<Problem>;

/// Everything unlikely about an entry, each with what makes it so. Empty for the other kinds of entry.
[[nodiscard]] Doubts doubts(const Store& store, const Vessel& vessel, const YardFacts& facts);
[[nodiscard]] Doubts doubts(const Store& store, const Lot& lot, const YardFacts& facts);
[[nodiscard]] Doubts doubts(const Store& store, const Fill& fill, const YardFacts& facts);
[[nodiscard]] Doubts doubts(const Store& store, const LotUse& use, const YardFacts& facts);
[[nodiscard]] Doubts doubts(const Store& store, const Reading& reading, const YardFacts& facts);
[[nodiscard]] Doubts doubts(const Store& store, const Event& event, const YardFacts& facts);
[[nodiscard]] Doubts doubts(const Store& store, const LabTest& test, const YardFacts& facts);
[[nodiscard]] Doubts doubts(const Store& store, const Spreading& spreading, const YardFacts& facts);
template <class Entry>
[[nodiscard]] Doubts doubts(const Store&, const Entry&, const YardFacts&) {
  return {};
}

/// What taking back a vessel, a fill or a lot hides with it: the entries that speak of it and stand. `id`: of any
/// statement about it. Empty when nothing does, and for the other kinds.
[[nodiscard]] Doubts withdrawal_doubts(const Store& store, const std::string& id);

/// What is asked back before this entry is stored: as a statement, or as the withdrawal it is.
template <class Entry>
[[nodiscard]] Doubts asked_back(const Store& store, const Entry& entry, const YardFacts& facts) {
  return entry.mark.withdrawn ? withdrawal_doubts(store, entry.mark.corrects) : doubts(store, entry, facts);
}

/// The same of a value alone, and of a place in a fill; nothing when they are usual.
[[nodiscard]] Doubts value_doubts(Measure measure, double value, UnitSystem units);
[[nodiscard]] Doubts place_doubts(const Store& store, const std::string& fill_id, const Place& place,
                                  const YardFacts& facts);

}  // namespace stillheap::record

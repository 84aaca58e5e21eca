#pragma once
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

/// The same of a value alone, and of a place in a fill; nothing when they are usual.
[[nodiscard]] Doubts value_doubts(Measure measure, double value, UnitSystem units);
[[nodiscard]] Doubts place_doubts(const Store& store, const std::string& fill_id, const Place& place,
                                  const YardFacts& facts);

}  // namespace stillheap::record

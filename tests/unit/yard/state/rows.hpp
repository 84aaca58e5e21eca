#pragma once
#include <string>
#include <vector>

#include "domain/vessel/design.hpp"
#include "yard/record/read.hpp"

/// Invented rows of the record for the tests of the bridge.
namespace stillheap::yard::test {

inline record::Instant at(const std::string& text) { return record::parse_instant(text, "UTC", "test"); }

inline record::VesselGlance glance(const std::string& name = "north 1") {
  record::VesselGlance one;
  one.vessel.name = name;
  one.vessel.design = "north";
  one.vessel.mark.thing = "vessel-" + name;
  record::Fill fill;
  fill.mark.thing = "fill-" + name;
  fill.batch = "2026-1";
  fill.filled_at = at("2026-03-02T08:00Z");
  one.fill = fill;
  return one;
}

/// Daily at eight from the day after filling on.
inline std::vector<record::Reading> daily(const std::vector<double>& values, const std::string& place = "core") {
  std::vector<record::Reading> rows;
  for (std::size_t i = 0; i < values.size(); ++i) {
    record::Reading row;
    row.value = values[i];
    row.at = at("2026-03-02T08:00Z") + std::chrono::hours{24 * (static_cast<int>(i) + 1)};
    row.place.name = place;
    rows.push_back(row);
  }
  return rows;
}

inline vessel::Design design() {
  vessel::Design one;
  one.name = "north";
  one.diameter_m = 1.2;
  one.height_m = 1.3;
  one.fill_height_m = 1.2;
  one.channels = {{{0.3, 0.0}, 0.1}};
  return one;
}

}  // namespace stillheap::yard::test

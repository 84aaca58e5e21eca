#pragma once
#include <span>
#include <vector>

#include "yard/insight/readiness.hpp"
#include "yard/insight/track.hpp"
#include "yard/record/series_rows.hpp"

/// Rows of the record as what insight takes.
namespace stillheap::yard {

/// Tracks of what insight looks at, one a place and measure, in the order in which the places were first read.
/// Readings in order of time, as record::of_fill gives them.
[[nodiscard]] std::vector<insight::Track> tracks_of(std::span<const record::Reading> readings,
                                                    record::Instant filled_at);

/// The same from bare numbers.
[[nodiscard]] std::vector<insight::Track> tracks_of(std::span<const record::SeriesRows> series,
                                                    record::Instant filled_at);

/// Laboratory values of the fill and of the lots that went into it. Times count from filling.
[[nodiscard]] std::vector<insight::LabValue> lab_values(std::span<const record::LabTest> of_fill,
                                                        std::span<const record::LabTest> of_lots,
                                                        record::Instant filled_at);

/// The warmest probe of one day: the place that a core probe means.
struct CoreDay {
  double day = 0.0;  ///< since filling
  double celsius = 0.0;
};
/// Daily, of the temperatures up to `until`.
[[nodiscard]] std::vector<CoreDay> core_days(const record::Store& store, const record::Fill& fill,
                                             record::Instant until);

/// The mean of the places read on one day, of moisture (wet basis) or oxygen (by volume). Carbon dioxide tells the
/// oxygen of a day on which that was not read: as much as there is of the one is gone of the other (chosen; so for
/// sugars and wood with air, not for fats nor where air is lacking).
struct PlacesDay {
  insight::Sensed sensed{};
  double day = 0.0;  ///< since filling
  double value = 0.0;
};
[[nodiscard]] std::vector<PlacesDay> moisture_and_oxygen_days(const record::Store& store, const record::Fill& fill,
                                                              record::Instant until);

/// Seconds since filling.
[[nodiscard]] double since_filling_s(record::Instant at, record::Instant filled_at) noexcept;

}  // namespace stillheap::yard

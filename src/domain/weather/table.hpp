#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/delimited.hpp"

/// Moments and gaps of a year of weather: small pieces shared by the EPW and CSV readers.
namespace stillheap::weather {

/// A moment of a year without zone.
struct Moment {
  int year = 0, month = 0, day = 0, hour = 0;  ///< month and day from 1
  bool operator==(const Moment&) const = default;
};

/// ISO 8601: 2023-07-05, 2023-07-05T14:00, 2023-07-05 14:00:00. nullopt when it is not one, has a zone, is not on the
/// hour, or names a day that does not exist. Hour 24 is refused: write 00 of the next day.
[[nodiscard]] std::optional<Moment> moment_of(std::string_view text);

/// Hours since 1 January 1970 00:00 in the proleptic Gregorian calendar.
[[nodiscard]] long hours_since_epoch(const Moment& moment);
[[nodiscard]] Moment moment_at(long hours_since_epoch);
/// "2023-07-05 14:00"
[[nodiscard]] std::string to_text(const Moment& moment);
/// Hour 0..8759 of a year without leap day; nullopt on 29 February.
[[nodiscard]] std::optional<int> hour_of_year(const Moment& moment);

/// A run of missing values, both ends counted, in steps.
struct Gap {
  std::size_t first = 0, last = 0;
  [[nodiscard]] std::size_t length() const noexcept { return last - first + 1; }
};

/// Runs of NaN; one over the end of the year counts as two.
[[nodiscard]] std::vector<Gap> gaps_of(const std::vector<double>& values);

/// Replaces NaN by straight lines between its neighbours, round the year's end. Does nothing if all are NaN.
void bridge(std::vector<double>& values);

}  // namespace stillheap::weather

#pragma once
#include <optional>
#include <vector>

#include "model/forecast/discrepancy.hpp"
#include "model/forecast/run_history.hpp"

namespace stillheap::forecast {

/// The middle line, the draft run of the same parameters, and the ensemble's runs that came to their end.
struct Ensemble {
  const RunHistory& middle;
  const RunHistory& draft;
  const std::vector<RunHistory>& members;
  Grid grid = Grid::standard;  ///< of the middle line
  Discrepancy misses = discrepancy;
};

/// How a kind of number misses real heaps beyond what the ensemble's inputs explain, see discrepancy.hpp.
enum class Miss { none, peak, average, time, loss, oxygen };

/// A kind of number: how it misses, and between which ends it must lie.
struct Kind {
  Miss miss = Miss::none;
  double least = 0.0, most = 1e300;
};

inline constexpr Kind plain_kind{};
inline constexpr Kind share_kind{Miss::none, 0.0, 1.0};
inline constexpr Kind peak_kind{Miss::peak, -100.0, 100.0};
inline constexpr Kind average_kind{Miss::average, -100.0, 100.0};
inline constexpr Kind days_kind{Miss::time};
inline constexpr Kind loss_kind{Miss::loss, 0.0, 1.0};
inline constexpr Kind oxygen_kind{Miss::oxygen, 0.0, 0.21};
inline constexpr Kind either_way_kind{Miss::none, -1e300, 1e300};

/// The members' numbers as they would come out on the middle line's grid and in real heaps: each moved by what the
/// middle line differs from its draft run, then spread by the discrepancy of its kind to five equally likely numbers,
/// and held within the kind's ends. A middle line on the draft grid is moved and spread by what that grid misses, too.
/// What is not a finite number is left out. In no order.
[[nodiscard]] std::vector<double> likely_values(double line, double draft, const std::vector<double>& members,
                                                const Kind& kind, Grid grid, const Discrepancy& misses = discrepancy);

/// The 10th and 90th percentile of the likely values, and never without the line itself: where the line lies beyond one
/// of them, as it may where a number answers its inputs crookedly, the band reaches to the line. Low, middle and high
/// are in order whatever came in; without members the band has no width.
[[nodiscard]] Banded band_around(double line, double draft, const std::vector<double>& members, const Kind& kind,
                                 Grid grid, const Discrepancy& misses = discrepancy);

/// A band from three numbers of which the ends may have changed places on the way through a falling relation.
[[nodiscard]] Banded in_order(double middle, double one_end, double other_end) noexcept;

/// The day on which a run's self-heating ends; none where it does not.
[[nodiscard]] std::optional<double> cool_day_of(const RunHistory& run) noexcept;

/// The days on which the self-heating of an ensemble ends.
struct CoolDays {
  std::optional<double> line, draft;  ///< of the middle line; of the same constants on the draft grid
  std::vector<double> members;        ///< of those that have one
};

/// That day of the middle line with the band of the members that have one, as likely values and as a band. None where
/// the middle line has none. The only home of the day that is told, before and after learning.
[[nodiscard]] std::vector<double> likely_cool_days(const CoolDays& days, Grid grid,
                                                   const Discrepancy& misses = discrepancy);
[[nodiscard]] std::optional<Banded> cool_day_band(const CoolDays& days, Grid grid,
                                                  const Discrepancy& misses = discrepancy);
[[nodiscard]] std::vector<double> likely_cool_days(const Ensemble& ensemble);
[[nodiscard]] std::optional<Banded> cool_day_band(const Ensemble& ensemble);

/// How many of the members are cool for good within the forecast, 0..1.
[[nodiscard]] double cool_share(const Ensemble& ensemble) noexcept;

/// A number of a run, of every member: `of` takes a RunHistory.
template <class Of>
[[nodiscard]] std::vector<double> of_members(const Ensemble& ensemble, Of&& of) {
  std::vector<double> values;
  for (const RunHistory& run : ensemble.members) values.push_back(of(run));
  return values;
}

}  // namespace stillheap::forecast
